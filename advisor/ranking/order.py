"""Which openings to try in which order, and when to leave it: exact over the worlds.

In one world the attempts are independent; over the worlds they are not, because a fitting that stops the
first may stop the second. An order's expected minutes are the mean over worlds of

    M_A + (1 - P_A - lost_A) (M_B + (1 - P_B - lost_B) (...)) + cost of failing where nothing reached.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np

from advisor.worlds.draws import Array

BEST_FEW = 12  # candidates whose every order is covered: work grows with their number, no judgement


@dataclass(frozen=True)
class Option:
    """One opening as an attempt: chances and minutes in each world, float32[N].

    `minutes` holds the harm, so that a lost head costs what its recovery costs.
    """

    name: str
    reached: Array
    lost: Array
    minutes: Array


@dataclass(frozen=True)
class Ordered:
    """One order of options with its expected minutes and its chance to reach the target at all."""

    names: tuple[str, ...]
    minutes: float
    chance: float
    step_chances: tuple[float, ...]  # of each attempt, given that it comes to it


def expected(options: Sequence[Option], failing: float, weights: Array) -> Ordered:
    """The cost of trying `options` in this order; an empty order declines and costs `failing`."""
    going = np.ones_like(weights)
    minutes, reached = np.zeros_like(weights), np.zeros_like(weights)
    chances = []
    for option in options:
        chances.append(_mean(going * option.reached, weights) / max(_mean(going, weights), 1e-9))
        minutes = minutes + going * option.minutes
        reached = reached + going * option.reached
        going = going * np.maximum(1 - option.reached - option.lost, 0)
    total = minutes + (1 - reached) * failing
    names = tuple(option.name for option in options)
    return Ordered(names, _mean(total, weights), _mean(reached, weights), tuple(chances))


def best_order(options: Sequence[Option], failing: float, weights: Array, most: int) -> Ordered:
    """The order of least expected minutes among every order of up to `most` of the best few options.

    Whoever has been tried, in whatever order, the same worlds are left: the product of (1 - P - lost) over
    the set. So the best order is found over sets, with the cost of the next attempt in the worlds left.
    """
    few = sorted(options, key=lambda o: (expected([o], failing, weights).minutes, o.name))[:BEST_FEW]
    if not few:
        return expected([], failing, weights)
    # An attempt costs its minutes and saves the cost of failing where it reaches the target.
    gains = np.stack([o.minutes - failing * o.reached for o in few])
    share = weights / weights.sum()

    @cache
    def onward(tried: frozenset[int]) -> tuple[float, tuple[int, ...]]:
        if len(tried) >= most:
            return 0.0, ()
        left = share
        for index in sorted(tried):
            left = left * np.maximum(1 - few[index].reached - few[index].lost, 0)
        costs = gains @ left
        choices = [(0.0, ())] + [
            (float(costs[index]) + rest, (index, *then))
            for index in range(len(few))
            if index not in tried
            for rest, then in [onward(tried | {index})]
        ]
        return min(choices)

    return expected([few[index] for index in onward(frozenset())[1]], failing, weights)


def begun_with(
    first: Option, options: Sequence[Option], failing: float, weights: Array, most: int
) -> Ordered:
    """The best order of those that begin with `first`."""
    left = weights * np.maximum(1 - first.reached - first.lost, 0)
    others = {option.name: option for option in options if option.name != first.name}
    rest = best_order(list(others.values()), failing, left, most - 1).names if left.any() else ()
    return expected([first, *(others[name] for name in rest)], failing, weights)


def by_rule(
    options: Sequence[Option], keys: Sequence[float], failing: float, weights: Array, most: int
) -> Ordered:
    """The order that a simple rule gives (smallest key first), for comparison."""
    ranked = sorted(range(len(options)), key=lambda i: (keys[i], options[i].name))
    return expected([options[i] for i in ranked[:most]], failing, weights)


def _mean(values: Array, weights: Array) -> float:
    return float((values * weights).sum() / weights.sum())
