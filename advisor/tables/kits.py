"""Classes of reel: what a rod, spring, head and guide are like when nobody measured them."""

from __future__ import annotations

from typing import Annotated, Literal

from advisor.tables.entry import (
    Count,
    Density,
    Force,
    Graded,
    Kind,
    Length,
    Mass,
    Modulus,
    Row,
    Share,
    Stiffness,
    TableFile,
    by_name,
)


class RodClass(Row):
    """A rod: `density_factor` is its weight over that of solid glass fibre as thick as its jacket."""

    jacket_diameter: Length
    core_diameter: Length
    modulus: Modulus
    density: Density
    density_factor: Count
    strain_limit: Share
    length: Length


class SpringClass(Row):
    """A spring: `stiffness` where nobody says whether it is soft or firm."""

    diameter: Length
    length: Length
    stiffness: Stiffness
    soft: Stiffness
    firm: Stiffness
    minimum_radius: Length
    pull_limit: Force


class HeadClass(Row):
    """A camera head."""

    diameter: Length
    rigid_length: Length
    mass: Mass
    nose: Literal["round", "flat"]


class GuideClass(Row):
    """A ring that centres the head; `length_added` is what it adds to the rigid length."""

    ring_diameter: Length
    length_added: Length


class KitClass(Kind, Graded):
    """A class of reel with the parts that belong to it."""

    rod: RodClass
    spring: SpringClass
    head: HeadClass
    guide: GuideClass


class KitsFile(TableFile):
    """rules/tables/kits.yaml."""

    kit_classes: Annotated[dict[str, KitClass], by_name]
