"""Figures of practice, not a test: `python -m tests.bench.practice [--seeds 200] [--worlds 500]`."""

from __future__ import annotations

import argparse
import time
from collections.abc import Sequence

import numpy as np

from advisor.practice import acts
from advisor.practice.acts import Act, State
from advisor.practice.drills import KINDS, make
from advisor.practice.policies import (
    act_of,
    as_planned,
    hint,
    moves_ahead,
    spot_ahead,
)
from advisor.practice.scene import open_to_push
from advisor.practice.simulate import Push, score
from advisor.practice.solvable import scene
from advisor.practice.values import LEAVE, weights_after
from advisor.result.study import Study
from tests.practice.learner import expected_regret, massed, spaced
from tests.practice.rivals import Policy, always_push, play, random_legal
from tests.practice.school import school

SITES = 6  # for the stated chance
LEAST_TRY = 0.05  # chance of a technique to be tried before a place is left, whatever it costs
LEAST_CHANCE = 0.02  # to see the target, for a way in to be tried at any cost


def never_gives_up(push: Push, state: State) -> Act:
    """A random legal action, but giving up only where nothing else is left."""
    act = random_legal(push, state)
    others = [each for each in push.legal(state) if each.kind != acts.GIVE_UP]
    return act if act.kind != acts.GIVE_UP or not others else others[len(state.steps) % len(others)]


def hint_to_the_end(push: Push, state: State) -> Act:
    """The hint for whoever must get there, whatever it costs: no place is left while a technique has any
    chance to speak of, and no way in is left untried that has."""
    act = hint(push, state)
    if act.kind == acts.CHANGE:
        return _one_more_try(push, state) or act
    if act.kind != acts.GIVE_UP or state.way is not None:
        return act
    weights = weights_after(push.study, state.left)
    chances = {
        way: float((push.truth.believed(way).reached * weights).sum() / weights.sum())
        for way in push.ways()
        if way not in state.left
    }
    best = max(chances, key=lambda way: chances[way], default=None)
    return Act(acts.OPEN, best) if best is not None and chances[best] >= LEAST_CHANCE else act


def _one_more_try(push: Push, state: State) -> Act | None:
    """The likeliest technique that is not used up, where the head can go on at all."""
    found = None if state.died or state.shown != state.index else moves_ahead(push, state)
    for move in sorted(found.moves if found else (), key=lambda each: -each.chance):
        if move.name == LEAVE or move.chance < LEAST_TRY:
            continue
        if state.tried(state.index).get(move.name, 0) < push.luck.book(move.name):
            act = act_of(push, state, move.name)
            if act.kind != acts.CHANGE:
                return act
    return None


POLICIES: dict[str, Policy] = {
    "the plan's own order and stops": as_planned,
    "the hint at every step": hint,
    "the hint, whatever it costs": hint_to_the_end,
    "random legal": random_legal,
    "random legal, never gives up": never_gives_up,
    "always push": always_push,
}


def seeds(count: int) -> None:
    """Every policy on the same drains; and one hinted move against one random one, the rest hinted."""
    ends: dict[str, list[State]] = {name: [] for name in POLICIES}
    scores: dict[str, list[float]] = {name: [] for name in POLICIES}
    moves: list[tuple[float, float]] = []
    fair: list[float] = []
    for seed in range(count):
        study, push = scene(school(), seed)
        for name, policy in POLICIES.items():
            state = play(push, policy)
            ends[name].append(state)
            scores[name].append(score(state, study))
        fair.append(fair_chance(push))
        pair = _one_move(study, push)
        if pair is not None:
            moves.append(pair)
    print(f"\n{count} drains, each with a way to the target in its hidden truth")
    print(f"  {'policy':34s} reached  wedged  kinked  given up  mean minutes, failing counted in")
    for name, states in ends.items():
        shares = [np.mean([s.ended == end for s in states]) for end in
                  (acts.TARGET, acts.WEDGED, acts.KINKED, acts.GAVE_UP)]  # fmt: skip
        told = "   ".join(f"{share:6.1%}" for share in shares)
        print(f"  {name:34s} {told}   {np.mean(scores[name]):8.1f}")
    for least in (0.25, 0.5):
        kept = [i for i, chance in enumerate(fair) if chance >= least]
        told = "; ".join(
            f"{name} {np.mean([states[i].ended == acts.TARGET for i in kept]):.1%}"
            for name, states in ends.items()
        )
        print(f"  the {len(kept)} whose best way passes at least {least:.0%} of such pushes reach: {told}")
    gaps = np.array([hinted - random for hinted, random in moves])
    spread = gaps.std(ddof=1) / np.sqrt(len(gaps))
    print(f"\nOne move at the first hard place of {len(gaps)} of them, the rest hinted:")
    print(f"  hinted less random: {gaps.mean():.1f} min, standard error {spread:.1f}")


