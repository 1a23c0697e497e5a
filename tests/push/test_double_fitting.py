"""A head that comes out of one arm of a double fitting and may run straight across into the other.

Outside: pushes of rods in model fittings, of which those into a main of the same bore crossed mostly (the
junction constants of rules/tables, from those pushes); a rule of the trade: water that comes at the lens past
the fitting comes down the arm that the head is in.
"""

from __future__ import annotations

from math import cos, exp, pi

import pytest

from advisor.push.disagree import disagree
from advisor.push.held_now import held_now
from advisor.push.log.kinds import BACK, SIGHTING, STOPPED, TRY, WATER
from advisor.push.now.across import across
from advisor.push.now.now import Now
from advisor.push.stop_ahead import stop_ahead
from advisor.push.track.checks import worth_making
from advisor.push.track.ways import Intent
from advisor.terminal.push.here import show_now
from tests.cases.jobs import tables
from tests.push.sites import tracker_on
from tests.push.test_report import report, section
from tests.terminal.test_now_shown import Told, pushed, shown

__all__ = ["shown"]
ROW = """
site: invented
region: britain
map: sketch
lines:
  - line: row
    size: 100 mm
    material: plastic
    pieces:
      - opening: end access
        kind: rodding eye
      - pipe: 2 m
      - joined by: arm one
        fitting: FITTING
      - joined by: arm two
        fitting: FITTING
      - pipe: 6 m
      - joined by: arm three
        fitting: swept branch
      - pipe: 10 m
      - end: public sewer
  - line: arm one
    size: 100 mm
    pieces: [{opening: toilet one, kind: toilet flange}, {bend: closet bend}, {pipe: 1 m}]
  - line: arm two
    size: 100 mm
    pieces: [{opening: toilet two, kind: toilet flange}, {bend: closet bend}, {pipe: 1 m}]
  - line: arm three
    size: 100 mm
    pieces: [{fixture: kitchen sink}, {pipe: 1 m}]
task: {look at: "row, from arm three to the bottom", complaint: {holding: no, chemicals: no, gas smell: no}}
"""
DOUBLE = ROW.replace("FITTING", "double sanitary tee")
_SECOND = DOUBLE.index("      - joined by: arm two"), DOUBLE.index("      - pipe: 6 m")
_ARM = DOUBLE.index("  - line: arm two"), DOUBLE.index("  - line: arm three")
ALONE = DOUBLE[: _SECOND[0]] + DOUBLE[_SECOND[1] : _ARM[0]] + DOUBLE[_ARM[1] :]  # nobody drew arm two
UNDRAWN = "the arm opposite arm one"
BEND = (SIGHTING, 0.3, {"what": "bend"})
PAST = (SIGHTING, 1.8, {"what": "nothing"})
AHEAD = (WATER, 1.8, {"fixture": "toilet two", "dye": False, "seconds": 3.0, "side": "ahead"})
WALL = (STOPPED, 2.1, {"sign": "wall ahead", "feel": "dead"})


def now(*told, opening: str = "toilet one") -> Now:
    return pushed(DOUBLE, opening, *told, direction="downstream")


def arm(text: str, opening: str, line: str, **intent) -> float:
    chart = tracker_on(text, opening, intent=Intent(**intent)).chart
    return sum(way.prior for way in chart.ways if any(leg.line == line for leg in way.legs))


@pytest.mark.parametrize(("opening", "line"), [("toilet one", "arm two"), ("toilet two", "arm one")])
def test_it_crosses_as_often_as_the_fitting_lets_it_whatever_is_steered(opening, line):
    level, curl = (getattr(tables().junction, name) for name in ("cross_level", "cross_curl"))
    rolls = [2 * pi * (roll + 0.5) / 100 for roll in range(100)]
    crosses = sum(1 / (1 + exp(curl * cos(roll) - level)) for roll in rolls) / 100
    steers = {("row/junction:arm one", "branch"): "down", ("row/junction:arm two", "up"): "down"}
    for intent in ({}, {"steers": steers}):
        assert arm(DOUBLE, opening, line, **intent) == pytest.approx(crosses, abs=0.03)


