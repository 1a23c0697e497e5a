"""The tables as shipped, read once."""

from __future__ import annotations

import shutil

import pytest

from advisor.tables import load_tables, rules_dir


@pytest.fixture(scope="session")
def tables():
    return load_tables(rules_dir())


@pytest.fixture
def rules(tmp_path):
    """A copy of the tables to spoil."""
    copy = tmp_path / "rules"
    shutil.copytree(rules_dir(), copy)
    return copy
