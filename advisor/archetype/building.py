"""`rules/archetypes/*.yaml`: an ordinary site sheet with a head that says which buildings are like it."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from pydantic import Field, model_validator

from advisor.errors import BadInput, Fault
from advisor.evidence import Evidence
from advisor.site.build import network_of
from advisor.site.fields import Name
from advisor.site.sheet import SiteSheet, Year, site_of_tree
from advisor.strict_yaml import Node, Sheet, plain, read_on, read_text
from advisor.tables.entry import Graded, Share, YesNo
from advisor.tables.load import Tables
from advisor.tables.sources import unknown_sources

HEAD = "building"
_FOLDER = "archetypes"


class FactRow(Graded):
    """Something that is known of such buildings, in one sentence."""

    says: str


class BuildingRow(Graded):
    """The head: which buildings are like it, and how far the sheet as a whole can be trusted.

    `share` is how many of the region's buildings are like it, roughly: what is taken where nobody knows.
    One that has `one floor` has nothing upstairs, not even sometimes.
    """

    name: Name
    kind: Name
    first_year: Year = Field(alias="from")
    last_year: Year = Field(default=None, alias="to")
    known_by: str = Field(alias="known by")
    share: Share
    one_floor: YesNo = Field(default=False, alias="one floor")
    facts: tuple[FactRow, ...] = ()

    @model_validator(mode="after")
    def _years_in_order(self) -> BuildingRow:
        if self.first_year is None or (self.last_year is not None and self.last_year < self.first_year):
            raise ValueError("building: the years are not in order; expected a first year, then a later one")
        return self


class ArchetypeSheet(SiteSheet):
    """A site sheet with that head."""

    building: BuildingRow


@dataclass(frozen=True)
class Archetype:
    """One kind of building: `id` is its file's name, the years are those in which such were built, and the
    share is that of the region's buildings."""

    id: str
    name: str
    kind: str
    region: str
    first_year: int
    last_year: int | None
    known_by: str
    share: float
    one_floor: bool
    evidence: Evidence
    facts: tuple[FactRow, ...]
    tree: dict[str, Any] = field(repr=False)  # the site sheet as a plain tree, without the head

    def built_in(self, year: int | None) -> bool:
        """True where such buildings were put up in that year; where nobody knows it, none is ruled out."""
        return year is None or self.first_year <= year <= (self.last_year or year)


def archetypes(rules: Path, tables: Tables) -> tuple[Archetype, ...]:
    """Every typical building under the folder `rules`; raises BadInput with every fault of every file."""
    found, faults = [], list[Fault]()
    for path in sorted((rules / _FOLDER).glob("*.yaml")):
        try:
            found.append(read_archetype(path, tables))
        except BadInput as wrong:
            faults.extend(wrong.faults)
    if faults:
        raise BadInput(faults)
    if not found:
        raise BadInput([Fault(str(rules / _FOLDER), 0, "no typical building is in it; expected site sheets")])
    return tuple(found)


def read_archetype(path: Path, tables: Tables) -> Archetype:
    """One typical building, checked as a site sheet and laid out; raises BadInput with every fault."""

    def read(tree: Node) -> Sheet[SiteSheet]:
        sheet: Sheet[SiteSheet] = site_of_tree(tree, str(path), tables, ArchetypeSheet)
        faults = unknown_sources(sheet, list(tables.sources))
        if faults:
            raise BadInput(faults)
        network_of(sheet, tables)
        return sheet

    sheet = read_on(read_text(path), str(path), read)
    head = sheet.model.building  # type: ignore[attr-defined]
    assert isinstance(head, BuildingRow)
    assert head.first_year is not None
    return Archetype(
        path.stem,
        head.name,
        head.kind,
        sheet.model.region,
        head.first_year,
        head.last_year,
        head.known_by,
        head.share.likely,
        head.one_floor,
        head.evidence,
        head.facts,
        {key: value for key, value in plain(sheet.tree).items() if key != HEAD},
    )
