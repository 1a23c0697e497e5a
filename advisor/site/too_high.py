"""Water told high up in the house: from pipe shared with something far lower it would run out there first.

So the upper one is no water of the pipe that the two share: it has a stoppage of its own above where they
join, or was taken for what it is not. Of the line below it says nothing.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from advisor.quantity import Estimate
from advisor.site.network import Network, Piece, likely
from advisor.site.used import fixture_of, takes_water
from advisor.tables.load import Tables


@dataclass(frozen=True)
class TooHigh:
    """Where water is told too high to be the line's, and where that would run out first."""

    name: str
    spills: str


def too_high(network: Network, full: Collection[str], tables: Tables) -> tuple[TooHigh, ...]:
    """Of what is told to back up or to stand `full`, what lies surely above what else is, each name once."""
    told = [
        piece for piece in network.pieces.values() if piece.name in full and piece.kind in ("opening", "cap")
    ]
    found: dict[str, TooHigh] = {}
    for upper in told:
        for lower in told:
            if lower.name != upper.name and _surely_above(network, upper, lower, tables):
                found.setdefault(upper.name, TooHigh(upper.name, lower.name))
    return tuple(found.values())


def stands_high(network: Network, full: Collection[str], tables: Tables) -> tuple[str, ...]:
    """Of what backs up or stands full, what lies surely above an open edge: that edge shows nothing of it."""
    told = [
        piece for piece in network.pieces.values() if piece.name in full and piece.kind in ("opening", "cap")
    ]
    return tuple(dict.fromkeys(each.name for each in told if relieved_at(network, each, tables)))


def relieved_at(network: Network, upper: Piece, tables: Tables) -> tuple[Piece, ...]:
    """Every open edge surely below a piece, lowest first: what the pipe below both holds runs out there."""
    found = [
        lower
        for lower in network.pieces.values()
        if _open_edge(lower, upper) and _surely_above(network, upper, lower, tables)
    ]
    return tuple(sorted(found, key=lambda lower: _rim(lower, tables) or 0.0))


def _open_edge(lower: Piece, upper: Piece) -> bool:
    """Whether it is another place than the upper one, where water could come out."""
    shut = lower.hole is not None and lower.hole.opens is False
    return lower.kind in ("opening", "cap") and lower.name != upper.name and not shut


def grids_beside(network: Network, upper: Piece, bad: Collection[str], tables: Tables) -> tuple[Piece, ...]:
    """Every floor drain that no more pipe stands under than under a fixture with its edge above its floor: it
    lies in that floor or a lower one, so what the pipe below both holds runs out there first.

    Not of one that runs badly itself: what shows at both may well be held below both."""
    row = fixture_of(upper, tables)
    if row is None or not row.rim.low:
        return ()
    found = []
    for lower in network.pieces.values():
        grid = fixture_of(lower, tables)
        if lower.name in bad or grid is None or grid.rim.high or not _open_edge(lower, upper):
            continue
        ways = _apart(network, upper, lower)
        if ways is not None and _fall(ways[0], 0) >= _fall(ways[1], 1):
            found.append(lower)
    return tuple(found)


def _surely_above(network: Network, upper: Piece, lower: Piece, tables: Tables) -> bool:
    rim, ways = _rim(lower, tables), _apart(network, upper, lower)
    if rim is None or ways is None:
        return False
    return _fall(ways[0], 0) > _fall(ways[1], 1) + rim + tables.limits["line_fall"].likely


def _apart(network: Network, upper: Piece, lower: Piece) -> tuple[list[Piece], list[Piece]] | None:
    """The ways of both down to the pipe that they share, where water stands level in them; else nothing."""
    down, beside = (network.downstream(each.id) for each in (upper, lower))
    shared = next((key for key in beside if key in down), None)
    if shared is None:
        return None
    above, other = ([network.pieces[key] for key in way[: way.index(shared)]] for way in (down, beside))
    if any(piece.kind in ("rise", "stopper") for piece in (*above, *other)):
        return None  # what is pumped, or shut off by a flap, stands as high as it will
    return above, other


def _fall(way: Sequence[Piece], end: int) -> float:
    """How much upright pipe there is, m: at least (0) or at most (1)."""
    return sum(
        (piece.length.low, piece.length.high)[end]
        if isinstance(piece.length, Estimate)
        else likely(piece.length)
        for piece in way
        if piece.vertical
    )


def _rim(piece: Piece, tables: Tables) -> float | None:
    """The most that its edge stands above its pipe, m; nothing where none is open to spill."""
    hole = piece.hole
    if hole is not None and tables.openings[hole.kind].place == "pit":
        return hole.deepest
    if not takes_water(piece):
        return None
    row = fixture_of(piece, tables)
    if row is not None:
        return row.rim.high
    return tables.fixtures["toilet"].rim.high if hole is not None and hole.toilet else 0.0
