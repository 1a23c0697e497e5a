"""One common thing settles on no map which way a head went: another that nobody drew may lie there too.

On a map that nobody saw a lone tie-in turns no direction that was told: a neighbour's or a pump's may be it.
From a trial: a cleanout told to sweep to the street only, a bathroom of which nobody knew where it
joins, and one mouth 6 ft in: "leads the other way than planned, 99 %".
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import BACK, SIGHTING, STOPPED, WATER
from advisor.push.log.sighting import Seen
from advisor.push.now.now import Now
from advisor.push.track.fix import named
from advisor.terminal.push.here import show_now
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


MEASURED = (
    SITE.replace("map: guess", "map: measured")
    .replace("pipe: 10 m", "pipe: 8 m\n      - bend: 1/8 bend\n      - pipe: 2 m")
    .replace("1.5 to 3 m", "2 m")
)
TIE_IN = (SIGHTING, 2.7, {"what": "tie-in", "clock": 3.0, "size": 0.0762})
BEND = (SIGHTING, 4.7, {"what": "bend"})
PART_BACK, OUT = (BACK, 1.0, {}), (BACK, 0.0, {})
FLUSH = (WATER, 2.7, {"fixture": "laundry tub", "seconds": 6.0, "side": "ahead"})


def untold(*told, direction: str = "unknown") -> Now:
    return pushed(MEASURED.replace("KIND", "two-way cleanout"), "yard cleanout", *told, direction=direction)


@pytest.mark.parametrize(
    "told",
    [
        [TIE_IN],
        [BEND],
        [TIE_IN, PART_BACK, TIE_IN],
        [TIE_IN, (STOPPED, 2.8, {"sign": "wall ahead"})],
        [TIE_IN, OUT, TIE_IN],
    ],
)
def test_nobody_told_the_way_and_one_thing_settles_it_on_no_map(told):
    now = untold(*told)
    assert now.fix.downstream == pytest.approx(0.15)  # what rules/signs/where.yaml signs, and no more
    assert now.fix.best.chance <= 0.85
    assert now.wrong_port is None
    last = now.sightings[-1]
    if isinstance(last, Seen):
        assert named(now.push.tracker, now.belief, last)[0].chance <= 0.85


@pytest.mark.parametrize("second", [BEND, FLUSH])
def test_two_things_that_agree_settle_it(second):
    now = untold(TIE_IN, second)
    assert now.fix.downstream < 0.05
    assert now.fix.most > 0.85


def test_a_way_that_was_told_is_as_sure_as_it_was_told():
    told = untold((SIGHTING, 1.0, {"what": "nothing"}), direction="upstream")
    assert told.fix.downstream < 0.05
