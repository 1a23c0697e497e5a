"""The site sheet: YAML text to a checked `SiteSheet`, with every fault told by file and line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Annotated, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from advisor.errors import BadInput, Fault
from advisor.site.pieces import (
    BendEntry,
    Entry,
    FixtureEntry,
    JunctionEntry,
    Length,
    MaybeName,
    Name,
    OpeningEntry,
    PieceEntry,
    Slope,
    TankEntry,
    TrapEntry,
    ValveEntry,
    YesNo,
)
from advisor.strict_yaml import Sheet, read_sheet, sheet_of_text
from advisor.strict_yaml.model import nearest
from advisor.tables.load import Tables

REGIONS = ("north america", "britain")


def _year(value: object) -> object:
    if isinstance(value, str) and value.strip().lower() in ("unknown", "?"):
        return None
    if not isinstance(value, str) or not value.strip().isdigit() or not 1700 <= int(value) <= 2100:
        raise ValueError(f"got {value!r}; expected a year such as 1958, or unknown")
    return int(value)


class LineSheet(BaseModel):
    """One line, from its upper end down."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid")

    line: Name
    kind: Literal["drain", "stack", "branch", "vent", "sewer", "rain"] | None = None
    size: Length = None
    material: MaybeName = None
    condition: MaybeName = None
    slope: Slope = None
    pieces: tuple[PieceEntry, ...]


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


class Task(BaseModel):
    """What is wanted."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid")

    look_at: Name = Field(default="suspect section", alias="look at")
    complaint: Complaint = Complaint()


class SiteSheet(BaseModel):
    """A whole site sheet as written."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid")

    site: Name
    region: Literal["north america", "britain"]
    built: Annotated[int | None, BeforeValidator(_year)] = None
    map: Literal["measured", "sketch", "guess"] = "sketch"
    shared: YesNo = None
    pumps: YesNo = None
    septic: YesNo = None
    lines: tuple[LineSheet, ...]
    task: Task = Task()


def read_site(path: Path, tables: Tables) -> Sheet[SiteSheet]:
    """Read and check a site sheet; raises BadInput with every fault at once."""
    return _checked(read_sheet(path, SiteSheet), tables)


def site_of_text(text: str, file: str, tables: Tables) -> Sheet[SiteSheet]:
    """Check a site sheet given as text; raises BadInput with every fault at once."""
    return _checked(sheet_of_text(text, SiteSheet, file), tables)


def _checked(sheet: Sheet[SiteSheet], tables: Tables) -> Sheet[SiteSheet]:
    faults = [*_unknown_names(sheet, tables), *_bad_joins(sheet), *_bad_complaints(sheet)]
    if faults:
        raise BadInput(faults)
    return sheet


def _unknown_names(sheet: Sheet[SiteSheet], tables: Tables) -> Iterator[Fault]:
    """Every word that must stand in a table: fittings, materials, kinds of opening."""
    materials = [*tables.materials, *tables.material_aliases]
    for i, line in enumerate(sheet.model.lines):
        where: tuple[str | int, ...] = ("lines", i)
        yield from _known(sheet, "material", line.material, materials, (*where, "material"))
        yield from _known(sheet, "condition", line.condition, tables.conditions, (*where, "condition"))
        for j, piece in enumerate(line.pieces):
            here = (*where, "pieces", j)
            if isinstance(piece, OpeningEntry):
                yield from _known(sheet, "kind of opening", piece.kind, tables.openings, (*here, "kind"))
            elif isinstance(piece, BendEntry):
                yield from _known(sheet, "bend", piece.bend, tables.bends, (*here, "bend"))
            elif isinstance(piece, JunctionEntry):
                yield from _known(sheet, "fitting", piece.fitting, tables.junctions, (*here, "fitting"))
            elif isinstance(piece, FixtureEntry):
                yield from _known(sheet, "fixture", fixture_kind(piece, tables), tables.fixtures, here)
                yield from _known(sheet, "fitting", piece.fitting, tables.junctions, (*here, "fitting"))
            elif isinstance(piece, TrapEntry | ValveEntry | TankEntry):
                key = _main_key(piece)
                yield from _known(sheet, key, getattr(piece, key), tables.stoppers, (*here, key))
            elif hasattr(piece, "change"):
                yield from _known(
                    sheet, "material", piece.change.material, materials, (*here, "change", "material")
                )
                yield from _known(
                    sheet,
                    "condition",
                    piece.change.condition,
                    tables.conditions,
                    (*here, "change", "condition"),
                )