@pytest.mark.parametrize("fitting", ["sanitary tee", "double wye"])
def test_two_fittings_close_together_or_arms_that_point_downstream_are_not_crossed(fitting):
    """Out of an arm of a double wye the head goes 45 degrees down the line, the arm opposite comes in from
    45 degrees up it: by the angles a right-angled turn back, past a sharp edge."""
    assert arm(ROW.replace("FITTING", fitting), "toilet one", "arm two") < 0.1
    assert arm(ALONE.replace("double sanitary tee", fitting), "toilet one", UNDRAWN) == 0


def test_an_arm_opposite_that_nobody_drew_is_run_into_as_often_as_a_drawn_one():
    drawn, alone = arm(DOUBLE, "toilet one", "arm two"), arm(ALONE, "toilet one", UNDRAWN)
    assert alone == pytest.approx(drawn, abs=0.03)
    assert arm(DOUBLE, "toilet one", UNDRAWN) == 0, "there it is drawn"
    unknown = ALONE.replace("fitting: double sanitary tee", "fitting: unknown")
    assert arm(unknown, "toilet one", UNDRAWN) == 0, "the fitting hardly is such a one"


def test_in_an_arm_that_nobody_drew_it_is_told_and_drawn_back_as_in_a_drawn_one(shown):
    told = pushed(ALONE, "toilet one", BEND, PAST, WALL, direction="downstream")
    over = across(told.push.tracker, told.belief)
    assert over is not None
    assert over.arm.name == UNDRAWN
    (met,) = (each for each in told.push.course.spots if each.key[1] == "branch")
    plain = met.hard.spot.plain
    went, on = float(plain.crosses.mean()), float((plain.passes + plain.wrong_way).mean())
    prior = sum(way.prior for way in told.push.tracker.chart.ways if way.legs[-1].line == UNDRAWN)
    assert prior == pytest.approx(went / (went + on), abs=0.05)
    found = held_now(told)
    assert found is not None
    assert "crossed over" in [cause.name for cause in found.named]
    end = pushed(ALONE, "toilet one", BEND, PAST, (SIGHTING, 5.0, {"what": "end"}), direction="downstream")
    said = " ".join(shown(show_now, end).split())
    assert f"straight across the double fitting into {UNDRAWN}: likely" in said
    assert f"Where: {UNDRAWN}, 3." in said, "counted from the fitting, 1.1 m in"
    assert "Draw back to before the fitting" in said


def test_arms_on_one_side_face_nothing():
    text = DOUBLE.replace("fitting: double sanitary tee", "fitting: double sanitary tee\n        side: left")
    assert arm(text, "toilet one", "arm two") < 0.1


def test_the_plan_tells_how_likely_it_is():
    def plain(met):
        return met.hard.spot.plain

    told = now()
    (met,) = (each for each in told.push.course.spots if each.key[1] == "branch")
    crosses, on = float(plain(met).crosses.mean()), float((plain(met).passes + plain(met).wrong_way).mean())
    by_way = sum(
        way.prior
        for way in told.push.tracker.chart.ways
        if any(leg.line == "arm two" for leg in way.legs) and way.legs[0].leaves == "down"
    )
    assert by_way == pytest.approx(crosses / (crosses + on), abs=0.05)


def test_straight_across_nothing_turns_the_head_and_what_crosses_is_not_stopped():
    told = now()
    (met,) = (each for each in told.push.course.spots if each.key[1] == "branch")
    plain = met.hard.spot.plain
    passes, crosses = float(plain.passes.mean()), float(plain.crosses.mean())
    for way in told.push.tracker.chart.ways[:2]:
        over = any(leg.line == "arm two" for leg in way.legs)
        there = [mark for mark in way.landmarks if mark.piece.name in ("arm one", "arm two")]
        assert ("bend" in {mark.kind for mark in there}) is not over
        stops = max(mark.stops for mark in there)
        assert (
            stops < 0.1 if over else stops == pytest.approx((1 - passes - crosses) / (1 - crosses), abs=0.01)
        )


