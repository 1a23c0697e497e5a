"""The simulated push where the luck is set by hand: what then must happen follows by counting."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from advisor.outcome.attempts import STEADY
from advisor.practice import acts
from advisor.practice.acts import Act, State
from advisor.practice.luck import Luck
from advisor.practice.policies import act_of, as_planned, hint, moves_ahead, spot_ahead
from advisor.practice.signs import seen
from advisor.practice.simulate import Push
from tests.practice.rivals import play
from tests.practice.school import scene_of

pytestmark = pytest.mark.slow  # many whole houses planned and pushed through

SEEDS = range(4)


class Set(Luck):
    """Luck told by hand: whether a try passes by its number (from 0), and what it ends in."""

    def __init__(self, of: Luck, passes: tuple[bool, ...], lost: str = "") -> None:
        super().__init__(of.truth)
        self._passes, self._lost = passes, lost

    def passes(self, state, made, number):
        return self._passes[min(number, len(self._passes) - 1)]

    def lost(self, state, made, number, easy):
        return self._lost


def lucky(seed: int, *passes: bool, lost: str = "") -> Push:
    study, push = scene_of(seed)
    own = Push(study, push.truth.number)
    own.luck = Set(own.luck, passes, lost)
    return own


def opened(push: Push) -> State:
    """In at the opening that the plan is for, the hands near."""
    state = push.start
    while state.way is None:
        state = push.act(state, hint(push, state))
    while Act(acts.CLOSER) in push.legal(state):
        state = push.act(state, Act(acts.CLOSER))
    return state


@pytest.mark.parametrize("seed", SEEDS)
def test_where_nothing_passes_the_plan_is_followed_to_its_end_and_left(seed):
    """At every hard spot the plan's techniques, each as often as planned and allowed; then the next way."""
    push = lucky(seed, False)
    end = play(push, as_planned)
    assert end.ended == acts.GAVE_UP
    opened_ = [step.act.way for step in end.steps if step.act.kind == acts.OPEN]
    attempts = [(o.route.id, o.loadout.name) for o in push.study.settled.attempts]
    assert opened_ == [way for way in attempts if way in opened_], "in the plan's order, none twice"
    state = push.start
    for step in end.steps:
        if step.act.kind == acts.CHANGE and not state.died:
            spot, tried = spot_ahead(push, state), state.tried(state.index)
            if spot is None:
                assert tried == {STEADY: push.easy_pushes}
            else:
                number = push.truth.number
                assert tried == {name: n for name, n in spot.order if spot.allowed[name][number] > 0.5}
        state = push.act(state, step.act)


def test_what_the_rules_forbid_for_the_fitting_that_is_seen_is_not_tried(monkeypatch):
    push = lucky(28, True)
    state = opened(push)
    while state.shown != state.index or spot_ahead(push, state) is None:
        state = push.act(state, Act(acts.SLOW))
    spot = spot_ahead(push, state)
    assert spot is not None
    first, *others = [name for name, _ in spot.order]
    forbidden = {**spot.allowed, first: np.zeros(push.study.worlds)}
    assert as_planned(push, state) == act_of(push, state, first)
    monkeypatch.setattr("advisor.practice.policies.spot_ahead", lambda *_: replace(spot, allowed=forbidden))
    instead = act_of(push, state, others[0]) if others else Act(acts.CHANGE)
    assert as_planned(push, state) == instead


@pytest.mark.parametrize("seed", SEEDS)
def test_where_nothing_passes_the_hints_leave_before_the_book_is_overdrawn(seed):
    push = lucky(seed, False)
    end = play(push, hint)
    assert end.ended == acts.GAVE_UP
    state = push.start
    for step in end.steps:
        act = step.act
        if act.kind in acts.TRY_OF and state.shown == state.index and spot_ahead(push, state):
            name = acts.TRY_OF[act.kind]
            assert state.tried(state.index).get(name, 0) < push.luck.book(name)
        state = push.act(state, act)


def test_with_the_hands_too_far_out_the_first_move_is_closer():
    push = lucky(1, False)
    state = opened(push)
    state = push.act(replace(state, hands=0.01), Act(acts.SLOW))
    assert state.shown == state.index
    far = replace(state, hands=4.0)
    assert hint(push, far) == as_planned(push, far) == Act(acts.CLOSER)
    assert hint(push, state) != Act(acts.CLOSER)


def test_a_push_that_died_is_left_by_every_policy():
    push = lucky(1, True)
    state = replace(opened(push), died=True)
    assert as_planned(push, state) == hint(push, state) == Act(acts.CHANGE)


def test_before_an_opening_is_chosen_nothing_lies_ahead():
    push = lucky(1, True)
    assert spot_ahead(push, push.start) is None
    assert moves_ahead(push, push.start) is None


@pytest.mark.parametrize("seed", SEEDS)
def test_an_easy_passage_that_holds_against_each_easy_push_stops_the_head(seed):
    """As many pushes as the book counts, then it is a stop like any other, and has been tried so often."""
    push = lucky(seed, False)
    stops = 0
    for way in push.ways():
        state = push.act(push.start, Act(acts.OPEN, way))
        while state.way and state.shown != state.index and not state.died:
            state = push.act(state, Act(acts.SLOW))
        if state.steps[-1].seen.said == "It stops where you thought it easy.":
            stops += 1
            assert state.tried(state.index) == {STEADY: push.easy_pushes}
            assert state.tries == ((state.index, STEADY),) * push.easy_pushes
    if seed == 4:
        assert stops


