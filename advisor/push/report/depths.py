"""Depths in the report: measured and expected, and a warning where they are not the same depth."""

from __future__ import annotations

from advisor.push.report.advice import Advice
from advisor.push.report.marks import Spot
from advisor.push.track.depth import hardly
from advisor.quantity import Dimension, Units, show, show_reading, show_tape
from advisor.tables.where import number


def depth_words(spot: Spot, units: Units) -> str:
    """Measured depths and the expected one, each with what it rests on."""
    parts = [f"{show_tape(depth, units)} ({how})" for how, depth in spot.depths]
    parts += [
        f"not measured here; at no. {each.number}: {show_tape(each.depth, units)} ({each.how})"
        for each in spot.beside
    ]
    if spot.expected is not None:
        assumed = spot.expected.assumed_words(units)
        deep = _expected(spot.expected.value, units)
        parts.append(f"{deep} expected for level ground{assumed}")
    for each in spot.unlike:
        assert each.expected is not None
        there = _expected(each.expected.value, units)
        read = f"{show_tape(each.depth, units)} was measured, {there} expected"
        parts.append(f"do not trust that: at no. {each.number} {read}")
    if spot.misread:
        parts.append("what was read gives no depth")
    return "; ".join(parts) or "not measured"


def unlike_words(spot: Spot, advice: Advice, units: Units) -> tuple[str, ...]:
    """For whoever digs: where a depth that was measured is not the one that the sheet lets expect, or deeper
    than drains lie where it lets expect none.
    """
    measured = [depth for _, depth in spot.depths] + [each.depth for each in spot.beside]
    off = [depth for depth in measured if hardly(depth, spot.expected, advice.depth)]
    if not off:
        return ()
    read = " and ".join(dict.fromkeys(show_tape(depth, units) for depth in off))
    deepest = show(number(advice.depth.deepest), Dimension.LENGTH, units)
    says = f"hardly a drain lies deeper than {deepest}. Do not trust it"
    if spot.expected is not None:
        expected = _expected(spot.expected.value, units)
        assumed = spot.expected.assumed_words(units)
        says = f"{expected} is expected{assumed}. They do not agree: trust neither"
    return (
        f"No. {spot.number}: {read} deep was measured, {says} before digging. Measure the depth again from "
        "two sides, and check the place: iron, a tilted head, ground that is not level, the wrong place or "
        "the wrong unit would each give that.",
    )


def _expected(metres: float, units: Units) -> str:
    """As the measured ones beside it, and no finer than a tape lies on ground."""
    return show_tape(metres, units, parts=1) if units is Units.INCH else show_reading(metres, units)
