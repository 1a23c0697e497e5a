"""Fixtures: where they let a rod in, and how their water tells them apart."""

from __future__ import annotations

from typing import Annotated, Literal

from advisor.tables.entry import Flow, Graded, Kind, Length, Quantity, TableFile, YesNo, by_name
from advisor.tables.regions import Region


class FixtureKind(Kind, Graded):
    """A kind of fixture; `rim` is how far its overflow edge stands above the floor.

    `level` says how much a complaint about it tells. `flow` is how fast its water comes and `litres` how much
    at once: facts of the trade for who looks them up, nothing reckons with them.
    """

    opening: str | None = None
    hot: YesNo = False  # it may discharge hot water on whoever works there
    outlet_nominal: dict[Region, Length]
    rim: Length
    level: Literal["low", "high", "any"]
    flow: Flow | None = None
    litres: Quantity | None = None
    signature: str


class FixturesFile(TableFile):
    """rules/tables/fixtures.yaml."""

    fixtures: Annotated[dict[str, FixtureKind], by_name]
