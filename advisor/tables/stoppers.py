"""Stoppers: what a head passes only slowly, or must not enter."""

from __future__ import annotations

from typing import Annotated, Literal

from advisor.tables.entry import Graded, Kind, TableFile, by_name
from advisor.tables.regions import Region

Passes = Literal["no", "slow"]


class StopperKind(Kind, Graded):
    """A kind of stopper: whether it can be passed each way, why not, and what to do instead."""

    words: dict[Region, str]
    passes_down: Passes
    passes_up: Passes
    why: str
    instead: str
    caution: str | None = None


class StoppersFile(TableFile):
    """rules/tables/stoppers.yaml."""

    stoppers: Annotated[dict[str, StopperKind], by_name]
