"""Where people's water enters the drain, and the pipe that it runs through."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from itertools import chain

from advisor.site.network import Network, Piece
from advisor.site.pieces import FixtureEntry

_TOILETS = ("toilet flange", "P-outlet toilet", "wall-hung toilet carrier")
_USED = (
    *_TOILETS,
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


def lone_toilet(network: Network, bad: Collection[str], fine: Collection[str]) -> bool:
    """Whether one toilet is all that runs badly, though what else runs through its pipe is fine."""
    (name, *others) = set(bad) or {""}
    toilet = next((each for each in network.openings() if each.name == name), None)
    if others or toilet is None or toilet.hole is None or toilet.hole.kind not in _TOILETS:
        return False
    ways = (network.downstream(each.id) for each in network.pieces.values() if each.name in fine)
    return any(network.pieces[key].line == toilet.line for way in ways for key in way)


def drained(network: Network, sources: Iterable[Piece]) -> set[str]:
    """The pieces that water of any of the sources runs through."""
    return set(chain.from_iterable(network.downstream(each.id) for each in sources))
