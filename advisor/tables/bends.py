"""Bends: their angles and the radius of their centreline."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import model_validator

from advisor.quantity import Chances, Estimate, Known
from advisor.strict_yaml.model import nearest
from advisor.tables.entry import (
    Angle,
    Count,
    Graded,
    Kind,
    Length,
    Row,
    TableFile,
    as_estimate,
    by_name,
    one_of,
)
from advisor.tables.likely import Stock, YearShares
from advisor.tables.materials import Material
from advisor.tables.regions import Region

Turning = Annotated[str, one_of("level", "down", "up", "vent")]
Lie = Annotated[str, one_of("h to v", "v to h", "h to h")]
Fittings = Annotated[str, one_of("iron", "plastic", "copper", "lead", "steel", "clay", "any")]


class RadiusRule(Row):
    """A radius as so many nominal sizes plus a length."""

    bores: Count
    plus: Length | None = None

    def radius(self, nominal: float) -> Estimate:
        """The centreline radius in m for a nominal size in m."""
        bores = as_estimate(self.bores)
        none = Estimate(0.0, 0.0, 0.0, bores.evidence)
        plus = none if self.plus is None else as_estimate(self.plus)
        return Estimate(
            bores.low * nominal + plus.low,
            bores.likely * nominal + plus.likely,
            bores.high * nominal + plus.high,
            bores.evidence,
        )


class Allowed(Graded):
    """What a code says of a fitting, by the lie of the flow before and after: yes, no or when."""

    lies: dict[Lie, str]


class BendRow(Kind):
    """A bend as its file has it; `radius` names one of the file's radius rules."""

    words: dict[Region, str]
    angle: Angle
    shape: Literal["sweep", "square"]
    radius: str
    allowed: Allowed | None = None


@dataclass(frozen=True)
class BendKind:
    """A kind of bend; `words` is what each region calls it."""

    name: str
    words: Mapping[str, str]
    angle: Known | Estimate
    shape: Literal["sweep", "square"]
    allowed: Allowed | None
    rules: Mapping[str, RadiusRule]

    def radius(self, material: Material, nominal: float) -> Estimate:
        """The radius of the centreline in m, for a material and a nominal size in m."""
        return self.rules.get(material.fittings, self.rules["any"]).radius(nominal)


class LikelyBends(Graded):
    """Shares of bends by region, the way the flow turns, and year of building."""

    shares: dict[Region, dict[Turning, YearShares]]


class BendsFile(TableFile):
    """rules/tables/bends.yaml."""

    radii: dict[str, dict[Fittings, RadiusRule]]
    bends: Annotated[dict[str, BendRow], by_name]
    likely: LikelyBends

    @model_validator(mode="after")
    def _radii_known(self) -> BendsFile:
        for name, rules in self.radii.items():
            if "any" not in rules:
                raise ValueError(f"radii: {name!r} has no row `any`")
        for row in self.bends.values():
            if row.radius not in self.radii:
                known = nearest(row.radius, list(self.radii))
                raise ValueError(f"{row.name!r}: no radius rule {row.radius!r}{known}")
        return self

    def kinds(self) -> dict[str, BendKind]:
        """Every kind of bend by its name."""
        return {
            row.name: BendKind(row.name, row.words, row.angle, row.shape, row.allowed, self.radii[row.radius])
            for row in self.bends.values()
        }

    def likely_bend(self, region: Region, year: int | None, turning: Turning, stock: Stock) -> Chances:
        """What an unknown bend likely is."""
        steps = self.likely.shares[region][turning]
        return steps.chances(year, stock, self.likely.evidence)
