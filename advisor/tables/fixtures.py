"""Fixtures: where they let a rod in, and how their water tells them apart."""

from __future__ import annotations

from typing import Annotated, Literal

from advisor.tables.entry import Flow, Graded, Kind, Length, Quantity, TableFile, by_name
from advisor.tables.regions import Region


class FixtureKind(Kind, Graded):
    """A kind of fixture; `rim` is how far its overflow edge stands above the floor.

    `level` and `discharge` say how much a complaint about it tells; `litres` is one discharge.
    """

    opening: str | None = None
    outlet_nominal: dict[Region, Length]
    rim: Length
    level: Literal["low", "high", "any"]
    discharge: Literal["big", "small"]
    flow: Flow | None = None
    litres: Quantity | None = None
    signature: str


class FixturesFile(TableFile):
    """rules/tables/fixtures.yaml."""

    fixtures: Annotated[dict[str, FixtureKind], by_name]
