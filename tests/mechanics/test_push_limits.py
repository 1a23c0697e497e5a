"""Push and pull at the ends of their range, and the published form of the load that coils a rod.

Rows 19 to 21 of the mechanics check table give forms only: course notes on drill strings (Ghalambor
and Guo 2005, citing Chen et al.): snaking at 2 sqrt(EI W/r), coiling at 2.828 sqrt(EI W/r).
"""

from __future__ import annotations

import numpy as np
import pytest

from advisor.mechanics.coil import rates
from advisor.mechanics.push import (
    Bend,
    Straight,
    march,
    pull_bend,
    pull_out,
    pull_straight,
    push_bend,
    push_straight,
    reach_straight,
)

ROD = {"weight": 0.68, "stiffness": 2.42, "clearance": 0.0355, "helical_factor": 2.83}
QUARTER = np.pi / 2


def test_published_form_of_the_load_that_coils():
    def coils(slope):
        return rates(0.3, 3.0, slope, 2.0, 0.5, 2.828)[2]

    assert coils(0.0) == pytest.approx(2.828 * np.sqrt(2.0 * 3.0 / 0.5), rel=1e-12)
    assert coils(np.radians(60)) == pytest.approx(coils(0.0) * np.sqrt(0.5), rel=1e-12)
    assert coils(QUARTER) < 1e-6


def test_sliding_block_below_coiling():
    """A light push on a level rod is a block on a plane: force less friction times weight."""
    assert push_straight(10.0, 5.0, 0.3, slope=0.0, **ROD) == pytest.approx(10 - 0.3 * 0.68 * 5)


def test_no_friction_leaves_weight_only():
    left = push_straight(100.0, 5.0, 0.0, slope=0.2, **ROD)
    assert left == pytest.approx(100 + 0.68 * 5 * np.sin(0.2), rel=1e-9)


def test_push_that_died_is_below_zero():
    assert push_straight(5.0, 100.0, 0.3, slope=0.0, **ROD) < 0
    reach = reach_straight(5.0, 0.0, 0.3, slope=0.0, **ROD)
    assert reach == pytest.approx(5 / (0.3 * 0.68), rel=1e-9)
    assert push_bend(5.0, 0.3, QUARTER, 95.6) < 0


def test_no_push_left_to_lose_reaches_nowhere():
    assert reach_straight(5.0, 5.0, 0.3, slope=0.0, **ROD) == 0
    assert reach_straight(5.0, 9.0, 0.3, slope=0.0, **ROD) == 0


def test_any_push_locks_up_in_the_end():
    """However hard the push, a coiled level rod loses it within a bounded length."""
    lock = np.sqrt(4 * 2.42 / (0.0355 * 0.68)) * (QUARTER - np.arctan(2.83 / 2)) / 0.3
    far = reach_straight(1e6, 0.0, 0.3, slope=0.0, **ROD)
    coiled = reach_straight(1e6, 2.83 * np.sqrt(2.42 * 0.68 / 0.0355), 0.3, slope=0.0, **ROD)
    assert far > coiled
    assert coiled == pytest.approx(lock, rel=1e-4)


def test_bend_without_stiffness_is_a_rope():
    assert push_bend(50.0, 0.3, QUARTER, 0.0) == pytest.approx(50 * np.exp(-0.3 * QUARTER))
    assert push_bend(-50.0, 0.3, QUARTER, 0.0) == pytest.approx(-50 * np.exp(0.3 * QUARTER))
    assert pull_bend(50.0, 0.3, QUARTER, 0.0) == pytest.approx(50 * np.exp(0.3 * QUARTER))


def test_bend_takes_at_least_the_stiffness_friction():
    assert push_bend(0.3 * 95.6, 0.3, QUARTER, 95.6) == pytest.approx(0, abs=1e-12)
    assert pull_bend(0.0, 0.3, QUARTER, 95.6) == pytest.approx(0.3 * 95.6)


def test_tension_adds_to_the_stiffness_load_what_push_takes_off():
    """The straight line through zero push: equal and opposite changes for equal forces."""
    pull = pull_bend(10.0, 0.3, QUARTER, 95.6)
    assert push_bend(2 * 10 + 2 * 0.3 * 95.6 - pull, 0.3, QUARTER, 95.6) == pytest.approx(10)


def test_pull_uphill_and_down():
    assert pull_straight(3.0, 10.0, 0.3, 0.68, 0.0) == pytest.approx(3 + 0.3 * 0.68 * 10)
    assert pull_straight(3.0, 10.0, 0.3, 0.68, QUARTER) == pytest.approx(3 + 0.68 * 10)
    # tip lying higher than the hand: the rod slides back by itself
    assert pull_straight(3.0, 10.0, 0.3, 0.68, -QUARTER) == 0


def test_march_keeps_every_force_on_the_way():
    route = [Straight(5.0, 0.3, 0.68, 0.0, 2.42, 0.0355, 2.83), Bend(0.3, QUARTER, 30.0)]
    forces = march(80.0, route)
    assert forces[0] == 80.0
    assert forces[1] == push_straight(80.0, *route[0])
    assert forces[2] == push_bend(forces[1], *route[1])
    assert pull_out(0.0, []) == 0


def test_worlds_keep_single_precision():
    force = np.linspace(-20, 150, 40, dtype=np.float32)
    for slope in (0.02, -0.3, 1.2, QUARTER):
        left = push_straight(force, 10.0, 0.3, slope=slope, **ROD)
        reach = reach_straight(force, 5.0, 0.3, slope=slope, **ROD)
        assert left.dtype == reach.dtype == np.float32
        double = force.astype(float)
        np.testing.assert_allclose(
            left, push_straight(double, 10.0, 0.3, slope=slope, **ROD), rtol=1e-4, atol=1e-3
        )
    for found in (
        push_bend(force, 0.3, 1.5, 30.0),
        pull_straight(force, 10.0, 0.3, 0.68, 0.0),
        pull_bend(force, 0.3, 1.5, 30.0),
    ):
        assert found.dtype == np.float32
