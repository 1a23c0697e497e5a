"""What pipes are made of, and which material is likely where."""

from __future__ import annotations

from typing import Annotated, Literal

from advisor.quantity import Chances
from advisor.tables.entry import Graded, Kind, Length, TableFile, Year, as_estimate, by_name, one_of
from advisor.tables.likely import BuildingStock, YearShares
from advisor.tables.regions import Region

WallClass = Literal["smooth", "rough", "clay"]
FittingClass = Annotated[str, one_of("iron", "plastic", "copper", "lead", "steel", "clay")]
Place = Annotated[str, one_of("stack", "branch", "vent", "drain", "sewer")]


class Material(Kind, Graded):
    """A pipe material: how its wall feels, when it was laid, and why it may not be forced."""

    wall_class: WallClass
    fittings: FittingClass
    laid_from: Year | None = None
    laid_to: Year | None = None
    fragile: str | None = None
    pipes: tuple[str, ...] = ()
    aliases: tuple[str, ...] = ()

    @property
    def scales(self) -> bool:
        """Whether there may be scale on it that a tool takes off: on a smooth wall nothing rusts."""
        return self.wall_class != "smooth"


class LikelyMaterials(Graded):
    """Shares of materials by region, place and year of building."""

    wide_branch: Length  # a branch from this size on is laid like the stack that it joins
    shares: dict[Region, dict[Place, YearShares]]


class BuildingStocks(Graded):
    """How old buildings are, by region."""

    built_before: dict[Region, BuildingStock]


class MaterialsFile(TableFile):
    """rules/tables/materials.yaml."""

    stock: BuildingStocks
    materials: Annotated[dict[str, Material], by_name]
    likely: LikelyMaterials

    def likely_material(self, region: Region, year: int | None, place: Place, nominal: float) -> Chances:
        """What a pipe is likely made of; `nominal` is its size in m."""
        if place == "branch" and nominal >= as_estimate(self.likely.wide_branch).likely:
            place = "stack"
        steps = self.likely.shares[region][place]
        return steps.chances(year, self.stock.built_before[region], self.likely.evidence)
