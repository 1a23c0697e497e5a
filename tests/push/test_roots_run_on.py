"""Roots in a pipe do not end where what is to be seen ends, nor do their readings wander with the head.

A sewer of old clay, 20 m of it beside the opening; to be seen are the first 5 m. Common practice, no source:
the pipe behind what was asked for is the same old clay, and a joint that showed nothing is behind.
"""

from __future__ import annotations

from dataclasses import replace
from math import inf

import numpy as np
import pytest

import tests.terminal.test_now_shown as beside
from advisor.push.log.kinds import BACK, FIND, SIGHTING, STOPPED
from advisor.push.log.log import Entry
from advisor.push.now.hard_ahead import hard_ahead
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.now.roots_span import roots_span
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.way_model import FoundNote
from advisor.terminal.page import Page
from advisor.terminal.push.here import show_now
from advisor.terminal.push.words import Words
from advisor.terminal.way_screen import show_way_in
from tests.terminal.test_now_shown import NOON, Told, pushed, study_of

shown = beside.shown  # fixture
CLAY = """
site: invented
region: north america
built: 1926
map: measured
lines:
  - line: sewer
    size: 4 in
    material: cast iron
    condition: sound
    pieces:
      - opening: plug
        kind: end cleanout
        cellar: yes
      - pipe: 1 m
        landmark: wall
      - change: {material: clay, condition: roots}
      - pipe: 5 m
        landmark: fence
      - pipe: 10 m
      - bend: 1/8 bend
      - pipe: 5 m
      - end: public sewer
task: {look at: "sewer, from plug to fence", complaint: {holding: no, chemicals: no}}
"""
NOTHING = {"what": "nothing"}
CHANGE = (SIGHTING, 1.0, {"what": "material", "material": "clay"})


@pytest.fixture(scope="module")
def push() -> Push:
    return pushed(CLAY, "plug", direction="downstream").push


def now_of(push: Push, *told: Told) -> Now:
    made = (Entry(i, NOON, NOON, *each) for i, each in enumerate(told, 1))
    return Now(push, tuple(made))


def span_of(now: Now):
    (met,) = (met for met in now.push.course.spots if met.run)
    return roots_span(now, met), met


def test_the_run_ends_where_the_pipe_does(push):
    """5 and 10 and 5 m of one clay, from 1 m on: to 21 m, past the bend and far past the fence."""
    span, met = span_of(now_of(push))
    assert met.run == pytest.approx(20, abs=0.5)
    assert span.begins == pytest.approx(1, abs=0.3)
    assert span.ends == pytest.approx(21, abs=0.5)


def test_the_end_stays_while_the_head_goes_on_and_comes_back(push):
    ways = [
        (CHANGE,),
        (CHANGE, (SIGHTING, 4.0, NOTHING)),
        (CHANGE, (SIGHTING, 9.0, NOTHING)),
        (CHANGE, (SIGHTING, 9.0, NOTHING), (BACK, 3.0, {})),
    ]
    ends = [span_of(now_of(push, *told))[0].ends for told in ways]
    assert ends == pytest.approx([ends[0]] * 4, abs=0.1)


def test_behind_what_is_to_be_seen_the_head_is_among_roots_yet(push, shown):
    now = now_of(push, CHANGE, (SIGHTING, 9.0, NOTHING))
    assert now.rooted is not None
    told = shown(show_now, now)
    assert "Roots may stand at any joint here, to 21 m by the sheet" in told
    assert "Not turn the rod" in told


def test_what_was_passed_with_nothing_new_is_passed(push, shown):
    """Back at 3 m after nothing new to 9 m; a mass of roots at 4 m would make that no clean passage."""
    clean = (CHANGE, (SIGHTING, 9.0, NOTHING), (BACK, 3.0, {}))
    told = shown(show_now, now_of(push, *clean))
    assert "Passed to 9 m with nothing new. From there roots may stand at any joint" in told
    rooted = (CHANGE, (FIND, 4.0, {"what": "root mass"}), (SIGHTING, 9.0, NOTHING), (BACK, 3.0, {}))
    assert span_of(now_of(push, *rooted))[0].clear_to is None
    held = (CHANGE, (STOPPED, 4.0, {"sign": "blocked, roots"}), (SIGHTING, 9.0, NOTHING))
    assert span_of(now_of(push, *held))[0].clear_to is None


