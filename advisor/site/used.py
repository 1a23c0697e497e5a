"""Where people's water enters the drain, and the pipe that it runs through."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import chain

from advisor.site.network import Network, Piece
from advisor.site.pieces import FixtureEntry

_USED = (
    "toilet flange",
    "P-outlet toilet",
    "wall-hung toilet carrier",
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


def drained(network: Network, sources: Iterable[Piece]) -> set[str]:
    """The pieces that water of any of the sources runs through."""
    return set(chain.from_iterable(network.downstream(each.id) for each in sources))
