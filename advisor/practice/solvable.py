"""Is there any way to the target in a hidden world, and worlds where there is."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from advisor.outcome.walk import HardSpot
from advisor.practice import acts
from advisor.practice.acts import Act, State, Way
from advisor.practice.policies import act_of
from advisor.practice.scene import School, drains, open_to_push, pick
from advisor.practice.simulate import Push
from advisor.practice.values import TRIES
from advisor.result.study import Study

WORLDS_TRIED = 40


def solvable(push: Push) -> bool:
    """True where somebody who tries everything, as often as the book counts, gets there and back."""
    return any(_gets_there(push, way) for way in push.ways())


def _gets_there(push: Push, way: Way) -> bool:
    outcome = push.truth.outcome(way)
    kit = push.truth.drawn.kit(outcome.loadout)
    limit = np.minimum(kit.pull_limit, push.truth.drawn.limit("pull_force"))
    if outcome.march.reach[0] < outcome.march.end.at[0] or outcome.march.pull[0] > limit[0]:
        return False
    state = push.act(push.start, Act(acts.OPEN, way))
    if state.way is None:
        return False
    while Act(acts.CLOSER) in push.legal(state):
        state = push.act(state, Act(acts.CLOSER))
    while not state.ended:
        if state.shown != state.index:
            after = push.act(state, Act(acts.SLOW))
            if (after.index, after.shown) == (state.index, state.shown) and not after.ended:
                return False
            state = after
            continue
        onward = next((s for s in _everything(push, state) if s.index > state.index or s.ended), None)
        if onward is None:
            return False
        state = onward
    return state.ended == acts.TARGET


def _everything(push: Push, state: State) -> Iterator[State]:
    """Each try that passes without harm, from where the head stands."""
    for technique in TRIES:
        count = push.luck.book(technique)
        at = state
        act = act_of(push, state, technique)
        if act.kind == acts.CHANGE:
            continue
        for _ in range(count):
            at = push.act(at, act)
            if at.ended in (acts.WEDGED, acts.KINKED):
                break
            if at.index > state.index or at.ended:
                yield at
                break


def _asks_something(study: Study) -> bool:
    """A way in that nothing stops leaves nothing to decide: the plan's first meets at least one hard spot."""
    first = study.settled.attempts[:1]
    return any(hard_enough(spot, study) for o in first for spot in o.spots)


def hard_enough(spot: HardSpot, study: Study) -> bool:
    """Whether a place stops so many gentle pushes that it is worth practising on."""
    return float(spot.spot.plain.stuck.mean()) >= study.drawn.likely("drill_stuck")


def scene(school: School, seed: int) -> tuple[Study, Push]:
    """A site and a hidden world in which the target can be reached; the same for the same seed."""
    for study in school.sites(seed, drains):
        if not open_to_push(study) or not _asks_something(study):
            continue
        for number in range(WORLDS_TRIED):
            push = Push(study, pick(seed, f"world/{number}", study.worlds))
            if solvable(push):
                return study, push
    raise AssertionError(f"no site of seed {seed} has a way in; expected one among so many")
