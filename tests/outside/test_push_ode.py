"""Rows 17 and 18 of the mechanics check table, and every other branch: step-by-step integration.

The reference is scipy's solve_ivp on dF/dx = -(mu N - w sin(slope)) with the wall force N written
out here, integrated from the hand; the figures 68.5987, 83.2487, 71.3811 and 34.2669 were obtained
that way before this project.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from advisor.mechanics.push import push_straight, reach_straight

ROD = {"weight": 1.5, "stiffness": 19.6, "clearance": 0.046}
FACTOR = 2 * np.sqrt(2)


def rate(force, slope, friction, factor):
    """dF/dx; the wall force grows by F^2 r/(4 EI) while the rod is coiled."""
    across = ROD["weight"] * np.cos(slope)
    onset = factor * np.sqrt(ROD["stiffness"] * across / ROD["clearance"])
    coil = ROD["clearance"] / (4 * ROD["stiffness"])
    lying = -(friction * across - ROD["weight"] * np.sin(slope))
    return lying - friction * coil * force**2 if force > onset else lying


def integrated(force, length, slope, friction=0.3, factor=FACTOR):
    found = solve_ivp(
        lambda x, f: [rate(f[0], slope, friction, factor)],
        (0, length),
        [force],
        rtol=1e-9,
        atol=1e-9,
        max_step=length / 50,
    )
    return found.y[0, -1]


CASES = [
    (150, 0.02, 40, 68.5987),  # coiled throughout
    (80, np.pi / 2, 10, 83.2487),  # down a stack: gains up to the balance of weight and friction
    (120, -0.3, 20, 71.3811),  # uphill
    (20, 0.6, 30, 34.2669),  # steep downhill, lying: gains push
    (120, np.pi / 2, 30, None),  # down a stack, losing
    (90, 0.0, 60, None),  # coiled, then lying
    (30, 0.0, 40, None),  # lying
    (60, -np.pi / 2, 10, None),  # straight up
    (60, -np.pi / 2, 60, None),  # straight up until the push dies and beyond
    (30, 1.2, 60, None),  # lying, gains, coils, gains on
    (200, 1.2, 60, None),  # coiled, falls to the balance
    (-10, np.pi / 2, 4, None),  # hanging
    (-10, np.pi / 2, 20, None),  # hanging, then in compression
    (40, np.arctan(0.3), 30, None),  # friction and gravity cancel
    (200, np.arctan(0.3), 30, None),
]


@pytest.mark.parametrize(("force", "slope", "length", "earlier"), CASES)
def test_push_left(force, slope, length, earlier):
    left = push_straight(force, length, 0.3, slope=slope, helical_factor=FACTOR, **ROD)
    assert left == pytest.approx(integrated(force, length, slope), abs=1e-4)
    if earlier is not None:
        assert left == pytest.approx(earlier, abs=1e-4)


@pytest.mark.parametrize("factor", [3.66, 5.66])
@pytest.mark.parametrize(("force", "slope", "length"), [(120, 0.02, 40), (200, -0.1, 15), (90, 0.0, 60)])
def test_other_published_factors(force, slope, length, factor):
    left = push_straight(force, length, 0.4, slope=slope, helical_factor=factor, **ROD)
    assert left == pytest.approx(integrated(force, length, slope, 0.4, factor), abs=1e-4)


def test_balance_where_a_steep_rod_neither_lies_nor_coils():
    """A late onset above the balance: lying gains push and coiled loses it, so it stays there."""
    onset = 5.66 * np.sqrt(ROD["stiffness"] * ROD["weight"] * np.cos(0.5) / ROD["clearance"])
    for force in (40.0, 300.0):
        left = push_straight(force, 300.0, 0.3, slope=0.5, helical_factor=5.66, **ROD)
        assert left == pytest.approx(onset, rel=1e-9)


@pytest.mark.parametrize(
    ("force", "end", "slope"),
    [
        (150, 68.6, 0.02),
        (150, 20, 0.02),
        (50, 5, 0.0),
        (120, 10, -0.3),
        (60, 5, -np.pi / 2),
        (200, 130, 1.2),
        (120, 95, np.pi / 2),
        (200, 90, np.arctan(0.3)),
    ],
)
def test_reach(force, end, slope):
    reach = float(reach_straight(force, end, 0.3, slope=slope, helical_factor=FACTOR, **ROD))
    assert 0 < reach < 1000
    assert integrated(force, reach, slope) == pytest.approx(end, abs=1e-3)


@pytest.mark.parametrize(
    ("force", "end", "slope"),
    [
        (30, 5, 0.6),  # gains on the way
        (200, 60, np.pi / 2),  # never below the stack's balance
        (50, 5, np.arctan(0.3)),  # lying, and friction and gravity cancel
        (200, 50, 1.2),
    ],
)
def test_push_that_never_falls_so_far(force, end, slope):
    assert np.isinf(reach_straight(force, end, 0.3, slope=slope, helical_factor=FACTOR, **ROD))
    assert integrated(force, 40, slope) > end
