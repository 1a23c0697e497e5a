"""What age leaves of a pipe: the share of its bore, and the friction of its wall."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Annotated, TypeVar

from advisor.evidence import Evidence
from advisor.quantity import Chances, Estimate
from advisor.tables.entry import Count, Graded, Length, Row, Share, TableFile, as_estimate, one_of
from advisor.tables.likely import Stock, YearShares
from advisor.tables.materials import Material

ROOTS = "roots"  # the one condition that is not along the wall but at its joints
CONDITIONS = ("sound", "light scale", "moderate scale", "heavy scale", "greasy", ROOTS)
UNKNOWN = "unknown"
Condition = Annotated[str, one_of(*CONDITIONS, UNKNOWN)]
_KnownCondition = Annotated[str, one_of(*CONDITIONS)]
_T = TypeVar("_T")
Wetness = Annotated[str, one_of("wet", "dry")]


class LikelyConditions(Graded):
    """Shares of conditions by material, or wall class, and year of building."""

    shares: dict[str, YearShares]


class RootsRow(Row):
    """Roots in a pipe that has them.

    `joint_length` by material, or wall class; `joints_with` is the share of joints at which they stand,
    `bore_left` the share of the bore that they leave at one, `parting` the share of such places where they
    part before a gentle push, `cut` the share of the others at which a cutter makes room.
    """

    joint_length: dict[str, Length]
    joints_with: Share
    bore_left: Share
    parting: Share
    cut: Share


class ConditionsFile(TableFile):
    """rules/tables/conditions.yaml.

    Inside each table a row stands under a material's name, a wall class or `any`; the first of these
    that is there holds.
    """

    words: dict[Condition, str]
    rough: tuple[_KnownCondition, ...]
    bore_left: dict[_KnownCondition, dict[str, Share]]
    roots: RootsRow
    friction_of_wall: dict[str, dict[Wetness, Count]]
    friction_of_condition: dict[_KnownCondition, dict[str, dict[Wetness, Count]]]
    wet_share: Share
    likely: LikelyConditions

    def chances(self, material: Material, year: int | None, stock: Stock) -> Chances:
        """How a pipe of this material and age is likely to be inside."""
        steps = _row(self.likely.shares, material)
        return steps.chances(year, stock, self.likely.evidence)

    def bore_factor(self, material: Material, condition: Condition, chances: Chances) -> Estimate:
        """The share of the sound bore left along the wall, which roots leave as it is.

        `chances` stand in for a condition not known.
        """
        if condition != UNKNOWN:
            along = "sound" if condition == ROOTS else condition
            return as_estimate(_row(self.bore_left[along], material))
        return _mixture(chances, lambda name: self.bore_factor(material, name, chances))

    def joint_length(self, material: Material) -> Estimate:
        """From one joint of the pipe to the next, m."""
        return as_estimate(_row(self.roots.joint_length, material))

    def friction(
        self, material: Material, condition: Condition, wet: bool | None, chances: Chances
    ) -> Estimate:
        """The friction coefficient of the rod's jacket on this wall."""
        if condition == UNKNOWN:
            return _mixture(chances, lambda name: self.friction(material, name, wet, chances))
        of_condition = self.friction_of_condition.get(condition, {})
        pair = _row_or_none(of_condition, material) or _row(self.friction_of_wall, material)
        if wet is not None:
            return as_estimate(pair["wet" if wet else "dry"])
        damp, dry = as_estimate(pair["wet"]), as_estimate(pair["dry"])
        share = as_estimate(self.wet_share).likely
        likely = share * damp.likely + (1 - share) * dry.likely
        evidence = Evidence(damp.evidence.grade, damp.evidence.source, "wet or dry not known")
        return Estimate(min(damp.low, dry.low), likely, max(damp.high, dry.high), evidence)


def _row_or_none(rows: Mapping[str, _T], material: Material) -> _T | None:
    for name in (material.name, material.wall_class, "any"):
        if name in rows:
            return rows[name]
    return None


def _row(rows: Mapping[str, _T], material: Material) -> _T:
    row = _row_or_none(rows, material)
    if row is None:
        raise AssertionError(f"the loader checks that there is a row for {material.name}")
    return row


def _mixture(chances: Chances, of: Callable[[str], Estimate]) -> Estimate:
    """One range over several conditions: the widest ends, the likely values by their shares."""
    parts = [(share, of(name)) for name, share in chances.options]
    likely = sum(share * part.likely for share, part in parts)
    low, high = min(part.low for _, part in parts), max(part.high for _, part in parts)
    evidence = Evidence(chances.evidence.grade, chances.evidence.source, "condition not known")
    # Rounding may carry the sum a hair past an end when all parts are equal.
    return Estimate(low, min(max(likely, low), high), high, evidence)