def fair_chance(push: Push) -> float:
    """Chance of the best way in the hidden truth, every technique tried as often as the book counts.

    `scene` only asks that somebody gets there, be it by great luck; this says how great.
    """
    best = 0.0
    for way in push.ways():
        outcome = push.truth.outcome(way)
        pull = np.minimum(
            push.truth.drawn.kit(outcome.loadout).pull_limit, push.truth.drawn.limit("pull_force")
        )
        short = outcome.march.reach[0] < outcome.march.end.at[0] or outcome.march.pull[0] > pull[0]
        if short or outcome.walk.survive[0][0] < 0.5:
            continue
        force, chance = float(push.truth.drawn.limit("push_force")[0]), 1.0
        for index in range(len(outcome.geometries)):
            _, tries = push.truth.tries(way, index, force)
            missed = [
                (1 - float(each.chance[0])) ** max(push.luck.book(name), 1) for name, each in tries.items()
            ]
            chance *= 1 - float(np.prod(missed))
            if chance <= best:
                break
        best = max(best, chance)
    return best


def _one_move(study: Study, push: Push) -> tuple[float, float] | None:
    state = push.start
    while not state.ended:
        if state.way is not None and state.shown == state.index and spot_ahead(push, state) is not None:
            hinted = play(push, hint, push.act(state, hint(push, state)))
            other = play(push, hint, push.act(state, never_gives_up(push, state)))
            return score(hinted, study), score(other, study)
        state = push.act(state, hint(push, state))
    return None


def stated(worlds: int) -> None:
    """The plan's chance of its first way, and of its whole order, against pushes through every world."""
    print(f"\nStated chance against {worlds} hidden worlds (first way | whole order)")
    found, seed = 0, 0
    while found < SITES:
        study = next(school().sites(1000 + seed, worlds=worlds))
        seed += 1
        if not open_to_push(study) or study.settled.order.chance > 0.97:
            continue
        found += 1
        first = study.settled.attempts[0]
        way = (first.route.id, first.loadout.name)
        ends = []
        for number in range(worlds):
            push = Push(study, number)
            ends.append(play(push, as_planned))
        at_first = np.mean([s.ended == acts.TARGET and s.steps[-1].way == way for s in ends])
        at_all = np.mean([s.ended == acts.TARGET for s in ends])
        order = study.settled.order.chance
        told = f"{first.chance:.3f} seen {at_first:.3f} ({at_first - first.chance:+.3f})"
        whole = f"{order:.3f} seen {at_all:.3f} ({at_all - order:+.3f})"
        print(f"  {study.network.site:14s} {told}  |  {whole}")


def learning() -> None:
    """The simulated learner: as scheduled against one skill after another."""
    drills = {kind: [make(kind, school(), seed) for seed in (1, 2, 3)] for kind in KINDS}
    print("\nSimulated learner, expected regret a drill in minutes, 84 drills, 3 a day")
    for days_after in (0, 7, 28, 90):
        end = 28 + days_after
        own = np.mean([expected_regret(spaced(drills, 84, 3, seed), drills, end) for seed in range(20)])
        blocks = expected_regret(massed(drills, 84, 3), drills, end)
        print(
            f"  {days_after:3d} days later: scheduled {own:.1f}, in blocks {blocks:.1f}; "
            f"{1 - own / blocks:.0%} less"
        )


def main(arguments: Sequence[str] | None = None) -> None:
    """Print all figures."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.practice", description=__doc__)
    parser.add_argument("--seeds", type=int, default=200)
    parser.add_argument("--worlds", type=int, default=500)
    parser.add_argument("--only-seeds", action="store_true", help="the policies alone")
    given = parser.parse_args(arguments)
    started = time.process_time()
    seeds(given.seeds)
    if not given.only_seeds:
        learning()
        stated(given.worlds)
    print(f"\n{time.process_time() - started:.0f} s of CPU")


if __name__ == "__main__":
    main()
