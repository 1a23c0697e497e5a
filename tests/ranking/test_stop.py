"""The stop rule on numbers worked by hand."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from advisor.ranking.stop import Try, stop_rule


def tries(chance: list[float], minutes: float, count: int) -> list[Try]:
    q = np.asarray(chance)
    zero = np.zeros_like(q)
    return [Try("quick push", q, zero + minutes, zero, zero)] * count


def test_failures_teach_so_the_second_try_does_not_pay():
    # Two worlds: an easy one (q 0.8) and a hopeless one (q 0). Switching costs 40, the rest of the way 0.
    # First try: mean q 0.4, costs 10 and saves 0.4*40 = 16, so it pays. After one failure the easy world
    # weighs 0.2/1.2: mean q 0.133, saves 5.3 for 10 minutes, so it does not.
    rule = stop_rule(tries([0.8, 0.0], 10.0, 3), np.ones(2), np.zeros(2), np.full(2, 40.0), 500.0)
    assert rule.tries == 1
    assert rule.chances[:2] == pytest.approx((0.4, 0.8 * 0.2 / 1.2))
    assert rule.go_on[0] == pytest.approx(10 + 0.6 * 40)


def test_the_same_chance_every_time_pays_to_the_end_or_not_at_all():
    # One world, q 0.5: a try costs 10 and saves 20 each time.
    assert stop_rule(tries([0.5], 10.0, 4), np.ones(1), np.zeros(1), np.full(1, 40.0), 500.0).tries == 4
    # At 25 minutes a try saves less than it costs.
    assert stop_rule(tries([0.5], 25.0, 4), np.ones(1), np.zeros(1), np.full(1, 40.0), 500.0).tries == 0


def test_a_cheap_hopeless_try_may_be_worth_the_one_behind_it():
    # By hand: first try q 0 costs 1, second q 0.9 costs 5, switching 40: 1 + 5 + 0.1*40 = 10 < 40.
    first = Try("steady", np.zeros(1), np.ones(1), np.zeros(1), np.zeros(1))
    second = Try("string", np.full(1, 0.9), np.full(1, 5.0), np.zeros(1), np.zeros(1))
    rule = stop_rule([first, second], np.ones(1), np.zeros(1), np.full(1, 40.0), 500.0)
    assert rule.tries == 2
    assert rule.go_on[0] == pytest.approx(10.0)


def test_a_lost_head_counts():
    # By hand: q 0.5, 10 minutes, half the failures lose the head: 500 + 100 harm on 0.25 of the tries.
    one = Try("push", np.full(1, 0.5), np.full(1, 10.0), np.full(1, 0.5), np.full(1, 25.0))
    rule = stop_rule([one], np.ones(1), np.zeros(1), np.full(1, 40.0), 500.0)
    assert rule.go_on[0] == pytest.approx(10 + 0.25 * 500 + 25 + 0.25 * 40)
    assert rule.tries == 0


def test_a_lost_head_is_not_pushed_again_so_the_worlds_that_lose_heads_weigh_less():
    # By hand: of the easy world .2 fail and half of these lose the head: it weighs .1 against 1.
    q, lost = np.array([0.8, 0.0]), np.array([0.5, 0.0])
    each = Try("push", q, np.full(2, 10.0), lost, np.zeros(2))
    switch = np.array([40.0, 60.0])
    rule = stop_rule([each, each], np.ones(2), np.zeros(2), switch, 500.0)
    assert rule.chances == pytest.approx((0.4, 0.8 * 0.1 / 1.1))
    # Leaving is told before each try and not after the last: 50 at first, then (0.1 * 40 + 60) / 1.1.
    assert rule.switch == pytest.approx((50.0, 64.0 / 1.1))
    assert len(rule.go_on) == 2


one_try = st.tuples(*[st.floats(0.0, 0.9)] * 2, *[st.floats(0.5, 40.0)] * 2, *[st.floats(0.0, 0.4)] * 2)


def cost_of_leaving_after(count: int, rows: list[tuple[float, ...]], switch: tuple[float, float]) -> float:
    """Mean minutes of two equal worlds if the spot is left after so many failures, told try by try."""
    total = 0.0
    for world in (0, 1):
        still = 1.0
        for row in rows[:count]:
            chance, minutes, lost = row[world], row[2 + world], row[4 + world]
            total += still * (minutes + chance * 15.0 + (1 - chance) * lost * 500.0 + 3.0)
            still *= (1 - chance) * (1 - lost)
        total += still * switch[world]
    return total / 2


@settings(max_examples=80, deadline=None)
@given(st.lists(one_try, min_size=1, max_size=4), st.tuples(st.floats(0, 400), st.floats(0, 400)))
def test_no_other_number_of_tries_costs_less(rows, switch):
    """Past the spot the way costs 15 min, a try 3 min of harm, a lost head 500: every number is tried out."""
    made = [
        Try(str(i), np.array(row[:2]), np.array(row[2:4]), np.array(row[4:]), np.full(2, 3.0))
        for i, row in enumerate(rows)
    ]
    rule = stop_rule(made, np.ones(2), np.full(2, 15.0), np.array(switch), 500.0)
    costs = [cost_of_leaving_after(count, rows, switch) for count in range(len(rows) + 1)]
    assert costs[rule.tries] == pytest.approx(min(costs), rel=1e-9)
    assert rule.switch[0] == pytest.approx(costs[0])
    assert min(rule.go_on[0], rule.switch[0]) == pytest.approx(min(costs), rel=1e-9)
