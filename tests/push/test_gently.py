"""What the hand feels comes before any try. Rules of the trade: a hard dead stop is met gently, force never
first; what comes neither way is freed before anything else, with the pull limit told, and not pushed on."""

from __future__ import annotations

from functools import cache

import pytest

from advisor.push.disagree import disagree
from advisor.push.held.gently import blows_last, blows_that_harm
from advisor.push.held.stuck import Stuck, stuck
from advisor.push.log.kinds import SIGHTING, STOPPED
from advisor.push.now.tries import NextTry
from advisor.terminal.push.stuck import show_stuck
from tests.cases.jobs import rules, tables
from tests.terminal.test_now_shown import TEE_PLUG, Now, pushed, shown, tee

__all__ = ["shown"]  # a fixture


@cache
def at_tee() -> Now:
    return pushed(tee(), TEE_PLUG)


def held(*signs: str) -> Stuck:
    course = at_tee().push.course
    met = next(each for each in course.spots if "sanitary tee" in each.name)
    return stuck(course, met, frozenset(signs), (), 2.0, ())


def a_try(technique: str) -> NextTry:
    return NextTry(technique, 0.5, 2, 1.0, (), "")


def test_at_a_hard_stop_gentle_tries_come_before_any_blow():
    order = tuple(map(a_try, ("quick push", "string", "turn the rod")))
    table = tables().stuck
    hard = blows_last(table, frozenset({"wall ahead", "dead"}), order)
    assert [each.technique for each in hard] == ["string", "turn the rod", "quick push"]
    assert blows_last(table, frozenset({"wall ahead", "springs back"}), order) == order


def test_where_a_stroke_pays_best_it_comes_last_all_the_same():
    """In a swept fitting the planner's first is the stroke; a hard dead stop turns that round."""
    course = pushed(tee("combination"), TEE_PLUG).push.course

    def found(feel: str) -> Stuck:
        return stuck(course, course.spots[0], frozenset({"wall ahead", feel}), (), 2.0, ())

    order = {feel: [each.technique for each in found(feel).tries] for feel in ("soft", "dead")}
    assert order["soft"][0] == "quick push"
    assert order["dead"][-1] == "quick push"
    assert sorted(order["soft"]) == sorted(order["dead"])


def test_at_a_hard_stop_it_is_drawn_back_turned_and_leant_on_before_anything():
    found = held("wall ahead", "dead")
    assert [step.split()[0] for step in found.first[:3]] == ["Draw", "Turn", "Lean"]
    assert found.tries
    assert found.tries[0].technique != "quick push"
    assert not held("wall ahead", "springs back").first


@pytest.mark.parametrize(
    ("chances", "barred"),
    [
        ({"runs at far wall": 0.39, "head jams": 0.28, "rod end sticks": 0.13, "stopper": 0.08}, False),
        ({"runs at far wall": 0.39, "head jams": 0.38, "ledge": 0.13, "rod end sticks": 0.1}, True),
    ],
)
def test_a_blow_that_more_likely_than_not_does_harm_is_barred(chances, barred):
    """By hand: 0.28 + 0.08 = 0.36 is less than half, 0.38 + 0.13 = 0.51 more; the matrix says a blow wedges a
    head that jams, breaks a lens at a rim and wedges in a trap."""
    hard = frozenset({"dead"})
    found = blows_that_harm(tables().stuck, hard, chances, rules().matrix)
    assert found == ((("quick push", "A blow wedges the head."),) if barred else ())
    assert blows_that_harm(tables().stuck, frozenset({"springs back"}), chances, rules().matrix) == ()


@pytest.mark.parametrize("more", [(), ("blocked",), ("dead",)])
def test_held_both_ways_it_is_freed_before_anything_is_tried(more, shown):
    found = held("will not come back", *more)
    assert found.both_ways
    assert found.stop is not None
    assert "No push" in found.stop
    said = shown(show_stuck, found, at_tee())
    free, limit, stop = (
        said.index(words) for words in ("First get it free, gently", "Never pull more than", "No push onward")
    )
    assert free < limit < stop
    assert said.index("First get it free") < said.index(found.told.words.split()[1])
    assert "Next:" not in said
    assert "Draw back a foot" not in said


def test_a_head_that_was_read_elsewhere_since_is_held_no_longer():
    """It stopped at the tee 2 m in and was then read 3 m further: it has come by, though no try was told."""
    stop = (STOPPED, 2.0, {"sign": "wall ahead"})
    held_there = pushed(tee(), TEE_PLUG, stop)
    on = pushed(tee(), TEE_PLUG, stop, (SIGHTING, 5.0, {"what": "nothing"}))
    same = pushed(tee(), TEE_PLUG, stop, (SIGHTING, 2.1, {"what": "nothing"}))
    assert held_there.held_at[1]
    assert same.held_at[1]
    assert on.held_at == (None, False)
    assert not disagree(on)
