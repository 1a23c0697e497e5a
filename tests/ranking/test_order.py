"""Sequencing against brute force, a published rule and numbers worked by hand."""

from __future__ import annotations

from itertools import permutations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from advisor.ranking.order import Option, begun_with, best_order, expected


def option(name: str, chance: float | list[float], minutes: float, lost: float = 0.0) -> Option:
    reached = np.atleast_1d(np.asarray(chance, np.float64))
    return Option(name, reached, np.full_like(reached, lost), np.full_like(reached, minutes))


def brute_force(options: list[Option], failing: float, most: int, first: Option | None = None) -> float:
    """Least expected minutes over every order, or of those with that first, summed in plain Python."""
    worlds = len(options[0].reached)
    best = failing if first is None else np.inf
    for count in range(1, most + 1):
        for order in permutations(options, count):
            if first is not None and order[0] is not first:
                continue
            total = 0.0
            for world in range(worlds):
                going, reached = 1.0, 0.0
                for each in order:
                    total += going * each.minutes[world]
                    reached += going * each.reached[world]
                    going *= 1 - each.reached[world] - each.lost[world]
                total += (1 - reached) * failing
            best = min(best, total / worlds)
    return best


@settings(max_examples=60, deadline=None)
@given(
    st.integers(2, 5).flatmap(
        lambda n: st.tuples(
            st.lists(
                st.tuples(
                    st.lists(st.floats(0, 0.9), min_size=4, max_size=4),
                    st.floats(1, 60),
                    st.floats(0, 0.1),
                ),
                min_size=n,
                max_size=n,
            ),
            st.floats(10, 500),
        )
    )
)
def test_best_order_is_the_brute_force_one(case):
    rows, failing = case
    options = [option(str(i), chance, minutes, lost) for i, (chance, minutes, lost) in enumerate(rows)]
    weights = np.ones(4)
    ours = best_order(options, failing, weights, most=3)
    assert ours.minutes == pytest.approx(brute_force(options, failing, 3), rel=1e-9, abs=1e-9)
    for first in options:
        begun = begun_with(first, options, failing, weights, most=3)
        assert begun.names[0] == first.name
        assert begun.minutes == pytest.approx(brute_force(options, failing, 3, first), rel=1e-9, abs=1e-9)


def test_independent_chances_that_may_all_be_tried_go_by_falling_chance_over_cost():
    # Published rule for sequential search of independent boxes (e.g. Black 1965, "Discrete sequential
    # search", from memory); proved by exchanging neighbours: A before B costs a + (1-p) b, B before A
    # b + (1-q) a, and the first is less exactly when p/a > q/b.
    rows = [("a", 0.5, 5.0), ("b", 0.9, 12.0), ("c", 0.6, 7.0), ("d", 0.1, 2.0)]
    options = [option(*row) for row in rows]
    ours = best_order(options, 1e4, np.ones(1), most=4)
    assert list(ours.names) == [name for name, p, c in sorted(rows, key=lambda r: -r[1] / r[2])]


def test_with_a_cap_the_rule_fails():
    # Worked by hand, cost of failing 30, at most two tries. Falling p/c takes a then c: 5 + 0.5 (7 + 0.4*30)
    # = 14.5. The best pair is a then b: 5 + 0.5 (12 + 0.1*30) = 12.5.
    a, b, c = option("a", 0.5, 5.0), option("b", 0.9, 12.0), option("c", 0.6, 7.0)
    assert expected([a, c], 30.0, np.ones(1)).minutes == pytest.approx(14.5)
    best = best_order([a, b, c], 30.0, np.ones(1), most=2)
    assert best.names == ("a", "b")
    assert best.minutes == pytest.approx(12.5)


def test_shared_failure_makes_the_independent_third_better():
    # Worked by hand: two worlds, the shared fitting is good in one and bad in the other. A and B pass only
    # where it is good; C passes 0.4 of the time anywhere. After A has failed only the bad world is left:
    # B passes 0 there, C 0.4. Alone B (0.45) beats C (0.4).
    a, b = option("a", [0.9, 0.0], 10.0), option("b", [0.9, 0.0], 11.0)
    c = option("c", [0.4, 0.4], 10.0)
    weights = np.ones(2)
    assert expected([b], 100.0, weights).chance > expected([c], 100.0, weights).chance
    best = best_order([a, b, c], 100.0, weights, most=2)
    assert best.names == ("a", "c")
    # Minutes by hand: 10 + 0.55 * 10 + failing: world 1: 0.1*0.6, world 2: 1*0.6 -> mean 0.33 * 100.
    assert best.minutes == pytest.approx(10 + 0.55 * 10 + 33.0)


def test_declining_is_a_choice():
    # By hand: trying costs 50 and saves 0.1 * 100 = 10, so nothing is tried.
    assert best_order([option("a", 0.1, 50.0)], 100.0, np.ones(1), most=4).names == ()
    assert best_order([], 100.0, np.ones(1), most=4).minutes == 100.0


def test_a_lost_head_ends_the_order():
    # By hand: A reaches 0.5 and loses 0.2; B is met in 0.3 of the cases. 10 + 0.3*10 + 100*(1-0.5-0.3*0.5).
    a, b = option("a", 0.5, 10.0, lost=0.2), option("b", 0.5, 10.0)
    assert expected([a, b], 100.0, np.ones(1)).minutes == pytest.approx(10 + 3 + 35)


def test_the_chance_of_a_step_is_told_for_where_it_comes_to_it():
    # By hand, two worlds: a passes .8 and .2 and loses a tenth of the first; b passes .5 and .1. After a
    # .1 and .8 go on, so b passes (.1 x .5 + .8 x .1) / (.1 + .8) = .13 / .9 of those.
    a = Option("a", np.array([0.8, 0.2]), np.array([0.1, 0.0]), np.ones(2))
    b = option("b", [0.5, 0.1], 1.0)
    made = expected([a, b], 100.0, np.ones(2))
    assert made.step_chances == pytest.approx((0.5, 0.13 / 0.9))
    assert made.chance == pytest.approx((0.8 + 0.05 + 0.2 + 0.08) / 2)
