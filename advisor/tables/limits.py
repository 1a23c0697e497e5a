"""Flat tables of single numbers: limits and costs."""

from __future__ import annotations

from advisor.tables.entry import Cost, Quantity, TableFile


class LimitsFile(TableFile):
    """rules/tables/limits.yaml: numbers that rules and models use, in SI."""

    limits: dict[str, Quantity]


class CostsFile(TableFile):
    """rules/tables/costs.yaml: what things cost in minutes, or minutes per metre."""

    costs: dict[str, Cost]
