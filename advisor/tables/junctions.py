"""Junctions: how a branch turns into the line it joins."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import GetPydanticSchema
from pydantic_core import core_schema

from advisor.quantity import Chances, Estimate
from advisor.tables.bends import Allowed, RadiusRule
from advisor.tables.entry import (
    Angle,
    Graded,
    Kind,
    Share,
    TableFile,
    as_estimate,
    by_name,
    one_of,
)
from advisor.tables.likely import PlainShares, Stock, YearShares
from advisor.tables.regions import Region

Lie = Annotated[str, one_of("stack", "flat", "drop", "vent", "hung")]
Shape = Literal[
    "wye",
    "combination",
    "sanitary tee",
    "straight tee",
    "double sanitary tee",
    "double wye",
    "double fixture",
    "saddle",
    "chamber",
    "backdrop",
    "cross",
]
LEGS = ("short", "long", "one-piece")


class _Legs(Graded):
    shares: PlainShares


def _legs(legs: _Legs) -> Chances:
    unknown = {name for name, _ in legs.shares} - set(LEGS)
    if unknown:
        raise ValueError(f"legs are short, long or one-piece; got {', '.join(sorted(unknown))}")
    return Chances(legs.shares, legs.evidence)


Legs = Annotated[
    Chances,
    GetPydanticSchema(
        lambda _, handler: core_schema.no_info_after_validator_function(_legs, handler.generate_schema(_Legs))
    ),
]


class JunctionKind(Kind):
    """A kind of junction; `branch_angle` (rad) is the turn of a head from the branch into down.

    `leg` is how the curve of a combination is made up, where it has one.
    """

    words: dict[Region, str]
    branch_angle: Angle
    shape: Shape
    throat: RadiusRule
    leg: Legs | None = None
    allowed: Allowed | None = None

    def throat_radius(self, nominal_branch: float) -> Estimate:
        """The radius in m of the curve from branch into down, for a branch size in m."""
        return self.throat.radius(nominal_branch)


class LikelyJunctions(Graded):
    """Shares of junctions by region, lie and year; `small` for a branch far under the main's size."""

    usual: dict[Region, dict[Lie, YearShares]]
    small: dict[Region, dict[Lie, YearShares]]


class JunctionsFile(TableFile):
    """rules/tables/junctions.yaml."""

    small_below: Share
    junctions: Annotated[dict[str, JunctionKind], by_name]
    likely: LikelyJunctions

    def likely_junction(
        self, region: Region, year: int | None, lie: Lie, branch_share: float, stock: Stock
    ) -> Chances:
        """What an unknown junction likely is; `branch_share` is branch size over main size."""
        small = branch_share < as_estimate(self.small_below).likely
        steps = self.likely.small[region].get(lie) if small else None
        usual = self.likely.usual[region]
        steps = steps or (usual["flat"] if lie == "hung" and lie not in usual else usual[lie])
        return steps.chances(year, stock, self.likely.evidence)
