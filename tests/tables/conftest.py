"""The tables as shipped, read once."""

from __future__ import annotations

import shutil

import pytest

from advisor.tables import rules_dir
from tests.cases.jobs import tables as shipped


@pytest.fixture(scope="session")
def tables():
    return shipped()


@pytest.fixture
def rules(tmp_path):
    """A copy of the tables to spoil."""
    copy = tmp_path / "rules"
    shutil.copytree(rules_dir(), copy)
    return copy
