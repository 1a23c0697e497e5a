"""Depth above ground against the field of a finite coil, summed from its loops of current with scipy.

Source of the reference: the law of Biot and Savart, dB = mu_0 I dl x r/(4 pi r^3), integrated round each loop
of a coil of finite radius and length with scipy.integrate.quad. It knows nothing of dipoles.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.constants import mu_0
from scipy.integrate import quad
from scipy.optimize import brentq

from advisor.mechanics import field

RADIUS, LENGTH, CURRENT = 0.006, 0.040, 1.0  # a coil as it fits behind a camera head, m and A
LOOPS = 9


def coil_field(x: float, h: float, tilt: float) -> tuple[float, float]:
    """Field in T along the pipe and upward at (x, h) of a coil at the origin, `tilt` out of the level."""
    axis = np.array([np.cos(tilt), 0.0, np.sin(tilt)])
    one, two = np.array([-np.sin(tilt), 0.0, np.cos(tilt)]), np.array([0.0, -1.0, 0.0])
    assert np.allclose(np.cross(one, two), axis)
    total = np.zeros(3)
    for place in (np.arange(LOOPS) + 0.5) / LOOPS * LENGTH - LENGTH / 2:

        def part(angle: float, component: int, place: float = place) -> float:
            wire = place * axis + RADIUS * (np.cos(angle) * one + np.sin(angle) * two)
            run = RADIUS * (-np.sin(angle) * one + np.cos(angle) * two)
            gap = np.array([x, 0.0, h]) - wire
            return float(np.cross(run, gap)[component] / np.linalg.norm(gap) ** 3)

        total += [quad(part, 0, 2 * np.pi, args=(c,), epsabs=1e-12)[0] if c != 1 else 0.0 for c in range(3)]
    total *= mu_0 * CURRENT / (4 * np.pi)
    return float(total[0]), float(total[2])


def coil_nulls(h: float, tilt: float) -> tuple[float, float]:
    def along(x: float) -> float:
        return coil_field(x, h, tilt)[0] * 1e9

    middle = -h * np.tan(tilt) / 3
    return brentq(along, middle - 2.5 * h, middle, xtol=1e-6), brentq(
        along, middle, middle + 2.5 * h, xtol=1e-6
    )


@pytest.mark.parametrize("h", [0.9, *(pytest.param(h, marks=pytest.mark.slow) for h in (0.3, 2.4))])
def test_depth_by_nulls(h):
    behind, ahead = coil_nulls(h, 0.0)
    assert field.depth_by_nulls(ahead - behind) == pytest.approx(h, rel=0.01)


@pytest.mark.parametrize("tilt", [0.6, *(pytest.param(t, marks=pytest.mark.slow) for t in (0.02, 0.2, -0.6))])
def test_a_tilted_transmitter_seems_deeper_by_the_stated_share(tilt):
    h = 1.0
    behind, ahead = coil_nulls(h, tilt)
    seems = field.depth_by_nulls(ahead - behind)
    assert seems == pytest.approx(h * np.sqrt(1 + 9 * np.tan(tilt) ** 2 / 8), rel=0.005)


@pytest.mark.parametrize(("h", "raised"), [(0.4, 0.3), (1.0, 0.5), (2.0, 1.0)])
@pytest.mark.parametrize("tilt", [0.0, 0.5])
def test_depth_by_two_heights(h, raised, tilt):
    near, far = (np.hypot(*coil_field(0.0, at, tilt)) for at in (h, h + raised))
    assert field.depth_by_two_heights(near, far, raised) == pytest.approx(h, rel=0.01)


def test_an_upright_transmitter_has_one_null_only_straight_above():
    """In a riser the pattern turns, and the check by two nulls has no answer."""
    h, upright = 1.0, np.pi / 2
    signs = {np.sign(round(coil_field(x, h, upright)[0] * 1e12, 6)) for x in (-2.0, -0.5, 0.5, 2.0)}
    assert signs == {-1.0, 1.0}


def test_two_heights_by_hand():
    """By hand: at 1 m and 2 m the signal falls to one eighth, so 8 and 1 with a raise of 1 m mean 1 m."""
    assert field.depth_by_two_heights(8.0, 1.0, 1.0) == pytest.approx(1.0)
    assert field.depth_by_two_heights(1.0, 1.0, 0.5) == np.inf
    assert field.depth_by_nulls(1.41421356) == pytest.approx(1.0)
