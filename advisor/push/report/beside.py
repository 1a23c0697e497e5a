"""Depths that were measured at one find or mark and hold for a find at the same place.

A mark is where somebody stood and read, or did not: no other's depth stands as its own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from advisor.push.log.kinds import FIND, MARK
from advisor.push.report.advice import Advice
from advisor.push.report.marks import Beside, Spot
from advisor.push.track.depth import hardly


def with_depths_beside(found: tuple[Spot, ...], advice: Advice) -> tuple[Spot, ...]:
    """Each find without a depth of its own gets what was measured so near that it is one place; what has none
    either way, what was measured elsewhere that belies what is expected of it."""
    # Two ways of measuring that disagree are told as no depth, and one that no drain has, where nothing is
    # expected, is none: so they are lent to nobody either. One that is not as expected is, with a warning.
    measured = [
        spot
        for spot in found
        if spot.same_depth is not False
        and not any(spot.expected is None and hardly(depth, None, advice.depth) for _, depth in spot.depths)
    ]
    lent = (
        spot
        if spot.depths or spot.kind != FIND
        else replace(spot, beside=_lent(spot, measured, lambda a, b: _at_one_place(a, b, advice.same_place)))
        for spot in found
    )

    def belies(one: Spot, other: Spot) -> bool:
        """From one opening both are expected: what is off at the one is no better at the other."""
        off = (hardly(depth, other.expected, advice.depth) for _, depth in other.depths)
        return one.opening == other.opening and other.expected is not None and any(off)

    return tuple(
        spot
        if spot.depths or spot.beside or spot.expected is None
        else replace(spot, unlike=_lent(spot, measured, belies))
        for spot in lent
    )


def _lent(spot: Spot, others: Iterable[Spot], fits: Callable[[Spot, Spot], bool]) -> tuple[Beside, ...]:
    return tuple(
        Beside(other.number, how, depth, other.expected)
        for other in others
        if fits(spot, other)
        for how, depth in other.depths
    )


def marks_at(find: Spot, found: tuple[Spot, ...], within: float) -> tuple[int, ...]:
    """The numbers of the marks that were made at the reading of a find, while the counter meant the same."""
    return tuple(
        mark.number
        for mark in found
        if mark.kind == MARK and mark.counted_from == find.counted_from
        if mark.counter is not None
        and find.counter is not None
        and abs(mark.counter - find.counter) <= within
    )


def _at_one_place(one: Spot, other: Spot, within: float) -> bool:
    """By the line where both are tied to one, else by the counter while it meant the same."""
    if one.distance is not None and other.distance is not None:
        return one.line == other.line and abs(one.distance - other.distance) <= within
    if one.counter is None or other.counter is None or one.counted_from != other.counted_from:
        return False
    return abs(one.counter - other.counter) <= within
