"""Ways to play a simulated push that the advisor's own is compared with: at random, always pushing."""

from __future__ import annotations

from collections.abc import Callable

from advisor.outcome.attempts import STEADY
from advisor.practice import acts
from advisor.practice.acts import Act, State
from advisor.practice.scene import pick
from advisor.practice.simulate import Push

Policy = Callable[[Push, State], Act]
MOST_ACTS = 60  # a push that has not ended by then is given up
STUBBORN = 6  # pushes at one place before even a stubborn hand goes elsewhere


def play(push: Push, policy: Policy, state: State | None = None) -> State:
    """The push played to its end."""
    state = state or push.start
    while not state.ended:
        too_long = len(state.steps) >= MOST_ACTS
        state = push.act(state, Act(acts.GIVE_UP) if too_long else policy(push, state))
    return state


def random_legal(push: Push, state: State) -> Act:
    """Any kind of action that is possible, each as likely; for comparison."""
    legal = push.legal(state)
    kinds = list(dict.fromkeys(act.kind for act in legal))
    key = f"{push.truth.number}/random/{len(state.steps)}"
    kind = kinds[pick(push.study.seed, key, len(kinds))]
    same = [act for act in legal if act.kind == kind]
    return same[pick(push.study.seed, f"{key}/which", len(same))]


def always_push(push: Push, state: State) -> Act:
    """The easiest opening, and nothing but pushing: slow, then firm, until it is through or broken."""
    if state.way is None:
        study = push.study
        ways = set(push.ways()) - set(state.left)
        outcomes = list(study.outcomes)
        outcomes = [o for o in outcomes if (o.route.id, o.loadout.name) in ways]
        if not outcomes:
            return Act(acts.GIVE_UP)
        nearest = min(outcomes, key=lambda o: float(o.walk.opening_minutes.mean()))
        return Act(acts.OPEN, (nearest.route.id, nearest.loadout.name))
    if state.died:
        return Act(acts.CHANGE)
    pushes = state.tried(state.index).get(STEADY, 0)
    if pushes >= STUBBORN:
        return Act(acts.CHANGE)
    if state.shown == state.index and pushes:
        return Act(acts.FIRM, expects=acts.SPRINGY)
    return Act(acts.SLOW)
