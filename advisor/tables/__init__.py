"""Strict readers of rules/sources.yaml, rules/tables and rules/words."""

from advisor.tables.entry import Entry
from advisor.tables.load import load_tables
from advisor.tables.place import rules_dir
from advisor.tables.regions import REGIONS
from advisor.tables.tables import Tables

__all__ = ["REGIONS", "Entry", "Tables", "load_tables", "rules_dir"]
