"""Which question is worth most: minutes that its answer saves, times the chance that somebody knows it,
less the minutes to find out.

The worlds of the last plan are grouped by what the answer would be; see ranking/worth.py for the grouping
and for the bias that it has at a dead heat, which is taken off.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from advisor.interview.ask import Ask
from advisor.interview.bears import Bearing, bearing, on_its_ways
from advisor.interview.doubt import Least, most_moving, settled
from advisor.interview.leading import Standing
from advisor.interview.openings import best_or_sooner, next_at_openings
from advisor.interview.section import about_section
from advisor.interview.subject import Groups, answer_in
from advisor.quantity import MINUTE
from advisor.ranking.worth import worth
from advisor.worlds.draws import Array

LOOKED_AT = 6  # questions that are looked at closely: the shuffles that measure the bias take time


@dataclass(frozen=True)
class Worthy:
    """A question with the minutes it saves on balance, and how likely an answer changes the leader."""

    ask: Ask
    minutes: float
    turns: float


def next_to_ask(asks: Sequence[Ask], now: Standing) -> Ask | None:
    """The question that pays most; where none does, the one that moves most while the leader is in doubt, and
    one on an opening before it while no way in is better than unlikely to show all that is to be seen."""
    told = [(ask, groups) for ask in asks if (groups := _groups(ask, now)) is not None]
    costs, likely = now.costs, now.study.drawn.likely
    best = worthiest(told, costs, Least(likely("ask_chance"), likely("ask_minutes") / MINUTE))
    if best is not None:
        return best.ask
    chance = likely("ask_together_chance")
    together = Least(chance, likely("ask_together_minutes") / MINUTE)
    section = Least(chance, likely("ask_section_minutes") / MINUTE)
    moving = most_moving(told, costs, together, bearing(told, now.study))
    moving = moving or most_moving(*about_section(asks, now), section)
    return (next_at_openings(asks, now.study) if moving and now.unlikely else None) or moving


def more_to_ask(asks: Sequence[Ask], now: Standing) -> Ask | None:
    """The question to go on with for whoever wants to tell more where none pays: the most telling one, then
    those on which no drawn quantity hangs, in their order."""
    told = [(ask, groups) for ask in asks if (groups := _groups(ask, now)) is not None]
    return most_telling(told, now.costs, bearing(told, now.study)) or next(iter(asks), None)


def most_telling(
    asks: Sequence[tuple[Ask, Groups]], costs: Array, bears: Bearing | None = None
) -> Ask | None:
    """The question that settles most of what is open, less the minutes to find out.

    That is one sigma of the part that its answer settles of the minutes between the leader and another
    decision, leaving it undone among them, where that is most, times the chance that somebody knows it.
    `costs` float[D, N], the groups intp[N], `bears` bool[A, D] as in `most_moving`.
    """
    if not asks:
        return None
    leader = int(np.argmin(costs.mean(axis=1)))
    apart = np.asarray(costs - costs[leader], float)
    parts = on_its_ways(np.stack([settled(groups, apart) for _, groups in asks]), bears, leader)
    most = np.sqrt(parts.max(axis=1))
    moved = [(_balance(float(each), ask), ask) for each, (ask, _) in zip(most, asks, strict=True)]
    moved.sort(key=lambda each: -each[0])
    return best_or_sooner(moved)


def worthiest(asks: Sequence[tuple[Ask, Groups]], costs: Array, least: Least) -> Worthy | None:
    """The question that pays most; nothing where none pays by the least.

    `costs` float[D, N], the groups intp[N].
    """
    weights = np.ones(costs.shape[1])
    found = []
    for ask, groups in asks:
        saved, turns = _saved(groups, costs)
        found.append((_balance(saved, ask), turns, ask, groups))
    found.sort(key=lambda each: (-each[0], each[2].key))
    close = []
    for rough, turns, ask, groups in found[:LOOKED_AT]:
        if rough < least.minutes:
            break
        exact = worth(groups, costs, weights)
        if exact.real:
            close.append(Worthy(ask, _balance(exact.minutes, ask), turns))
    paying = [each for each in close if least.met(each.turns, each.minutes)]
    paying.sort(key=lambda each: -each.minutes)
    first = best_or_sooner([(each.minutes, each.ask) for each in paying]) if paying else None
    return next((each for each in paying if each.ask is first), None)


def _groups(ask: Ask, now: Standing) -> Groups | None:
    found = answer_in(ask.subject, ask.quantity, now.study) if ask.quantity else None
    if found is None:
        return None
    groups = found[1]
    return groups if groups.min() != groups.max() else None


def _balance(saved: float, ask: Ask) -> float:
    return saved * ask.knows - ask.minutes


def _saved(groups: Groups, costs: Array) -> tuple[float, float]:
    """Minutes saved by knowing the group, bias and all; the share of worlds where another leads."""
    count, n = int(groups.max()) + 1, costs.shape[1]
    sums = np.stack([np.bincount(groups, weights=row, minlength=count) for row in costs]) / n
    sizes = np.bincount(groups, minlength=count) / n
    leader = int(np.argmin(sums.sum(axis=1)))
    turns = float(sizes[np.argmin(sums, axis=0) != leader].sum())
    return float(sums[leader].sum() - sums.min(axis=0).sum()), turns
