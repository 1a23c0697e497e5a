"""The kit sheet: what is on the truck, as YAML; what is left out comes from a class of reel."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    ValidationInfo,
    field_validator,
)

from advisor.quantity import Dimension, Stated
from advisor.site.fields import Length, Name, at_least_one, positive, stated, within
from advisor.strict_yaml import Sheet, read_sheet, sheet_of_text

Force = Annotated[Stated | None, stated(Dimension.FORCE), AfterValidator(positive)]
Stiffness = Annotated[Stated | None, stated(Dimension.STIFFNESS), AfterValidator(positive)]
Weight = Annotated[Stated | None, stated(Dimension.WEIGHT), AfterValidator(positive)]


Wide = Annotated[Length, within(0.005, 0.3, "head or spring on a push rod")]
Thick = Annotated[Length, within(0.001, 0.05, "push rod")]
Ring = Annotated[Length, within(0.01, 0.5, "guide")]
Short = Annotated[Length, within(0.005, 3.0, "head, spring or guide")]
RodLength = Annotated[Length, within(1.0, 1000.0, "rod")]


def _nose(value: object) -> object:
    return None if value in ("unknown", "?") else value


class Part(BaseModel):
    """What every part may say: the class of reel that fills what is left out."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid")

    like: Name | None = None


class HeadSheet(Part):
    """A camera head as written."""

    head: Name
    diameter: Wide = None
    length: Short = None
    nose: Annotated[Literal["round", "flat"] | None, BeforeValidator(_nose)] = None


class SpringSheet(Part):
    """A spring as written."""

    spring: Name
    diameter: Wide = None
    length: Short = None
    stiffness: Stiffness = None
    minimum_radius: Length = Field(default=None, alias="minimum radius")
    feel: Annotated[Literal["soft", "firm"] | None, BeforeValidator(_nose)] = None
    pull_limit: Force = Field(default=None, alias="pull limit")


class RodSheet(Part):
    """A push rod as written; measured stiffness, weight and radius stand above those of the core."""

    rod: Name
    diameter: Thick = None
    core: Thick = None
    stiffness: Stiffness = None
    weight: Weight = None
    minimum_radius: Length = Field(default=None, alias="minimum radius")
    length: RodLength = None

    @field_validator("core")
    @classmethod
    def _inside(cls, core: Stated | None, told: ValidationInfo) -> Stated | None:
        jacket = told.data.get("diameter")
        if core is not None and jacket is not None and core.low > jacket.high:
            raise ValueError("it is thicker than the rod; expected the diameter of the core inside it")
        return core


class GuideSheet(Part):
    """A guide as written."""

    guide: Name
    diameter: Ring = None
    length: Short = None


class LoadoutSheet(BaseModel):
    """One combination that is carried ready."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid")

    head: Name
    spring: Name
    rod: Name
    guide: Name | None = None


class KitSheet(BaseModel):
    """A whole kit sheet as written. Without `loadouts` every head goes with every spring and rod."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid")

    kit: Name
    heads: Annotated[tuple[HeadSheet, ...], AfterValidator(at_least_one)]
    springs: Annotated[tuple[SpringSheet, ...], AfterValidator(at_least_one)]
    rods: Annotated[tuple[RodSheet, ...], AfterValidator(at_least_one)]
    guides: tuple[GuideSheet, ...] = ()
    loadouts: tuple[LoadoutSheet, ...] = ()

    @property
    def carried(self) -> tuple[LoadoutSheet, ...]:
        """The loadouts, also where none is listed."""
        every = (
            LoadoutSheet(head=head.head, spring=spring.spring, rod=rod.rod)
            for head in self.heads
            for spring in self.springs
            for rod in self.rods
        )
        return self.loadouts or tuple(dict.fromkeys(every))  # two of one name are a fault of their own


def read_kit(path: Path) -> Sheet[KitSheet]:
    """Read and check a kit sheet's shape; raises BadInput with every fault at once."""
    return read_sheet(path, KitSheet)


def kit_of_text(text: str, file: str) -> Sheet[KitSheet]:
    """Check a kit sheet given as text; raises BadInput with every fault at once."""
    return sheet_of_text(text, KitSheet, file)