def as_listed(name: str, known: Iterable[str]) -> str:
    """A word of a sheet as the table spells it: capitals do not matter."""
    return next(each for each in known if each.lower() == name.lower())


def fixture_kind(piece: FixtureEntry, tables: Tables) -> str:
    """`kitchen sink` of `fixture: kitchen sink`, also where the name only ends or starts with it."""
    name = piece.fixture.lower()
    if name in tables.fixtures:
        return name
    inside = [kind for kind in tables.fixtures if kind in name]
    return max(inside, key=len) if inside else name


def _main_key(piece: Entry) -> str:
    return {"TrapEntry": "trap", "ValveEntry": "valve", "TankEntry": "tank"}[type(piece).__name__]


def _known(
    sheet: Sheet[SiteSheet], what: str, name: str | None, known: Iterable[str], path: tuple[str | int, ...]
) -> Iterator[Fault]:
    names = list(known)
    if name is not None and name.lower() not in {n.lower() for n in names}:
        yield sheet.fault(f"unknown {what} {name!r}{nearest(name, names)}", *path)


def _bad_joins(sheet: Sheet[SiteSheet]) -> Iterator[Fault]:
    """Every line must run into one other line or end; names must be met once."""
    site = sheet.model
    names = [line.line for line in site.lines]
    used: dict[str, int] = dict.fromkeys(names, 0)
    for i, line in enumerate(site.lines):
        if names.index(line.line) != i:
            yield sheet.fault(f"a second line is called {line.line!r}", "lines", i, "line")
        if not line.pieces:
            yield sheet.fault(f"line {line.line!r} has no pieces", "lines", i, "pieces")
        for j, piece in enumerate(line.pieces):
            if isinstance(piece, JunctionEntry) and piece.drawn is not False:
                here = ("lines", i, "pieces", j, "joined by")
                if piece.joined_by == line.line:
                    yield sheet.fault(f"line {line.line!r} joins itself", *here)
                elif piece.joined_by not in used:
                    yield sheet.fault(
                        f"no line is called {piece.joined_by!r}{nearest(piece.joined_by, names)}"
                        " (for a line that is not on the plan add `drawn: no`)",
                        *here,
                    )
                else:
                    used[piece.joined_by] += 1
    for i, line in enumerate(site.lines):
        ends = any(hasattr(piece, "end") for piece in line.pieces)
        tied = sum(hasattr(piece, "tied_to") for piece in line.pieces)
        wanted = (0 if ends else 1) + tied
        if used[line.line] < wanted:
            yield sheet.fault(
                f"line {line.line!r} joins no other line and has no end; "
                f"expected `joined by: {line.line}` in the line it runs into, or a last piece "
                "`end: public sewer`",
                "lines",
                i,
                "line",
            )
        elif used[line.line] > wanted:
            yield sheet.fault(f"line {line.line!r} is joined {used[line.line]} times", "lines", i, "line")


def _bad_complaints(sheet: Sheet[SiteSheet]) -> Iterator[Fault]:
    site = sheet.model
    names = {
        str(getattr(piece, key))
        for line in site.lines
        for piece in line.pieces
        for key in ("fixture", "opening", "label", "name")
        if getattr(piece, key, None)
    }
    for key in ("backs up", "slow", "fine", "tested with volume"):
        for i, name in enumerate(getattr(site.task.complaint, key.replace(" ", "_"))):
            if name not in names:
                yield sheet.fault(
                    f"no fixture or opening is called {name!r}{nearest(name, sorted(names))}",
                    "task",
                    "complaint",
                    key,
                    i,
                )
