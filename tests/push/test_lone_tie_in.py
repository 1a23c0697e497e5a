"""One tie-in on a map that nobody saw turns no direction: a neighbour's or a pump's may lie there too.

From a technician's day: a cleanout told to sweep to the street only, a bathroom of which nobody knew where it
joins, and one mouth 6 ft in: "leads the other way than planned, 99 %".
"""

from __future__ import annotations

import pytest

from advisor.push.kinds import SIGHTING
from advisor.push.now import Now
from advisor.terminal.push.screens import show_now
from tests.push.test_told_way import MIDWAY
from tests.terminal.test_now_shown import pushed, shown

__all__ = ["shown"]
SITE = (
    MIDWAY.replace("pipe: 6 m", "pipe: 1.5 to 3 m")
    .replace("fitting: wye", "fitting: unknown")
    .replace("kind: floor cleanout\n        depth: 0.5 m", "kind: KIND")
    .replace("pipe: 30 m", "pipe: 5 to 18 m")
    .replace("2 in", "3 in")
    .replace("septic tank", "public sewer")
    + 'task: {look at: "house drain, from yard cleanout to public sewer", '
    "complaint: {holding: no, chemicals: no}}"
)
MOUTH = (SIGHTING, 1.8, {"what": "tie-in", "clock": 3.0, "size": 0.0762})


def pushed_in(*told, kind: str = "yard cleanout", direction: str = "unknown") -> Now:
    return pushed(SITE.replace("KIND", kind), "yard cleanout", *told, direction=direction)


@pytest.mark.parametrize(
    ("kind", "street"),
    [("yard cleanout", 0.97), ("assumed yard cleanout", 0.5), ("two-way cleanout", 0.5)],
)
def test_what_was_told_of_the_throat_stands_where_nobody_sees_it_at_the_rim(kind, street):
    chart = pushed_in(kind=kind).push.tracker.chart
    down = sum(way.prior for way in chart.ways if way.legs[0].leaves == "down")
    assert down == pytest.approx(street, abs=0.01)


@pytest.mark.parametrize("direction", ["unknown", "downstream"])
def test_two_ways_are_named_and_a_water_test(direction, shown):
    told = pushed_in(MOUTH, direction=direction)
    said = shown(show_now, told)
    assert "Where: not sure. Either" in said
    assert "looking downstream" in said
    assert "looking upstream" in said
    assert "it tells most" in said
    assert "That is:" not in said
    assert told.wrong_port is None


def test_only_on_a_map_that_nobody_saw_more_tie_ins_lie_undrawn():
    guess = pushed_in().push.tracker.chart
    seen = pushed(SITE.replace("KIND", "yard cleanout").replace("guess", "measured"), "yard cleanout")
    measured = seen.push.tracker.chart
    assert guess.false("tie-in") > 2 * measured.false("tie-in")
    assert guess.false("end") == measured.false("end")
