"""Row 26 of the mechanics check table: a clamped rod drooping by its weight, by solve_bvp.

The droops .123471, .495905, .700200, .829881 at W = 1, 5, 10, 20 were obtained with scipy's
solve_bvp before this project; here it is run again, also between and beyond them.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_bvp

from advisor.mechanics.elastica import droop_ratio


def solved(load):
    at = np.linspace(0, 1, 101)
    found = solve_bvp(
        lambda s, y: [y[1], -load * (1 - s) * np.cos(y[0]), np.sin(y[0])],
        lambda a, b: [a[0], b[1], a[2]],
        at,
        np.array([np.minimum(load / 6, 1.2) * at, 0 * at, at / 2]),
        tol=1e-9,
        max_nodes=20000,
    )
    assert found.success
    return abs(found.y[2, -1])


@pytest.mark.parametrize(("load", "earlier"), [(1, 0.123471), (5, 0.495905), (10, 0.700200), (20, 0.829881)])
def test_earlier_droops(load, earlier):
    assert droop_ratio(load) == pytest.approx(earlier, abs=1e-6)


@pytest.mark.parametrize("load", [0.05, 2.6478, 7.0, 14.0, 40.0, 100.0])
def test_droop(load):
    assert droop_ratio(load) == pytest.approx(solved(load), abs=1e-6)


def test_light_rod_follows_the_beam_formula():
    """w l^4/(8 EI), any beam table."""
    assert droop_ratio(1e-3) == pytest.approx(1e-3 / 8, rel=1e-6)