def test_roots_are_as_likely_as_so_many_places_a_metre_make_them(push):
    """By the Poisson law; what was passed clean speaks for a pipe with few of them (Bayes), by hand."""
    _, met = span_of(now_of(push))
    two = np.array([0.0, 0.1])
    roots = replace(met.hard.spot.shape.roots, per_metre=two)
    spot = replace(met.hard.spot, shape=replace(met.hard.spot.shape, roots=roots))
    of = replace(met, hard=replace(met.hard, spot=spot))
    long = of.run
    assert of.roots_left(0.0) == pytest.approx((1 - np.exp(-0.1 * long)) / 2)
    weight = np.exp(-0.1 * 8)
    wanted = weight * (1 - np.exp(-0.1 * (long - 8))) / (1 + weight)
    assert of.roots_left(8.0) == pytest.approx(wanted)
    assert of.roots_left(long) == pytest.approx(0)


def test_past_the_end_by_the_sheet_no_end_is_told(push):
    """The counter past 21 m and the head perhaps in clay yet: the sheet was too short, not the roots."""
    now = now_of(push, CHANGE, (SIGHTING, 23.0, NOTHING))
    span, _ = span_of(now)
    assert span.ends == inf


def test_a_stop_is_as_likely_behind_the_way_of_the_plan(push):
    """20 m of which the plan's way goes along 5."""
    _, met = span_of(now_of(push))
    seen = float(met.hard.spot.plain.stuck.mean())
    assert met.stuck == pytest.approx(1 - (1 - seen) ** (20 / 5), rel=0.1)
    assert met.stuck > seen


def test_the_plan_says_that_the_pipe_goes_on_with_roots():
    (note,) = (
        note for route in plan_of(study_of(CLAY)).routes[:1] for note in route.passages if note.somewhere
    )
    assert note.at_high_m == pytest.approx(6, abs=0.3)
    assert note.runs_on_m == pytest.approx(21, abs=0.5)


def test_what_a_push_met_there_is_said(capsys):
    """From a trial: "Roots are as likely there" of a pipe in which a push had seen a root mass."""
    plan = plan_of(study_of(CLAY))
    (note,) = (each for each in plan.routes[0].passages if each.somewhere)
    way = plan.routes[0]
    seen = FoundNote(
        opening=way.opening,
        ports=(way.leaves,),
        at_m=9.0,
        at_low_m=8.8,
        what="root mass",
        see="seen before: root mass",
        do="",
        missed="",
        not_past=False,
        left="",
    )
    for found, said in ((), "Roots are as likely there."), ((seen,), "at 9 m: seen before: root mass."):
        show_way_in(plan.model_copy(update={"found": found}), Units.METRIC, Page())
        told = " ".join(capsys.readouterr().out.split()).partition("The same pipe goes on past")[2]
        assert said in told
        assert ("as likely there" in told) is not bool(found)
    assert note.runs_on_m > seen.at_m


def test_a_way_to_the_end_of_the_pipe_has_nothing_beyond():
    whole = CLAY.replace("sewer, from plug to fence", "sewer")
    notes = [note for route in plan_of(study_of(whole)).routes[:1] for note in route.passages]
    assert all(note.runs_on_m is None for note in notes)


def test_the_readings_of_the_box_are_those_of_the_span(push):
    now = now_of(push)
    hard = hard_ahead(now, now.push.course.rooty or now.push.course.hard)
    assert hard is not None
    assert hard.by_sheet
    assert (hard.low, hard.high) == pytest.approx((1, 21), abs=0.5)
    assert "counter 1.1 m to 21.1 m by the sheet" in Words(now).hard(hard)
