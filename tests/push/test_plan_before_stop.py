"""Drawn back from a stop that was not passed, the plan from there knows of it.

From a trial: stopped by roots in a run of old clay, drawn back by a forearm to look, the plan
asked for anew: it told to go on, at the chance of before. Nobody pushes into roots (common practice).
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import BACK, PASSED, STOPPED, TRY
from advisor.push.now.evidence import planned_anew
from advisor.push.now.now import Now
from advisor.push.onward import Onward, onward
from advisor.terminal.page import Page
from advisor.terminal.push.plan_anew import show_plan_anew
from tests.push.machines import cutter
from tests.push.test_which_spot import CLAY, RIM, ROOTS, in_clay
from tests.terminal.test_now_shown import case_of

DRAWN = (BACK, 5.5, {})


def ahead(now: Now) -> Onward:
    found = onward(planned_anew(case_of(CLAY), now.push.course, now.tries, now.wrong_port), now)
    assert found is not None
    return found


def said(now: Now, capsys, text: str = CLAY) -> str:
    made = planned_anew(case_of(text), now.push.course, now.tries, now.wrong_port)
    show_plan_anew(now, made, onward(made, now), Page())
    return " ".join(capsys.readouterr().out.split())


def test_before_roots_that_stopped_it_nobody_is_told_to_go_on(capsys):
    told = said(in_clay((STOPPED, 6.0, ROOTS), DRAWN), capsys)
    assert "Not past 6 m, where it was stopped. Draw back" in told
    assert "Go on here" not in told


def test_the_chance_from_there_knows_that_roots_held_it():
    before, after = ahead(in_clay()), ahead(in_clay((STOPPED, 6.0, ROOTS), DRAWN))
    assert after.chance < before.chance / 2
    assert not after.goes_on


def test_where_no_world_tells_of_the_stop_the_chance_is_that_of_what_lies_behind_it_and_that_is_told(capsys):
    near = CLAY.replace("5 to 14 m", "7 m")  # so near that the other chamber is worth its minutes after it
    told = said(in_clay((STOPPED, 6.0, RIM), DRAWN, text=near), capsys, near)
    assert "Only if it comes past 6 m this time, gently. To see it all then: " in told
    assert "These chances know nothing of the stop at 6 m" in told
    assert "Go on here" not in told


def test_of_two_stops_the_one_that_was_never_passed_counts_though_it_lies_further(capsys):
    past = (STOPPED, 6.0, RIM), (TRY, 6.0, {"technique": "steady push", "outcome": PASSED})
    told = said(in_clay(*past, (STOPPED, 7.0, RIM), DRAWN), capsys)
    assert "Only if it comes past 7 m this time" in told


@pytest.mark.parametrize(
    "after",
    [
        ((TRY, 6.0, {"technique": "steady push", "outcome": PASSED}), DRAWN),
        (DRAWN, cutter(8.0, "front chamber", "upstream")),
    ],
)
def test_what_was_passed_or_cut_since_stands_in_the_way_of_no_plan(after, capsys):
    assert "Go on here" in said(in_clay((STOPPED, 6.0, RIM), *after), capsys)