def test_most_likely_across_the_fitting_is_not_ahead(shown):
    told = now(BEND, PAST, (STOPPED, 2.0, {"sign": "wall ahead"}))
    over = across(told.push.tracker, told.belief)
    assert over is not None
    assert 0.5 < over.chance < 0.85  # so that it may well be before it all the same
    assert "Slow. Double branch" not in " ".join(shown(show_now, told).split())


def test_water_at_the_lens_past_the_fitting_tells_the_arm(shown):
    told = now(BEND, PAST, AHEAD)
    assert told.fix.best.line == "arm two"
    assert told.fix.downstream < 0.1
    assert told.contrary is None
    assert any("straight across" in line for line in disagree(told))
    assert not disagree(now(BEND))
    said = " ".join(shown(show_now, told).split())
    assert "straight across the double fitting into arm two: likely" in said
    assert "Draw back to before the fitting" in said
    assert "Slow. Double branch" not in said  # it lies behind the lens


def test_before_any_water_it_is_told_as_open_and_what_settles_it(shown):
    said = " ".join(shown(show_now, now(BEND, PAST)).split())
    assert "straight across the double fitting into arm two" in said
    assert "Run the toilet two" in said
    assert "may splash out of toilet one" in said


def test_where_another_tells_that_is_run_first():
    told = now(BEND, PAST)
    assert told.push.faced == {"toilet two"}
    facing = told.check
    other = facing.__class__("kitchen sink", False, facing.bits / 2, facing.minutes, 0.5, 0.5)
    assert worth_making((facing, other), 0.1, told.push.faced) is other
    assert worth_making((facing,), 0.1, told.push.faced) is facing


def test_a_try_that_led_the_head_straight_across_passed_nothing():
    """From a trial: after a string that crossed, turning rose from 34 to 42 % a try, the fitting
    was told as come past, and 10 cm off it was no place of the plan, with every try to be made anew."""
    spot = next(met.name for met in now().push.course.spots if met.key[1] == "branch")

    def told(technique: str, outcome: str, at: float = 1.6) -> Told:
        return TRY, at, {"technique": technique, "spot": spot, "outcome": outcome}

    held = (STOPPED, 1.6, {"sign": "wall ahead", "feel": "springs back"})
    turned = (BEND, held, told("turn the rod", "stopped"))
    crossed = (*turned, told("string", "passed"), PAST, AHEAD)
    over, unsure = now(*crossed), now(*crossed[:-2])
    assert [each.passed for each in over.tries] == [False, False]
    assert spot not in over.passed
    assert spot in unsure.passed
    back = now(*crossed, (BACK, 1.0, {}))
    again = stop_ahead(back)
    assert again is not None
    assert not again.passed
    held_again = now(*crossed, (BACK, 1.0, {}), (STOPPED, 1.5, dict(held[2])))
    found = held_now(held_again)
    assert found is not None
    assert found.spot == spot, "where it was tried before, a hand's breadth off"
    assert all(each.left == 1 for each in found.tries if each.technique in ("turn the rod", "string"))
    through = now(*crossed[:-2], (WATER, 1.8, {**AHEAD[2], "side": "behind"}))
    assert [each.passed for each in through.tries] == [False, True], "water from behind: it did turn down"


def test_the_report_tells_that_a_try_led_into_the_arm_opposite():
    """From a trial: it said of the string that it passed, and nowhere where the head then was."""
    start = ("start", 0.0, {"opening": "toilet one", "direction": "downstream"})
    string = (TRY, 1.6, {"technique": "string", "outcome": "passed", "outside": True})
    crossed = (
        "tried string, all of the rod drawn out for it: told as passed, but it most likely ran straight "
    )
    end = ("end", 1.8, {"reached": False, "out": True})
    for side, over in (("ahead", True), ("behind", False)):
        water = (WATER, 1.8, {**AHEAD[2], "side": side})
        told = (
            start,
            BEND,
            (STOPPED, 1.6, {"sign": "wall ahead"}),
            string,
            PAST,
            water,
            (BACK, 1.0, {}),
            end,
        )
        said = section(report(*told, text=DOUBLE), "Seen in this order")
        assert (f"{crossed}across the double fitting into arm two" in said) is over
        assert ("it passed" in said) is not over
