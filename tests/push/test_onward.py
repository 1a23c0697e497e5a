"""The plan from where the head is: what going on promises after what has passed and failed on this push."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from functools import cache

import numpy as np
import pytest

from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.outcome.walk import walk_on
from advisor.plan import Case, plan
from advisor.push.log.kinds import BACK, HELD, PASSED, SIGHTING, START, STOPPED, TRY, Value
from advisor.push.log.log import Entry
from advisor.push.now.course import Course
from advisor.push.now.evidence import planned_anew
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.onward import Onward, _fits, _with_tries_left, onward
from advisor.quantity import Units
from advisor.site.sheet import site_of_text
from tests.cases.jobs import kit_text, rules, tables
from tests.push.test_stuck import TEE, met

NOON = datetime(2026, 11, 2, 12, tzinfo=UTC)
TOLD = tuple[str, float, dict[str, Value]]
AT_TEE, PAST_TEE = 2.0, 6.0  # m: the branch is 2 m long


@cache
def case() -> Case:
    """Nobody knows which tee or wye it is, so that a first push that is held tells much."""
    text = TEE.replace("sanitary tee", "unknown").replace("HOLDING", "holding: no, chemicals: no")
    made = kit_of(kit_of_text(kit_text(), "kit"), tables())
    return Case(site_of_text(text, "site", tables()), made, Units.METRIC, 2000)


@cache
def course() -> Course:
    study = plan(case(), tables(), rules())
    opening = next(piece for piece in study.network.openings() if piece.name == "wall plug")
    return Course(study, opening, study.kit.loadouts[0])


def pushed(*told: TOLD) -> Now:
    """A push from the wall plug and what was told of it."""
    of = course()
    start = Entry(0, NOON, NOON, START, 0.0, {"opening": "wall plug", "direction": "known"})
    made = [
        Entry(i, NOON + timedelta(seconds=i), NOON, kind, counter, data)
        for i, (kind, counter, data) in enumerate(told, 1)
    ]
    return Now(Push(of.study, start), tuple(made))


def tried(technique: str, outcome: str) -> TOLD:
    return (TRY, AT_TEE, {"technique": technique, "spot": met(course()).name, "outcome": outcome})


def from_here(now: Now) -> Onward:
    found = onward(planned_anew(case(), now.push.course, now.tries, now.wrong_port), now)
    assert found is not None
    return found


HELD_AT_TEE: TOLD = (STOPPED, AT_TEE, {"sign": "wall ahead"})


def wanted(of: Course):
    found = of.wanted
    assert found is not None
    return found


def test_before_anything_is_told_it_is_the_chance_of_the_plan():
    now = pushed()
    made = planned_anew(case(), now.push.course, (), None)
    planned = next(o for o in made.outcomes if o.loadout == now.push.loadout)
    assert from_here(now).chance == pytest.approx(planned.chance, abs=0.01)


def test_past_the_tee_only_what_lies_behind_it_counts():
    """By hand, over the worlds whose rod comes so far: what arrives of what came past the tee."""
    walk, comes = wanted(course()).walk, wanted(course()).march.reach >= PAST_TEE
    by_hand = float(walk.arrived[comes].sum() / walk.survive[1][comes].sum())
    past = from_here(pushed((SIGHTING, PAST_TEE, {"what": "nothing"})))
    assert past.chance == pytest.approx(by_hand, abs=0.015)
    assert past.chance > from_here(pushed()).chance
    assert past.goes_on


def test_held_with_tries_failed_it_is_bayes_over_what_is_left():
    """By hand: worlds weigh by every try that failed, and only what is left of the order can pass."""
    spot, walk = met(course()).hard, wanted(course()).walk
    first, (technique, count) = spot.order[0], spot.order[1]
    assert first == ("steady push", 1)
    failed = [tried(technique, HELD)] * (count - 1)
    weights = walk.survive[0] * (1 - spot.chance("steady push")) * (1 - spot.chance(technique)) ** (count - 1)
    left = np.ones_like(weights)
    for name, times in spot.order[1:]:
        left = left * (1 - spot.chance(name)) ** (times - (count - 1 if name == technique else 0))
    beyond = np.where(walk.survive[1] > 0, walk.arrived / np.maximum(walk.survive[1], 1e-6), 0)
    by_hand = float((weights * (1 - left) * beyond).sum() / weights.sum())
    assert from_here(pushed(HELD_AT_TEE, *failed)).chance == pytest.approx(by_hand, abs=0.015)


def test_with_every_try_spent_it_is_left():
    spot = met(course()).hard
    # That it is held is the first push gone, though nobody told it as a try.
    spent = [tried(name, HELD) for name, count in spot.order[1:] for _ in range(count)]
    found = from_here(pushed(HELD_AT_TEE, *spent))
    assert found.chance == 0
    assert not found.goes_on


def test_a_try_that_passed_is_behind_the_head():
    technique = met(course()).hard.order[1][0]
    passed = from_here(pushed(HELD_AT_TEE, tried(technique, PASSED)))
    assert passed.chance > from_here(pushed(HELD_AT_TEE)).chance
    assert passed.goes_on


def test_drawn_back_behind_a_place_that_was_passed_its_tries_are_there_again():
    spot = met(course()).hard
    technique = spot.order[1][0]
    back: TOLD = (BACK, 0.5, {})
    again = _with_tries_left(spot, pushed(HELD_AT_TEE, tried(technique, PASSED), back), None)
    assert again.order == spot.order
    once = _with_tries_left(spot, pushed(HELD_AT_TEE, tried(technique, HELD), back), None)
    assert dict(once.order)[technique] == dict(spot.order)[technique] - 1


def test_worlds_in_which_the_place_behind_seldom_lets_by_weigh_little():
    """A try that is told weighs already by how often it passes, so it is not counted a second time."""
    outcome = wanted(course())
    now = pushed((SIGHTING, PAST_TEE, {"what": "nothing"}))
    assert now.along == pytest.approx(PAST_TEE, abs=0.3)
    silent = _fits(now, outcome, 1, None)
    assert np.allclose(silent, (outcome.march.reach >= now.along) * outcome.spots[0].with_techniques)
    technique = outcome.spots[0].order[1][0]
    told = pushed(HELD_AT_TEE, tried(technique, PASSED), (SIGHTING, PAST_TEE, {"what": "nothing"}))
    assert np.allclose(_fits(told, outcome, 1, None), outcome.march.reach >= told.along)


def test_held_where_nothing_was_foreseen_the_chance_is_only_that_of_what_lies_behind():
    found = from_here(pushed((SIGHTING, 8.0, {"what": "nothing"}), (STOPPED, 8.0, {})))
    assert found.surprised
    assert not from_here(pushed(HELD_AT_TEE)).surprised


def test_in_the_wrong_pipe_it_is_told_to_come_back_first():
    """Up the house drain there are 3 m, then a capped end: 2 + 3 m in, the head stands at it."""
    up = from_here(pushed((SIGHTING, 4.9, {"what": "nothing"}), (STOPPED, 5.0, {})))
    assert up.astray
    assert not from_here(pushed((SIGHTING, 9.0, {"what": "nothing"}))).astray


def test_a_walk_goes_on_with_the_minutes_still_to_come():
    """By hand: past the tee only rod is pushed and drawn back, so many minutes to the metre."""
    outcome, drawn = wanted(course()), course().study.drawn
    walk = walk_on(outcome.way, outcome.spots, drawn, len(outcome.spots), 4.0)
    costs = drawn.tables.costs
    rate = costs["push_minutes_per_metre"].likely + costs["draw_back_minutes_per_metre"].likely
    whole = outcome.march.reach >= outcome.march.end.at
    assert whole.any()
    assert np.allclose(walk.minutes[whole], rate * (outcome.march.end.at[whole] - 4.0), rtol=1e-4)


def test_at_the_end_there_is_nothing_left_to_reach():
    """The branch is 2 m long, and 9 m of house drain follow to the sewer: the end comes at 11 m."""
    told = ((SIGHTING, 6.0, {"what": "nothing"}), (SIGHTING, 11.0, {"what": "end"}))
    assert from_here(pushed(*told)).arrived
    assert not from_here(pushed((SIGHTING, 8.0, {"what": "nothing"}))).arrived
