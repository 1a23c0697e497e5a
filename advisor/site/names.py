"""Words of a site sheet that must stand in a table: fittings, materials, fixtures, kinds of opening."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING

from advisor.errors import Fault
from advisor.site.pieces import (
    BendEntry,
    EndEntry,
    Entry,
    FixtureEntry,
    JunctionEntry,
    OpeningEntry,
    TankEntry,
    TrapEntry,
    ValveEntry,
)
from advisor.strict_yaml import Sheet
from advisor.strict_yaml.model import nearest
from advisor.tables.load import Tables

if TYPE_CHECKING:
    from advisor.site.sheet import LineSheet, SiteSheet

SEPTIC_TANK, UNKNOWN_END = "septic tank", "unknown end"  # rows of the table of stoppers


def unknown_names(sheet: Sheet[SiteSheet], tables: Tables) -> Iterator[Fault]:
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
            elif isinstance(piece, EndEntry) and end_kind(piece.end, tables) is None:
                tanks = [name for name, kind in tables.stoppers.items() if kind.tank]
                told = _by_trade(piece.end, tables.stoppers) or nearest(piece.end, [*tables.ends, *tanks])
                yield sheet.fault(f"unknown end {piece.end!r}{told}", *here, "end")
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
    """`kitchen sink` of `old kitchen sink` or `kitchen sink 2`; the whole name where that is not sure."""
    name = piece.fixture.lower()
    # Whole words only: a bathroom is no bath. A bath with shower may be either, so it stays unknown.
    ends = [kind for kind in tables.fixtures if re.search(rf"(?:^|\W){re.escape(kind)}$", name)]
    starts = [kind for kind in tables.fixtures if re.search(rf"^{re.escape(kind)}(?:\W|$)", name)]
    found = {max(kinds, key=len) for kinds in (ends, starts) if kinds}
    return found.pop() if len(found) == 1 else name


def end_kind(name: str, tables: Tables) -> str | None:
    """`septic tank` of `Old septic tank 2`: the kind of end is its last words; None where no table has it."""
    told = re.sub(r"\W*\d+$", "", name.lower())
    known = (*tables.stoppers, *tables.ends)
    found = [kind for kind in known if re.search(rf"(?:^|\W){re.escape(kind.lower())}$", told)]
    return max(found, key=len, default=None)


def end_holds(entry: EndEntry, line: LineSheet, site: SiteSheet, tables: Tables) -> str | None:
    """The kind of tank, trap or pump that a line ends in.

    What is told of the site holds beside what is drawn: a septic tank that is on no line is at every end but
    that of a rain line.
    """
    kind = end_kind(entry.end, tables)
    if kind in tables.stoppers:
        return kind
    pieces = [piece for each in site.lines for piece in each.pieces]
    tanks = {as_listed(piece.tank, tables.stoppers) for piece in pieces if isinstance(piece, TankEntry)}
    ends = {end_kind(piece.end, tables) for piece in pieces if isinstance(piece, EndEntry)}
    told = any(row.gas and name in tanks | ends for name, row in tables.stoppers.items())
    if site.septic and not told and line.kind != "rain":
        return SEPTIC_TANK
    return UNKNOWN_END if kind == "unknown" else None


def _main_key(piece: Entry) -> str:
    return {"TrapEntry": "trap", "ValveEntry": "valve", "TankEntry": "tank"}[type(piece).__name__]


def _known(
    sheet: Sheet[SiteSheet], what: str, name: str | None, known: Iterable[str], path: tuple[str | int, ...]
) -> Iterator[Fault]:
    names = list(known)
    if name is not None and name.lower() not in {n.lower() for n in names}:
        yield sheet.fault(f"unknown {what} {name!r}{_by_trade(name, known) or nearest(name, names)}", *path)


def _by_trade(name: str, known: Iterable[str]) -> str:
    """The names of what the trade of a region calls so: nothing that is only spelt alike is as near."""
    rows = known if isinstance(known, Mapping) else {}
    called = [
        each
        for each, kind in rows.items()
        if name.lower() in {words.lower() for words in getattr(kind, "words", {}).values()}
    ]
    return f"; in a sheet it is {' or '.join(map(repr, called))}" if called else ""
