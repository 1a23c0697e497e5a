"""What comes where a head does not come free, or a push fails that was all but sure: another opening, with
the chance that it has by the plan.

From a trial: held by a rim in a drain where the plan has nothing hard, what lay behind it was sure to be
seen, and every other opening stood there with "under 1 %", where the plan gave the next chamber 90 %.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from advisor.outcome.assess import RouteOutcome
from advisor.push.log.kinds import BACK, SIGHTING, STOPPED
from advisor.push.now.evidence import planned_anew
from advisor.push.now.now import Now
from advisor.push.onward import Onward, _behind, _compared, _fits, onward
from advisor.ranking.order import Option, best_order
from advisor.ranking.settle import option_of
from advisor.result.stopped_before import StoppedBefore, Visit
from advisor.result.study import Study
from advisor.terminal.push.plan_anew import show_plan_anew
from tests.push.test_spent_no_first import DRAIN
from tests.push.test_which_spot import CLAY, RIM, in_clay
from tests.terminal.test_now_shown import Told, case_of, pushed, shown

__all__ = ["shown"]  # fixture
# So near that the other chamber is worth its minutes after this one.
NEAR = CLAY.replace("5 to 14 m", "7 m")
HELD: Told = (STOPPED, 6.0, RIM)


@cache
def made() -> Study:
    now = in_clay(HELD, text=NEAR)
    return planned_anew(case_of(NEAR), now.push.course, now.tries, now.wrong_port)


def ahead(now: Now) -> Onward:
    found = onward(made(), now)
    assert found is not None
    return found


def wanted(now: Now) -> RouteOutcome:
    planned = now.push.course.wanted
    assert planned is not None
    return next(
        each
        for each in made().outcomes
        if (each.route.id, each.loadout) == (planned.route.id, planned.loadout)
    )


def others(now: Now) -> list[Option]:
    """The ways to all of it but that under way."""
    each = (ranked.outcome for ranked in made().settled.ranked if ranked.outcome.route.covers >= 1)
    return [option_of(one) for one in each if one.route.id != wanted(now).route.id]


@pytest.mark.parametrize("told", [(HELD,), (HELD, (BACK, 5.5, {}))])
def test_what_the_plan_does_not_know_of_tells_nothing_of_the_other_openings(told):
    """By hand: no world has that stop, so that it does not come free leaves every world as likely as it was
    when the head came so far."""
    now = in_clay(*told, text=NEAR)
    found, ways = ahead(now), {each.name: each for each in others(now)}
    assert found.after
    first, chance = found.after[0]
    so_far = _fits(now, wanted(now), _behind(now, wanted(now), None), None)
    by_hand = float(ways[first.route.id].reached @ so_far / so_far.sum())
    assert chance == pytest.approx(by_hand, abs=1e-6)


def test_after_a_push_that_is_sure_the_others_have_their_chances():
    """By hand: 99 in 100 is the most that is told; the hundredth is nothing of what the worlds have."""
    now = in_clay(text=NEAR)
    n = made().worlds
    here = Option("here", np.ones(n), np.zeros(n), np.ones(n))
    _, gains, after = _compared(made(), wanted(now), here, np.ones(n), no_world=False)
    assert gains > 0
    by_plan = best_order(others(now), made().tables.costs["failing"].likely, np.ones(n), 3)
    assert after[0][1] == pytest.approx(by_plan.step_chances[0])


def test_what_fails_in_the_worlds_counts_still():
    """By hand: it fails in the half of the worlds in which the next fails too, so then that hardly helps."""
    now = in_clay(text=NEAR)
    n = made().worlds
    (best,) = best_order(others(now), 480.0, np.ones(n), 1).names
    next_one = next(each for each in others(now) if each.name == best)
    by_half = np.where(next_one.reached > np.median(next_one.reached), 1.0, 0.0)
    here = Option("here", by_half, np.zeros(n), np.ones(n))
    _, _, after = _compared(made(), wanted(now), here, np.ones(n), no_world=False)
    assert all(chance <= float(next_one.reached.mean()) for each, chance in after if each.route.id == best)


def test_that_the_chances_know_nothing_of_the_stop_is_told(shown):
    now = in_clay(HELD, text=NEAR)
    told = shown(lambda page: show_plan_anew(now, made(), ahead(now), page))
    assert "Only if it comes free here:" in told
    assert "If it does not: 1. " in told
    assert "unlikely (under 1 %)" not in told
    assert "These chances know nothing of the stop at 6 m" in told


@pytest.mark.parametrize("back", [(), ((BACK, 3.5, {}),)])
@pytest.mark.parametrize("before", [4.1, 4.2])
def test_a_head_that_came_free_is_not_held_there_by_an_earlier_stop(before, back):
    """An earlier push was held there and never came past, so that one in three comes past by the rule of
    succession; what is told holds for those that do. By the sheet the head is a little short of it."""
    held, seen = (STOPPED, 4.1, RIM), (SIGHTING, 2.0, {"what": "nothing"})
    now = pushed(DRAIN, "front chamber", seen, held, *back, direction="upstream")
    assert now.along < before
    parts = case_of(DRAIN).kit.parts(now.push.loadout.name)
    earlier = StoppedBefore("front chamber", ("up",), before, (Visit(parts, False, -1),), -1)
    chances = []
    for stops in ((), (earlier,)):
        case = replace(case_of(DRAIN), stops=stops)
        found = onward(planned_anew(case, now.push.course, now.tries, now.wrong_port), now)
        assert found is not None
        chances.append(found.chance)
    assert chances[1] == pytest.approx(chances[0], abs=0.01)
