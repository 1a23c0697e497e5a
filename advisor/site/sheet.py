"""The site sheet: YAML text to a checked `SiteSheet`, with every fault told by file and line."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field

from advisor.errors import BadInput
from advisor.quantity import Units
from advisor.site.faults import complaint_faults, join_faults, order_faults
from advisor.site.fields import Heading, Listed, Name, Size, Slope, YesNo, at_least_one, or_unknown
from advisor.site.history import History
from advisor.site.names import unknown_names
from advisor.site.origin import Origin, origin_faults
from advisor.site.pieces import PieceEntry
from advisor.strict_yaml import Branch, Leaf, Node, Sheet, read_on, read_text, sheet_of_tree
from advisor.tables import REGIONS
from advisor.tables.load import Tables


def _year(value: object) -> object:
    if isinstance(value, str) and value.strip().lower() in ("unknown", "?"):
        return None
    if not isinstance(value, str) or not re.fullmatch(r"1[7-9]\d\d|20\d\d", value.strip(), re.ASCII):
        raise ValueError(f"got {value!r}; expected a year such as 1958, or unknown")
    return int(value)


Year = Annotated[int | None, BeforeValidator(_year)]


class LineSheet(BaseModel):
    """One line, from its upper end down."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid")

    line: Name
    kind: Literal["drain", "stack", "branch", "vent", "sewer", "rain"] | None = None
    size: Size = None
    material: Listed = None
    condition: Listed = None
    laid: Year = None  # where it is not as old as the house
    slope: Slope = None
    heading: Heading = None
    pieces: tuple[PieceEntry, ...]


# Whether floor or wall of the cellar is wet, and when.
COMES_UP = "comes up"
WetCellar = Literal["no", "yes", "when used", "after rain", "comes up"]


class Complaint(BaseModel):
    """What the people in the building say; gives chances, never proof."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid")

    backs_up: tuple[Name, ...] = Field(default=(), alias="backs up")
    slow: tuple[Name, ...] = ()
    fine: tuple[Name, ...] = ()
    tested_with_volume: tuple[Name, ...] = Field(default=(), alias="tested with volume")
    holding: YesNo = None
    chemicals: YesNo = None
    gas_smell: YesNo = Field(default=None, alias="gas smell")
    sewage_smell: YesNo = Field(default=None, alias="sewage smell")
    wet_cellar: Annotated[WetCellar | None, BeforeValidator(or_unknown)] = Field(
        default=None, alias="wet cellar"
    )
    # It smelled of gas once: why it counts as safe since. Kept for whoever comes next.
    gas_cleared: Literal["utility says safe", "slip"] | None = Field(default=None, alias="gas cleared")


class Task(BaseModel):
    """What is wanted."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid")

    look_at: Name = Field(default="suspect section", alias="look at")
    complaint: Complaint = Complaint()
    history: History = History()


class SiteSheet(BaseModel):
    """A whole site sheet as written."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid")

    site: Name
    region: Literal["north america", "britain"]
    built: Year = None
    map: Literal["measured", "sketch", "guess"] = "sketch"
    shared: YesNo = None
    pumps: YesNo = None
    septic: YesNo = None
    # Unknown where somebody was asked and did not know: left out, nobody is asked for it over again.
    house_trap: YesNo = Field(default=False, alias="house trap")
    origin: Origin | None = None
    roof_safe: YesNo = Field(default=None, alias="roof safe")
    deep_pits: YesNo = Field(default=None, alias="deep pits")
    trees: YesNo = None
    lines: Annotated[tuple[LineSheet, ...], AfterValidator(at_least_one)]
    task: Task = Task()


def usual_units(site: SiteSheet) -> Units:
    """The units in which people of that region read a plan."""
    return units_in(site.region)


def units_in(region: str) -> Units:
    """The units that people of a region read."""
    return Units.METRIC if region == "britain" else Units.INCH


def _units_told(tree: Node) -> Units | None:
    """Those in which an example is given; None where no region is told."""
    region = tree.entries.get("region") if isinstance(tree, Branch) else None
    return units_in(region.text) if isinstance(region, Leaf) and region.text in REGIONS else None


def read_site(path: Path, tables: Tables) -> Sheet[SiteSheet]:
    """Read and check a site sheet; raises BadInput with every fault at once."""
    return site_of_text(read_text(path), str(path), tables)


def site_of_text(text: str, file: str, tables: Tables) -> Sheet[SiteSheet]:
    """Check a site sheet given as text; raises BadInput with every fault at once."""
    return read_on(text, file, lambda tree: site_of_tree(tree, file, tables))


def site_of_tree(
    tree: Node, file: str, tables: Tables, model: type[SiteSheet] = SiteSheet
) -> Sheet[SiteSheet]:
    """Check a site sheet given as a tree; raises BadInput with the faults of its first stage that has any.

    `model` may be a sheet that has entries of its own besides.
    """
    sheet = sheet_of_tree(tree, model, file, _units_told(tree))
    faults = [
        *unknown_names(sheet, tables),
        *order_faults(sheet),
        *join_faults(sheet),
        *complaint_faults(sheet),
        *origin_faults(sheet),
    ]
    if faults:
        raise BadInput(faults)
    return sheet
