"""Ways to play a simulated push: as the plan says, and by the best-valued move."""

from __future__ import annotations

from advisor.outcome.attempts import STEADY
from advisor.outcome.facts import free_hand, safe
from advisor.outcome.walk import HardSpot
from advisor.practice import acts
from advisor.practice.acts import Act, State
from advisor.practice.barred import barred
from advisor.practice.simulate import Push
from advisor.practice.values import LEAVE, Moves, moves_at, next_ways, weights_after

_ACT_OF = {STEADY: acts.SLOW}


def as_planned(push: Push, state: State) -> Act:
    """The advisor's own: its order of openings, its techniques and its tries at each hard spot."""
    study = push.study
    if state.way is None:
        order = [(o.route.id, o.loadout.name) for o in study.settled.attempts]
        onward = [way for way in order if way not in state.left]
        return Act(acts.OPEN, onward[0]) if onward else Act(acts.GIVE_UP)
    first = _before_a_try(push, state)
    if first is not None:
        return first
    spot = spot_ahead(push, state)
    tried = state.tried(state.index)
    if spot is None:  # nothing was told of this place: pushed gently, once more, then left
        done = tried.get(STEADY, 0)
        return Act(acts.SLOW) if done < push.easy_pushes else Act(acts.CHANGE)
    for technique, count in spot.order:
        if tried.get(technique, 0) < count and _allowed(push, state, spot, technique):
            return act_of(push, state, technique)
    return Act(acts.CHANGE)


def hint(push: Push, state: State) -> Act:
    """The best move by what is known and what has failed so far."""
    if state.way is None:
        onward = next_ways(push.study, state.left, weights_after(push.study, state.left))
        if not onward:
            return Act(acts.GIVE_UP)
        return Act(acts.OPEN, (onward[0].route.id, onward[0].loadout.name))
    if state.shown != state.index or spot_ahead(push, state) is None:
        return as_planned(push, state)
    first = _before_a_try(push, state)
    if first is not None:
        return first
    found = moves_ahead(push, state)
    assert found is not None
    for move in found.moves:
        if move.name == LEAVE:
            return Act(acts.CHANGE)
        fresh = state.tried(state.index).get(move.name, 0) < push.luck.book(move.name)
        if fresh and barred(push.truth, state, move.name) is None:
            return act_of(push, state, move.name)
    return Act(acts.CHANGE)


def spot_ahead(push: Push, state: State) -> HardSpot | None:
    """What the plan told of the passage ahead."""
    if state.way is None:
        return None
    spots = push.truth.believed(state.way).spots
    return next((spot for spot in spots if spot.index == state.index), None)


def moves_ahead(push: Push, state: State) -> Moves | None:
    """What each move at the passage ahead costs by the plan; nothing where the plan told nothing of it."""
    if state.way is None or spot_ahead(push, state) is None:
        return None
    believed = push.truth.believed(state.way)
    number = next(i for i, spot in enumerate(believed.spots) if spot.index == state.index)
    seen = push.truth.variant(state.way, state.index)
    tried = state.tried(state.index)
    return moves_at(push.study, believed, number, tried, state.left, seen)


def _before_a_try(push: Push, state: State) -> Act | None:
    """Hands near enough first, and on to the next place that wants a look."""
    assert state.way is not None
    if _too_far(push, state) and Act(acts.CLOSER) in push.legal(state):
        return Act(acts.CLOSER)
    if state.died:
        return Act(acts.CHANGE)
    return Act(acts.SLOW) if state.shown != state.index else None


def _too_far(push: Push, state: State) -> bool:
    """Whether the hands are so far from the opening that the free rod bows.

    A push made with them where they are has shown it; till then what the plan knows of the rod
    judges it.
    """
    assert state.way is not None
    for step in reversed(state.steps):
        if step.act.kind in (acts.CLOSER, acts.OPEN):
            break
        if step.act.kind in acts.TRY_OF:
            return push.truth.bows(state.way, state.hands)
    loadout = push.truth.believed(state.way).loadout
    return state.hands > safe(free_hand(push.study.drawn, loadout), push.study.drawn)


def act_of(push: Push, state: State, technique: str) -> Act:
    """The action that is one try of a technique here."""
    if technique != acts.WATER:
        return Act(_ACT_OF.get(technique, technique))
    assert state.way is not None
    names = push.fixtures()
    past = [name for name in names if push.luck.runs_past(name, state.way, state.index)]
    return Act(acts.WATER, fixture=(past or list(names))[0]) if names else Act(acts.CHANGE)


def _allowed(push: Push, state: State, spot: HardSpot, technique: str) -> bool:
    """By the rules, for the fitting and the roots that the lens shows."""
    allowed = float(spot.allowed[technique][push.truth.number]) > 0.5
    return allowed and barred(push.truth, state, technique) is None
