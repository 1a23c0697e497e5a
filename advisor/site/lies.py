"""How the pieces lie: level or upright, and what that makes of a junction or an unknown bend."""

from __future__ import annotations

from advisor.site import pieces as p
from advisor.site.names import as_listed
from advisor.site.network import Piece
from advisor.site.sheet import LineSheet
from advisor.tables.load import Tables

_UPRIGHT = ("drop", "rise")
# A building, as landmarks name it.
_WHERE_IT_ENDS = (
    "foundation",
    "slab",
    "front wall",
    "shop front",
    "house front",
    "outer wall",
    "outside wall",
)
_LONG = ("pipe", "belly", "drop", "rise")


def line_place(line: LineSheet) -> str:
    """What a line is for: as the sheet says, else from its pieces."""
    if line.kind:
        return "drain" if line.kind == "rain" else line.kind
    entries = line.pieces
    fixtures = any(isinstance(e, p.FixtureEntry) or _is_toilet(e) for e in entries)
    if any(isinstance(e, p.EndEntry) for e in entries):
        return "drain"
    joins = sum(isinstance(e, p.JunctionEntry) for e in entries)
    if any(isinstance(e, p.DropEntry) for e in entries) and joins:
        return "stack"
    if any(isinstance(e, p.OpeningEntry) and e.kind == "roof vent" for e in entries) and not fixtures:
        return "vent"
    if any(isinstance(e, p.TiedEntry) for e in entries):
        return "vent"
    return "branch"


def first_outside(line: LineSheet, tables: Tables) -> int | None:
    """The number of the entry from which on a line is known to lie outside, where it can be dug up; None
    where the sheet does not tell: a floor or a slab may lie over all of it."""
    if line.kind == "sewer":
        return -1
    inside = (n for n, e in enumerate(line.pieces) if isinstance(e, p.OpeningEntry) and e.cellar)
    last_inside = max(inside, default=-1)  # what runs to a cellar lies below the house
    for number, entry in enumerate(line.pieces):
        if number <= last_inside:
            continue
        sewer = isinstance(entry, p.ChangeEntry) and entry.change.kind == "sewer"
        if sewer or any(word in (entry.landmark or "").lower() for word in _WHERE_IT_ENDS):
            return number
        if isinstance(entry, p.OpeningEntry) and entry.kind is not None:
            kind = tables.openings[as_listed(entry.kind, tables.openings)]
            # The pit of a house trap may be in a cellar.
            if kind.place == "yard" or "traffic" in kind.hazards:
                return number
    return None


def vertical_at(pieces: dict[str, Piece], ids: list[str], index: int) -> bool:
    """True where the line stands upright at that piece."""
    piece = pieces[ids[index]]
    if piece.kind in _LONG:
        return piece.kind in _UPRIGHT
    return _upright(pieces, ids[:index][::-1]) or _upright(pieces, ids[index + 1 :])


def junction_lie(pieces: dict[str, Piece], junction: Piece, arm: list[str]) -> str:
    """stack: into an upright line; drop: falling onto a level one; flat: all level."""
    told = getattr(junction.entry, "lies", None)
    if told:
        return {"on its back": "drop", "on its side": "flat", "upright": "stack"}[told]
    if junction.vertical:
        return "stack"
    return "drop" if junction.side == "top" or _upright(pieces, arm[::-1]) else "flat"


def turning(pieces: dict[str, Piece], ids: list[str], index: int, place: str) -> str:
    """What an unknown bend does: `level` all in one plane, `down` into a drop, `up` out of one."""
    if place == "vent":
        return "vent"
    before, after = _upright(pieces, ids[:index][::-1]), _upright(pieces, ids[index + 1 :])
    if before and not after:
        return "up"
    return "down" if after and not before else "level"


def _upright(pieces: dict[str, Piece], nearest_first: list[str]) -> bool:
    """The first run of pipe met: is it upright? A bend hides what lies behind it."""
    for piece_id in nearest_first:
        kind = pieces[piece_id].kind
        if kind in _LONG:
            return kind in _UPRIGHT
        if kind == "bend":
            return False
    return False


def _is_toilet(entry: p.Entry) -> bool:
    return isinstance(entry, p.OpeningEntry) and "toilet" in (entry.kind or "")
