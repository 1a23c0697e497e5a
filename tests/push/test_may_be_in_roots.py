"""A head that may be in a run where roots may stand is treated as in one, on every screen.

From a trial: told at a stop to turn the rod and to use a string, where card and plan bar both for
roots, because the head was but with four in ten in their run. Common practice, no source: where nobody can
tell whether roots stand about a rod, nothing is wound round it and nothing is drawn through them.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from types import SimpleNamespace

import numpy as np
import pytest

from advisor.push.before.left_stops import stop_words
from advisor.push.before.stops import stops_told
from advisor.push.disagree import disagree
from advisor.push.held.freeing import free_to_turn
from advisor.push.held_now import plight_of
from advisor.push.log.kinds import MACHINE, PASSED, SIGHTING, STOPPED, TRY
from advisor.push.now.now import Now
from advisor.result.spots import passage_note
from advisor.terminal.page import Page
from advisor.terminal.push.here import show_now
from advisor.terminal.push.stuck import show_stuck
from tests.push.test_roots_run import course_of
from tests.push.test_which_spot import CLAY, found, in_clay
from tests.terminal.test_now_shown import pushed

TURN, STRING = "turn the rod", "string"
DEAD = {"sign": "rim ahead", "feel": "dead"}
SITE = """
site: invented
region: north america
built: 1958
map: guess
lines:
  - line: sewer
    size: 8 in
    material: pvc
    condition: sound
    pieces:
      - opening: yard cleanout
        kind: end cleanout
      - pipe: 8 m
      - change: {material: clay, condition: unknown}
      - pipe: 12 m
      - end: public sewer
task: {look at: sewer, history: {came back: [roots]}, complaint: {holding: no, chemicals: no}}
"""


@cache
def held(*more, at: float = 7.0, signs: str = "rim ahead") -> Now:
    told = (STOPPED, at, {**DEAD, "sign": signs})
    tried = [(TRY, at, {"technique": each, "spot": "", "outcome": PASSED}) for each in more]
    return pushed(SITE, "yard cleanout", (SIGHTING, at - 1, {"what": "nothing"}), told, *tried)


def share_in_run(now: Now) -> float:
    """By the sheet the run begins 8 m in."""
    mass, x = now.belief.mass.sum(axis=(0, 1)), now.push.tracker.chart.x
    return float(mass[x >= 8].sum() / mass.sum())


@pytest.mark.parametrize("at", [6.2, 7.0])
def test_where_it_may_be_in_the_run_it_is_not_turned_and_no_string_is_used(at):
    now = held(at=at)
    assert 0.05 < share_in_run(now) < 0.5
    assert now.rooted is None, "most likely it is before it"
    tries = {each.technique for each in found(now).tries}
    barred = dict(found(now).not_now)
    assert not tries & {TURN, STRING}
    assert "winds the roots round spring and rod" in barred[TURN]
    assert "Neither a string nor a guide parts roots" in barred[STRING]
    assert not any("urn the rod" in step or "string" in step for step in found(now).first)


@pytest.mark.parametrize("at", [2.0, 3.0])
def test_where_it_is_before_the_run_for_certain_the_curl_lifts_the_nose_as_before(at):
    now = held(at=at)
    assert share_in_run(now) < 0.01
    assert TURN in {each.technique for each in found(now).tries}


@pytest.mark.parametrize(
    ("signs", "heading"),
    [
        ("rim ahead", "HELD AT A RIM OR STEP, PERHAPS IN THE RUN MARKED FOR ROOTS IN SEWER"),
        ("dark on both sides", "HELD, PERHAPS WHERE THE PLAN HAS ROOTS IN SEWER"),
    ],
)
def test_no_screen_says_that_there_is_no_hard_place_where_another_tells_one(signs, heading, capsys):
    now = held(signs=signs)
    show_stuck(found(now), now, Page())
    assert heading in capsys.readouterr().out
    show_now(now, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "Roots may stand at any joint here" in said
    assert "never lean on it" not in said, "at this stop the box above tells to lean on it, gently"
    assert not any("no hard place" in each for each in disagree(now))
    assert any("roots in sewer" in each for each in disagree(now))


def test_what_passed_where_it_may_be_among_roots_is_told_with_their_bar():
    (stop,) = stops_told(held(TURN))
    assert f"by this: {TURN} (never in roots)." in stop_words(stop, "yard cleanout", "", held().push.study)


@pytest.mark.parametrize(("inside", "may"), [(1.0, True), (0.4, True), (0.06, True), (0.04, False)])
def test_it_may_be_in_the_run_from_the_share_on_from_which_a_hard_place_is_told(inside, may):
    course, chart = course_of()
    (met,) = (met for met in course.spots if met.run)
    mass = np.zeros((1, len(chart.ways), len(chart.x)))
    mass[0, 0, np.flatnonzero(chart.x > met.along(chart.ways[0]) + 1)[0]] = inside
    mass[0, 0, 0] = 1 - inside  # at the opening
    runs = course.may_be_among_roots(SimpleNamespace(chart=chart), SimpleNamespace(mass=mass))
    assert [each is met for each in runs] == ([True] if may else [])


def run_of(now: Now):
    return next(met for met in now.push.course.spots if met.run)


def test_where_roots_came_back_no_run_is_free_to_turn_in_however_unlikely_they_are_there():
    """Roots of an iron line that nobody thinks likely: those that came back came out of this drain."""
    clay = run_of(in_clay())
    told = CLAY.replace("complaint:", "history: {came back: [roots]}, complaint:")
    made_likely = in_clay(text=told)
    assert clay.hard.roots_unlikely
    assert run_of(made_likely).hard.roots_back
    back = SimpleNamespace(run=clay.run, hard=replace(clay.hard, roots_back=True))
    assert not back.hard.roots_unlikely
    now = in_clay((STOPPED, 6.0, DEAD))
    study = now.push.study
    assert free_to_turn((clay,), plight_of(now), study)
    assert not free_to_turn((back,), plight_of(now), study)
    (note,) = (
        each for each in passage_note(back.hard, clay.outcome, study.reader).techniques if each.name == TURN
    )
    assert not note.unless, "plan and card tell of no exception either"


@pytest.mark.parametrize(("brought", "seen"), [("roots", True), ("scale", False)])
def test_roots_that_a_machine_brought_back_in_a_push_were_told_in_the_job(brought, seen):
    told = {"what": "cutter", "outside": True, "brought": brought}
    assert plight_of(in_clay((MACHINE, 2.1, told))).roots_seen is seen
