"""Nothing is cleaned where no water may be run, and what going on promises rests on the tries that are told.

From a trial: held at a tee, "next: clean first" stood beside "not water, first see it drain", and
the main list said to leave. Common practice, no source: what is scraped or cut off is flushed out, a jet is
water, so a line that nobody has seen to drain since the stop is cleaned only once somebody has.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from advisor.outcome.at_door import AtDoor
from advisor.outcome.attempts import CLEANED, STEADY
from advisor.plan import plan
from advisor.push import onward as onward_module
from advisor.push.held.not_wet import barred_wet, drain_first
from advisor.push.held.stuck import Stuck, stuck
from advisor.push.held.unforeseen import steps_anywhere
from advisor.push.log.kinds import SIGHTING, START, STOPPED
from advisor.push.log.log import Entry
from advisor.push.now.here import pieces_here
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.now.plight import Plight
from advisor.push.now.tries import NextTry
from advisor.push.onward import onward
from tests.cases.jobs import rules, tables
from tests.terminal.test_now_shown import NOON, TEE_PLUG, case_of, study_of, tee

UNSAID = "holding: unknown, chemicals: no"
FIRST = "First see the line drain: key w."
BUILD_UP = frozenset({"blocked", "gritty"})


@cache
def seen_at_door():
    """Nobody has said on the sheet whether it holds; it was seen to drain as the push began."""
    return plan(replace(case_of(tee(holding=UNSAID)), told=AtDoor(drains=True)), tables(), rules())


def now_of(study, *told: tuple[str, float, dict]) -> Now:
    start = Entry(0, NOON, NOON, START, 0.0, {"opening": TEE_PLUG, "direction": "known", "drains": True})
    return Now(Push(study, start), tuple(Entry(i, NOON, NOON, *each) for i, each in enumerate(told, 1)))


def held(study, drains: bool | None) -> Stuck:
    """By a deposit in sound iron where no hard place is: what takes that off is to clean it."""
    now = now_of(study, (SIGHTING, 1.0, {"what": "nothing"}))
    plight = Plight(drains, drained=drains is None)
    return stuck(now.push.course, None, BUILD_UP, (), 1.0, pieces_here(now), plight)


@pytest.mark.parametrize(
    ("study", "signs", "drains", "barred"),
    [
        (seen_at_door, {"wall ahead"}, None, {"water", CLEANED}),  # the stop took away what was seen
        (seen_at_door, {"wall ahead"}, True, set()),
        (seen_at_door, {"wall ahead"}, False, {"water", CLEANED}),
        (lambda: study_of(tee()), {"wall ahead"}, None, set()),  # the sheet has it draining
        (lambda: study_of(tee()), {"blocked"}, None, {"water"}),  # cleaned, but after it was seen to drain
        (lambda: study_of(tee()), {"wall ahead"}, False, {"water", CLEANED}),
    ],
)
def test_what_runs_water_is_barred_as_water_is(study, signs, drains, barred):
    wet = dict(barred_wet(signs, Plight(drains), study()))
    assert set(wet) == barred
    assert CLEANED not in wet or FIRST in wet[CLEANED]


@pytest.mark.parametrize("drains", [None, True])
def test_held_where_it_was_only_seen_to_drain_before_nothing_is_cleaned_next(drains):
    found = held(seen_at_door(), drains)
    assert (CLEANED in {each.technique for each in found.tries}) is (drains is True)
    assert (FIRST in dict(found.not_now).get(CLEANED, "")) is (drains is None)


@pytest.mark.parametrize("drains", [None, True])
def test_where_the_sheet_has_it_draining_a_cleaning_begins_with_seeing_that(drains):
    """What is before the lens may hold water back: no water, and how to see it drain before any flush."""
    found = held(study_of(tee()), drains)
    (cleaning,) = (each for each in found.tries if each.technique == CLEANED)
    assert ("water" in dict(found.not_now)) is (drains is None)
    assert cleaning.steps[0].startswith(FIRST) is (drains is None)
    assert len(cleaning.steps) > 1


def test_only_a_cleaning_waits_for_that():
    tries = tuple(NextTry(name, 0.5, 1, 1.0, ("Do it.",), "") for name in (CLEANED, "string"))
    cleaning, string = drain_first(tries, (("water", "no"),), tables().in_pipe)
    assert cleaning.steps[0].startswith(FIRST)
    assert string.steps == ("Do it.",)
    assert drain_first(tries, (), tables().in_pipe) == tries


def test_a_cleaning_of_which_no_rule_speaks_has_its_steps():
    """With each rule that tells how to clean silent, what lies on the wall and its bottom is looked at."""
    course = now_of(study_of(tee())).push.course
    silent = [
        type("Silent", (), {"rule_id": rule.id, "outcome": False})
        for rule in rules().by_stratum["technique"]
        if rule.about != "site" and CLEANED in rule.conclusion.steps
    ]
    steps = steps_anywhere(course, CLEANED, silent)
    assert any("Flush" in step for step in steps)


WALL = (STOPPED, 2.0, {"sign": "wall ahead", "feel": "springs back"})


@pytest.mark.parametrize("kept", [0, 1])
def test_what_going_on_promises_rests_on_the_tries_that_are_told(monkeypatch, kept):
    """With no try told none passes; with one told it passes as often as that one does, or less for the rest
    of the way. Worked from the spot's own chances: a plan of the worlds in which a push is held."""
    study = study_of(tee())
    now = now_of(study, WALL)
    told = onward_module.held_now(now)
    assert told is not None
    assert {each.technique for each in told.tries} != {STEADY}
    some = replace(told, tries=told.tries[:kept])
    monkeypatch.setattr(onward_module, "held_now", lambda now: some)
    ahead = onward(study, now)
    assert ahead is not None
    if not kept:
        assert ahead.chance == 0
        assert not ahead.goes_on
    else:
        (only,) = some.tries
        hard = next(each for each in now.push.course.spots if each.name == told.spot).hard
        most = 1 - (1 - hard.chance(only.technique)) ** only.left
        assert 0 < ahead.chance <= float(most.max())


def test_a_try_that_is_told_though_the_plan_holds_it_too_slow_counts_in_the_chance_to_leave(monkeypatch):
    study = study_of(tee())
    now = now_of(study, WALL)
    told = onward_module.held_now(now)
    assert told is not None
    hard = next(each for each in now.push.course.spots if each.name == told.spot).hard
    slow = [name for name in hard.tries if name not in dict(hard.order) and hard.chance(name).any()]
    assert slow, "the tee has such a try"
    tries = tuple(NextTry(name, 0.1, 1, 1.0, (), "") for name in slow)
    monkeypatch.setattr(onward_module, "held_now", lambda now: replace(told, tries=tries))
    ahead = onward(study, now)
    assert ahead is not None
    assert ahead.chance > 0
