"""Stoppers: what a head must not enter."""

from __future__ import annotations

from typing import Annotated

from advisor.tables.entry import Graded, Kind, TableFile, YesNo, by_name
from advisor.tables.regions import Region


class StopperKind(Kind, Graded):
    """A kind of stopper: why it ends a push, what to do instead, and whether it is a tank or pumped."""

    words: dict[Region, str]
    why: str
    instead: str
    tank: YesNo = False
    pump: YesNo = False


class StoppersFile(TableFile):
    """rules/tables/stoppers.yaml."""

    stoppers: Annotated[dict[str, StopperKind], by_name]
