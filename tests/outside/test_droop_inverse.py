"""The droop test against rods whose droops are solved apart, by scipy's boundary-value solver.

A heavy elastica with a curl of its own: EI (theta' - k)' = -w (l - s) cos(theta), clamped level, free at
the end. Rods run from the thinnest small reel to the stiffest large one, with and without set.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from scipy.integrate import solve_bvp

from advisor.mechanics.droop import stiffness_from_droop
from advisor.mechanics.elastica import droop_ratio

pytestmark = pytest.mark.slow  # a reference check

# (EI in N m2, w in N/m): the classes of rules/tables/kits.yaml from end to end.
ENDS = ((0.15, 0.35), (0.4, 0.7), (0.8, 1.1), (2.0, 1.2), (6.0, 2.6))
SETS = (np.inf, 4.0, 1.5)
RODS = [(*rod, radius, 4.0) for rod in ENDS for radius in SETS]
RODS += [(0.4, 0.7, radius, load) for radius in SETS for load in (1.0, 12.0)]  # and less and more hung out


@cache
def hung(length: float, ei: float, w: float, curvature: float) -> float:
    """Fall of the free end in m, the load put on in steps so that the shape follows from the unloaded one."""
    at = np.linspace(0, length, 201)
    guess = np.array([curvature * at, 0 * at + curvature, 1 - np.cos(curvature * at)])
    for share in (0.1, 0.3, 0.6, 1.0):
        found = solve_bvp(
            lambda s, y, k=share: [y[1], -k * w * (length - s) * np.cos(y[0]) / ei, np.sin(y[0])],
            lambda a, b: [a[0], b[1] - curvature, a[2]],
            at,
            guess,
            tol=1e-8,
            max_nodes=50000,
        )
        assert found.success
        at, guess = found.x, found.y
    return float(found.y[2, -1])


def overhang(ei: float, w: float, load: float) -> float:
    return float((load * ei / w) ** (1 / 3))


@pytest.mark.parametrize(("ei", "w", "radius", "load"), RODS)
def test_stiffness_and_set_come_back(ei, w, radius, load):
    length = overhang(ei, w, load)
    if length / radius > 1.15:
        length = 1.15 * radius  # so much curl asks for a shorter end: the kit command says so
    droop, rolled = hung(length, ei, w, 1 / radius), hung(length, ei, w, -1 / radius)
    stiffness, curl = stiffness_from_droop(length, droop, rolled, w)
    assert stiffness == pytest.approx(ei, rel=1e-4)
    assert curl == pytest.approx(1 / radius, abs=1e-4)


@pytest.mark.parametrize("load", [0.5, 5.0, 20.0, 39.0])
@pytest.mark.parametrize("curl", [-1.9, -0.7, 1.2])
def test_droop_with_a_curl(load, curl):
    assert droop_ratio(load, curl) == pytest.approx(hung(1.0, 1.0, load, curl), abs=1e-6)


def test_light_rod_with_a_curl_follows_the_beam_formula_and_the_arc():
    """w l^4/(8 EI) of any beam table, and the rise c/2 of a shallow arc; they add up while small."""
    assert droop_ratio(1e-3, 2e-3) == pytest.approx(1e-3 / 8 + 1e-3, rel=1e-5)
    stiffness, curl = stiffness_from_droop(1.0, 1e-3 / 8 + 1e-3, 1e-3 / 8 - 1e-3, 2.0)
    assert (stiffness, curl) == pytest.approx((2000.0, 2e-3), rel=1e-4)


@pytest.mark.parametrize(
    ("droop", "rolled"),
    [(0.999, 0.999), (0.05, -0.2), (1.4, 0.2)],
)
def test_no_rod_droops_so(droop, rolled):
    stiffness, curl = stiffness_from_droop(1.0, droop, rolled, 1.0)
    assert np.isnan(stiffness)
    assert np.isnan(curl)


def test_many_at_once_as_each_alone():
    droops, rolled = np.array([0.3, 0.6, 0.5]), np.array([0.2, 0.6, 0.1])
    both = stiffness_from_droop(1.0, droops, rolled, 1.0)
    for i in range(3):
        alone = stiffness_from_droop(1.0, droops[i], rolled[i], 1.0)
        assert np.allclose([both[0][i], both[1][i]], alone, rtol=1e-6, equal_nan=True)