def test_an_easy_passage_that_holds_once_is_gone_on_through():
    held, free = lucky(4, False, True), lucky(4, True)
    for push in (held, free):
        assert push.easy_pushes == 2, "rules/tables/limits.yaml"
    for way in free.ways():
        ends = []
        for push in (held, free):
            state = push.act(push.start, Act(acts.OPEN, way))
            ends.append(push.act(state, Act(acts.SLOW)) if state.way else state)
        assert ends[0] == ends[1]


@pytest.mark.parametrize("how", [acts.KINKED, acts.WEDGED])
def test_what_is_lost_at_an_easy_passage_ends_the_push_there(how):
    push = lucky(4, True, lost=how)
    ended = 0
    for way in push.ways():
        state = push.act(push.start, Act(acts.OPEN, way))
        if state.way is None:
            continue
        after = push.act(state, Act(acts.SLOW))
        if after.ended:
            ended += 1
            assert after.ended == how
            assert after.minutes > state.minutes
            assert push.legal(after) == ()
    assert ended


def test_looking_takes_its_half_minute_and_changes_nothing_else():
    push = lucky(1, True)
    state = opened(push)
    after = push.act(state, Act(acts.LOOK))
    assert replace(after, minutes=state.minutes, steps=state.steps) == state
    assert after.minutes - state.minutes == pytest.approx(0.5)  # rules/tables/costs.yaml


def test_past_the_last_passage_the_pipe_is_straight_ahead():
    push = lucky(1, True)
    state = opened(push)
    count = len(push.truth.outcome(state.way).geometries)
    assert seen(push.truth, replace(state, index=count), None, "", False, "", "").ahead == "straight"


def test_a_try_that_the_push_does_not_reach_is_no_try():
    """With a long free rod before the opening nothing of the push arrives: nothing is tried."""
    push = lucky(1, True)
    opens = [act for act in push.legal(push.start) if act.kind == acts.OPEN]
    states = [state for state in (push.act(push.start, act) for act in opens) if state.way]
    states = [push.act(state, Act(acts.SLOW)) for state in states]
    # At the opening itself any push reaches.
    state = next(each for each in states if each.shown == each.index and each.counter > 1)
    weak = push.act(replace(state, hands=500.0), Act(acts.QUICK))
    assert weak.died
    assert weak.tries == state.tries
    assert weak.index == state.index
    assert weak.steps[-1].seen.feel == acts.DEAD


def test_water_that_does_not_run_past_the_head_passes_nothing():
    told = set()
    for seed in SEEDS:
        _, push = scene_of(seed)
        for way in push.ways()[:4]:
            state = push.act(push.start, Act(acts.OPEN, way))
            state = state if state.way is None else push.act(state, Act(acts.SLOW))
            if state.way is None or state.shown != state.index or state.ended:
                continue
            force = push.truth.push(way, state.hands, firm=False)
            piece = push.truth.outcome(way).route.passages[state.index].piece
            for fixture in push.fixtures():
                # Water runs downhill only: past what lies downstream of its fixture.
                holes = [p for p in push.study.network.pieces.values() if p.hole and p.hole.fixture]
                past = any(
                    piece.id in push.study.network.downstream(p.id) for p in holes if p.name == fixture
                )
                made = push.luck.made(state, Act(acts.WATER, fixture=fixture), force)
                assert (not made.idle) == past
                told.add(past)
                if not past:
                    assert not any(push.luck.passes(state, made, number) for number in range(9))
    assert told == {True, False}


def test_the_push_may_die_between_the_last_passage_and_the_target():
    push = lucky(1, True)
    state = opened(push)
    last = replace(state, index=len(push.truth.outcome(state.way).geometries), hands=20.0)
    after = push.act(last, Act(acts.SLOW))
    assert after.died
    assert not after.ended
    assert push.act(replace(last, hands=state.hands), Act(acts.SLOW)).ended == acts.TARGET


@pytest.mark.parametrize(("drawn", "ended"), [(0.0, acts.WEDGED), (1.0, acts.TARGET)])
def test_what_has_to_be_pulled_too_hard_may_stay_in_the_drain(monkeypatch, drawn, ended):
    push = lucky(1, True)
    state = opened(push)
    there = replace(state, index=len(push.truth.outcome(state.way).geometries))
    limit = push.truth.drawn.limit
    nothing = np.zeros(1, np.float32)
    monkeypatch.setattr(
        push.truth.drawn, "limit", lambda name: nothing if name == "pull_force" else limit(name)
    )
    monkeypatch.setattr(push.truth, "luck", lambda *key: drawn)
    free = push.act(there, Act(acts.SLOW))
    assert free.ended == ended
    # A wedged head costs what the tables count for it, over the minutes of the way itself.
    monkeypatch.undo()
    home = push.act(there, Act(acts.SLOW))
    wedge = push.study.tables.costs["wedge"].likely
    assert free.minutes - home.minutes == pytest.approx(wedge if ended == acts.WEDGED else 0.0)
