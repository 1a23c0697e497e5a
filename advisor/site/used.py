"""Where people's water enters the drain, and the pipe that it runs through."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from itertools import chain

from advisor.site.names import fixture_kind
from advisor.site.network import Network, Piece
from advisor.site.pieces import FixtureEntry
from advisor.tables.fixtures import FixtureKind
from advisor.tables.load import Tables

_TOILETS = ("toilet flange", "P-outlet toilet", "wall-hung toilet carrier")
_LOW = (*_TOILETS, "floor drain", "shower drain", "gully")
_USED = (*_LOW, "fixture tee", "bath trap")


def takes_water(piece: Piece) -> bool:
    """True for a fixture or drain that people use."""
    if piece.kind not in ("opening", "cap"):
        return False
    hole = piece.hole
    in_use = hole is not None and (bool(hole.fixture) or hole.kind in _USED)
    return in_use or isinstance(piece.entry, FixtureEntry)


def fixture_of(piece: Piece, tables: Tables) -> FixtureKind | None:
    """The row of the fixture that stands there; None for an opening of which none is told."""
    kind = piece.hole.fixture if piece.hole is not None else None
    if kind is None and isinstance(piece.entry, FixtureEntry):
        kind = fixture_kind(piece.entry, tables)
    return tables.fixtures.get(kind or "")


def is_low(piece: Piece, tables: Tables) -> bool:
    """Whether its edge lies low over its floor or the ground, where water shows first."""
    row = fixture_of(piece, tables)
    return row.level == "low" if row else piece.hole is not None and piece.hole.kind in _LOW


def lies_lowest(network: Network, piece: Piece, tables: Tables) -> bool:
    """Whether it lies among the lowest: low over its floor, and no drop on the way of its water."""
    below = (network.pieces[key] for key in network.downstream(piece.id))
    return is_low(piece, tables) and not any(each.vertical for each in below)


def lone_toilet(network: Network, bad: Collection[str], fine: Collection[str]) -> Piece | None:
    """The one toilet that is all that runs badly, though what else runs through its pipe is fine."""
    (name, *others) = set(bad) or {""}
    toilet = next((each for each in network.openings() if each.name == name), None)
    if others or toilet is None or toilet.hole is None or toilet.hole.kind not in _TOILETS:
        return None
    ways = (network.downstream(each.id) for each in network.pieces.values() if each.name in fine)
    through = any(network.pieces[key].line == toilet.line for way in ways for key in way)
    return toilet if through else None


def level_with(network: Network, piece: Piece, bad: Collection[str]) -> bool:
    """Whether the water of a fixture comes, by no drop, into the line on which one of the others is."""
    lines = {each.line for each in network.pieces.values() if each.name in bad and takes_water(each)}
    for key in network.downstream(piece.id):
        if network.pieces[key].line in lines:
            return True
        if network.pieces[key].vertical:
            break
    return False


def drained(network: Network, sources: Iterable[Piece]) -> set[str]:
    """The pieces that water of any of the sources runs through."""
    return set(chain.from_iterable(network.downstream(each.id) for each in sources))


def laundries(network: Network, tables: Tables) -> tuple[Piece, ...]:
    """What takes the water of a washing machine."""
    return tuple(
        piece
        for piece in network.pieces.values()
        if piece.kind in ("opening", "cap") and isinstance(piece.entry, FixtureEntry)
        if fixture_kind(piece.entry, tables) in ("washing machine", "laundry tub")
    )
