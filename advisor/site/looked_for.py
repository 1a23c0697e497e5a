"""Openings that may not be there, as pushes have looked at their places: what each made of the chance."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from math import inf

from advisor.evidence import ASSUMED
from advisor.quantity import Known
from advisor.site.network import Assumption, Hole, Network, Piece


@dataclass(frozen=True)
class LookedFor:
    """What a push, by the number of its start in the log, told of an opening that may not be there.

    `odds` is how many times likelier that is with the opening there than without; inf: it was recognized.
    """

    opening: str
    push: int
    odds: float


def with_looks(network: Network, told: Iterable[LookedFor]) -> Network:
    """A copy in which every opening that may not be there has the chance that these looks leave it.

    It is worked out from that of the sheet, so that a copy with fewer of them knows no more than those told.
    One of which the sheet, or who opened it, knows stays as it is.
    """
    odds: dict[str, float] = {}
    for each in told:
        odds[each.opening] = odds.get(each.opening, 1.0) * each.odds
    pieces = {
        key: replace(piece, hole=_as_looked(piece.hole, odds.get(piece.name, 1.0))) if piece.hole else piece
        for key, piece in network.pieces.items()
    }
    assumed = _still_assumed(network.assumed, {piece.name: piece for piece in pieces.values()})
    return replace(network, pieces=pieces, assumed=tuple(assumed))


def whether_there(opening: str) -> str:
    """What is assumed of an opening that may not be there."""
    return f"whether there is a {opening}"


def after(chance: float, odds: float) -> float:
    """Bayes: a chance after evidence that is so many times likelier with the thing there than without."""
    if odds in (1, inf):  # none, bit for bit, and certainty
        return chance if odds == 1 else 1.0
    return chance * odds / (1 - chance + chance * odds)


def odds_between(before: float, now: float) -> float:
    """How many times likelier the evidence is with the thing there, that made the one chance the other."""
    return inf if now >= 1 else now / (1 - now) * (1 - before) / before


def _as_looked(hole: Hole, odds: float) -> Hole:
    by_sheet = hole.there if hole.by_sheet is None else hole.by_sheet
    return replace(hole, there=after(by_sheet, odds), by_sheet=by_sheet) if 0 < by_sheet < 1 else hole


def _still_assumed(assumed: Iterable[Assumption], named: Mapping[str, Piece]) -> Iterator[Assumption]:
    """That an opening is there is assumed only as long as nobody knows, and as likely as it is now."""
    doubts = {whether_there(name): piece.hole for name, piece in named.items() if piece.hole is not None}
    for each in assumed:
        hole = doubts.get(each.about)
        if hole is None:
            yield each
        elif hole.there < 1:
            yield replace(each, belief=Known(hole.there, ASSUMED))
