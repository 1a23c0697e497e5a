"""The rule base as shipped, and a small one to be spoilt."""

from __future__ import annotations

from pathlib import Path

import pytest
from small_base import Small

from advisor.rulebase import RuleBase, load_rules
from advisor.tables import Tables, rules_dir
from tests.cases.jobs import tables as shipped


@pytest.fixture
def small(tmp_path: Path) -> Small:
    return Small(tmp_path)


@pytest.fixture(scope="session")
def tables() -> Tables:
    return shipped()


@pytest.fixture(scope="session")
def base(tables: Tables) -> RuleBase:
    return load_rules(rules_dir(), tables.limits, tables.sources.keys())
