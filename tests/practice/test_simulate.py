"""The simulated push against the planner's own figures, and policies against each other.

Nothing here is compared with the simulator's own output: what it should agree with is the planner's column
of the same world (`outcome/`, checked against outside sources in tests/outside).
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from advisor.outcome.attempts import STEADY, attempts
from advisor.practice import acts
from advisor.practice.acts import Act, State
from advisor.practice.debrief import Decision, debrief
from advisor.practice.policies import as_planned, hint
from advisor.practice.simulate import Push, score
from advisor.practice.solvable import solvable
from advisor.terminal.practice.push_screen import grade_of
from tests.practice.rivals import always_push, play, random_legal
from tests.practice.school import MARKS, scene_of

pytestmark = pytest.mark.slow  # whole houses or many solutions: seconds each

SEEDS = range(4)
# The planner counts an easier wall as no technique at all where it gains less than is worth trying on
# average over its worlds; with one world that average is that world's own. So it counts a turned rod where
# the pipe does not turn: there a gentle push goes with it.
EASED = (acts.WATER, acts.CLEAN, acts.TURN)


@pytest.mark.parametrize("seed", SEEDS)
def test_tries_and_reach_are_the_planners_own_in_that_world(seed):
    study, push = scene_of(seed)
    number = push.truth.number
    for outcome in study.settled.attempts:
        way = (outcome.route.id, outcome.loadout.name)
        here = push.truth.outcome(way)
        assert here.march.reach[0] == pytest.approx(outcome.march.reach[number], rel=1e-5)
        force = float(push.truth.drawn.limit("push_force")[0])
        for spot in outcome.spots:
            spot_there, tries = push.truth.tries(way, spot.index, force)
            for technique, attempt in tries.items():
                told = spot.tries[technique]
                if technique in EASED and 0 in (
                    attempts(spot_there)[technique].chance[0],
                    told.chance[number],
                ):
                    continue
                assert attempt.chance[0] == pytest.approx(told.chance[number], abs=1e-5), technique
                assert attempt.kink[0] == pytest.approx(told.kink[number], abs=1e-5)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_same_world_and_actions_give_the_same(seed):
    study, push = scene_of(seed)
    once = play(push, random_legal)
    again = push.start
    other = Push(study, push.truth.number)
    for step in once.steps:
        again = other.act(again, step.act)
    assert again == once


def test_all_are_solvable_and_the_plan_does_better_than_chance_or_force():
    # Small numbers; the figures of 200 seeds are in tests/bench/practice.py.
    ends: dict[str, list[State]] = {}
    scores: dict[str, list[float]] = {}
    for seed in SEEDS:
        study, push = scene_of(seed)
        assert solvable(push)
        for policy in (as_planned, hint, random_legal, always_push):
            state = play(push, policy)
            ends.setdefault(policy.__name__, []).append(state)
            scores.setdefault(policy.__name__, []).append(score(state, study))
    reached = {name: sum(s.ended == acts.TARGET for s in states) for name, states in ends.items()}
    assert reached["as_planned"] > reached["random_legal"]
    assert np.mean(scores["as_planned"]) < np.mean(scores["random_legal"])
    assert np.mean(scores["hint"]) < np.mean(scores["always_push"])


def test_a_push_with_the_hands_too_far_out_arrives_weaker():
    # Euler: a free rod of twice the length carries a quarter of the push (pi^2 EI / L^2).
    study, push = scene_of(1)
    way = push.ways()[0]
    far = push.truth.push(way, 2.0, firm=True)
    assert push.truth.push(way, 4.0, firm=True) == pytest.approx(far / 4, rel=1e-4)
    near = push.truth.push(way, 0.01, firm=False)
    assert near == pytest.approx(float(push.truth.drawn.limit("push_force")[0]), rel=1e-6)
    assert study.drawn.likely("push_force") == 75


def test_the_same_try_more_often_than_the_book_counts_wins_nothing_more():
    # Two slow pushes are counted (easy_pushes in rules/tables/limits.yaml); where both failed, so do twenty.
    stuck = 0
    for seed in SEEDS:
        _, push = scene_of(seed)
        for way in push.ways()[:6]:
            state = push.act(push.start, Act(acts.OPEN, way))
            for _ in range(30):
                if state.way is None or state.ended or state.died:
                    break
                before, state = state, push.act(state, Act(acts.SLOW))
                failed = before.tried(before.index).get(STEADY, 0)
                if failed >= 2 and not state.ended:
                    stuck += 1
                    assert state.index == before.index
    assert stuck > 20


def test_what_cannot_be_done_is_refused():
    _, push = scene_of(0)
    with pytest.raises(AssertionError):
        push.act(push.start, Act(acts.QUICK))
    done = play(push, lambda push, state: Act(acts.GIVE_UP))
    assert push.legal(done) == ()


def test_the_debrief_prices_each_decision_against_the_best():
    for seed in SEEDS:
        study, push = scene_of(seed)
        hinted = debrief(push, play(push, hint))
        assert all(MARKS.full(made) for made in hinted if made.graded), seed
        given_up = debrief(push, push.act(push.start, Act(acts.GIVE_UP)))
        assert [made.did for made in given_up] == ["gave up"]
        # Giving up costs the failing whole; going on costs at most what the plan's own order does.
        failing = study.tables.costs["failing"].likely
        assert given_up[0].regret >= failing - study.settled.order.minutes - 1
        random = debrief(push, play(push, random_legal))
        assert all(made.regret > -1e-6 for made in random if made.graded), seed


@pytest.mark.parametrize("seed", SEEDS)
def test_the_counter_runs_forward_when_pushed_and_back_when_drawn_back(seed):
    """A counter counts rod: only drawing back or out ever takes it down, whoever plays."""
    _, push = scene_of(seed)
    moved = 0
    for policy in (random_legal, hint, _always_firm):
        state = push.start
        while not state.ended and len(state.steps) < 40:
            before, state = state, push.act(state, policy(push, state))
            if before.way is None or state.way is None:
                continue
            kind = state.steps[-1].act.kind
            if kind == acts.BACK:
                assert state.counter <= before.counter
            else:
                assert state.counter >= before.counter
            moved += state.counter > before.counter
            at = push.truth.outcome(state.way).march.stations
            if state.index < len(at):
                # In a run with roots the head is held at one of the joints, past the run's beginning.
                ahead = push.truth.stops_at(
                    state.way, state.index, push.truth.push(state.way, state.hands, False)
                )
                assert state.counter <= ahead + 1e-6, "behind what lies ahead"
    assert moved


@pytest.mark.parametrize("seed", [0, 1, 3])
def test_where_the_push_dies_what_was_passed_lies_behind(seed):
    """Held from afar the rod gives little push, which dies between what it passed and what is ahead."""
    _, push = scene_of(seed)
    died = 0
    for way in push.ways()[:6]:
        opened = push.act(push.start, Act(acts.OPEN, way))
        if opened.way is None:
            continue
        state = push.act(replace(opened, hands=2.5), Act(acts.SLOW))
        if state.died:
            died += 1
            at = [float(each.at[0]) for each in push.truth.outcome(way).march.stations]
            assert state.index == sum(place <= state.counter for place in at)
    assert died


def _always_firm(push: Push, state: State) -> Act:
    return hint(push, state) if state.way is None else _firm(state)


def _firm(state: State) -> Act:
    return Act(acts.FIRM, expects=acts.DEAD if state.shown == state.index else "")


def test_a_firm_push_in_open_pipe_gets_there_as_a_slow_one_does():
    _, push = scene_of(0)
    state = push.act(push.start, Act(acts.OPEN, push.ways()[0]))
    if state.way is None:
        state = push.act(state, Act(acts.OPEN, next(w for w in push.ways() if w not in state.left)))
    slow = push.act(state, Act(acts.SLOW))
    firm = push.act(state, _firm(state))
    assert (firm.counter, firm.index, firm.minutes) == (slow.counter, slow.index, slow.minutes)


def test_leaning_on_a_stop_fails_the_push_as_it_fails_a_drill():
    """Common practice, no source: no further firm push at a dead stop. The drills tell the same caution."""
    leaned = 0
    for seed in SEEDS[:2]:
        _, push = scene_of(seed)
        for way in push.ways()[::6]:
            state = push.act(push.start, Act(acts.OPEN, way))
            while state.way is not None and not state.ended and len(state.steps) < 9:
                state = push.act(state, _firm(state))
            made = debrief(push, state if state.ended else push.act(state, Act(acts.GIVE_UP)))
            unsafe = [each.unsafe for each in made if each.unsafe]
            leaned += bool(unsafe)
            assert all(told.id == "wedged-head" for told in unsafe)
            if unsafe:
                assert grade_of(made, MARKS).credit == 0
    assert leaned


def test_a_whole_push_loses_marks_by_what_its_decisions_lose_together():
    # By hand: 60 of the 4 x 30 min that leave nothing, whether lost at once or in two halves; what is as
    # good as the best as far as can be told loses none.
    def decision(regret: float, doubt: float = 0.0) -> Decision:
        return Decision("there", "did it", regret, doubt, "the other", ("why",))

    assert grade_of([decision(60), decision(0)], MARKS).credit == pytest.approx(0.5)
    assert grade_of([decision(30), decision(30), decision(0)], MARKS).credit == pytest.approx(0.5)
    assert grade_of([decision(60, doubt=70)], MARKS).credit == 1
    assert grade_of([decision(500)], MARKS).credit == 0
    assert grade_of([], MARKS).credit == 0
