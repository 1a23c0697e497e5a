"""Stoppers: what a head must not enter."""

from __future__ import annotations

from typing import Annotated

from advisor.tables.entry import Graded, Kind, TableFile, YesNo, by_name
from advisor.tables.regions import Region


class StopperKind(Kind, Graded):
    """A kind of stopper: why it ends a push, what to do instead, and whether it is a tank or pumped,
    or a pit that gathers the gas of sewage."""

    words: dict[Region, str]
    why: str
    instead: str
    tank: YesNo = False
    pump: YesNo = False
    gas: YesNo = False
    beside: YesNo = False  # `instead` sends to what opens right beside it

    def told_instead(self, shut_beside: bool) -> str:
        """What to do instead; nothing that sends to an opening of which is told that it does not open."""
        return "" if self.beside and shut_beside else self.instead


class StoppersFile(TableFile):
    """rules/tables/stoppers.yaml."""

    stoppers: Annotated[dict[str, StopperKind], by_name]
    ends: tuple[str, ...]
