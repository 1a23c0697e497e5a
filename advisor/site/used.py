"""Where people's water enters the drain, and the pipe that it runs through."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from itertools import chain

from advisor.site.network import Network, Piece
from advisor.site.pieces import FixtureEntry

_TOILETS = ("toilet flange", "P-outlet toilet", "wall-hung toilet carrier")
_USED = (
    *_TOILETS,
    "fixture tee",
    "floor drain",
    "shower drain",
    "gully",
)


def takes_water(piece: Piece) -> bool:
    """True for a fixture or drain that people use."""
    if piece.kind not in ("opening", "cap"):
        return False
    hole = piece.hole
    in_use = hole is not None and (bool(hole.fixture) or hole.kind in _USED)
    return in_use or isinstance(piece.entry, FixtureEntry)


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
