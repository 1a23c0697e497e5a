"""Depths in the report: measured and expected, and a warning where they are not the same depth."""

from __future__ import annotations

from advisor.push.advice import Advice
from advisor.push.marks import Spot
from advisor.quantity import Dimension, Units, show


def depth_words(spot: Spot, units: Units) -> str:
    """Measured depths and the expected one, each with what it rests on."""
    parts = [f"{_long(depth, units)} ({how})" for how, depth in spot.depths]
    parts += [f"{_long(each.depth, units)} ({each.how}, at no. {each.number})" for each in spot.beside]
    if spot.expected is not None:
        assumed = f", assumed {' and '.join(spot.expected.assumed)}" if spot.expected.assumed else ""
        parts.append(f"{_long(spot.expected.value, units)} expected for level ground{assumed}")
    if spot.misread:
        parts.append("what was read gives no depth")
    return "; ".join(parts) or "not measured"


def unlike_words(spot: Spot, advice: Advice, units: Units) -> tuple[str, ...]:
    """For whoever digs: where a depth that was measured is not the one that the sheet lets expect."""
    expected = spot.expected
    if expected is None:
        return ()
    measured = [depth for _, depth in spot.depths] + [each.depth for each in spot.beside]
    off = [depth for depth in measured if advice.apart_from_expected(depth, expected)]
    if not off:
        return ()
    read = " and ".join(dict.fromkeys(_long(depth, units) for depth in off))
    return (
        f"No. {spot.number}: {read} deep was measured, {_long(expected.value, units)} is expected. They do "
        "not agree: trust neither before digging. Measure the depth again from two sides, and check the "
        "place: iron, a tilted head, ground that is not level or the wrong place would each give that.",
    )


def _long(metres: float, units: Units) -> str:
    return show(metres, Dimension.LENGTH, units)
