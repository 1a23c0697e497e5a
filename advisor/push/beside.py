"""Depths that were measured at one find or mark and hold for another at the same place."""

from __future__ import annotations

from dataclasses import replace

from advisor.push.marks import Beside, Spot


def with_depths_beside(found: tuple[Spot, ...], within: float) -> tuple[Spot, ...]:
    """Each spot without a depth of its own gets what was measured no more than `within` m from it."""
    # Two ways of measuring that disagree are told as no depth: so they are lent to nobody either.
    measured = [spot for spot in found if spot.depths and spot.same_depth is not False]
    return tuple(
        spot
        if spot.depths
        else replace(
            spot,
            beside=tuple(
                Beside(other.number, how, depth)
                for other in measured
                if _at_one_place(spot, other, within)
                for how, depth in other.depths
            ),
        )
        for spot in found
    )


def _at_one_place(one: Spot, other: Spot, within: float) -> bool:
    """By the line where both are tied to one, else by the counter while it meant the same."""
    if one.distance is not None and other.distance is not None:
        return one.line == other.line and abs(one.distance - other.distance) <= within
    if one.counter is None or other.counter is None or one.counted_from != other.counted_from:
        return False
    return abs(one.counter - other.counter) <= within
