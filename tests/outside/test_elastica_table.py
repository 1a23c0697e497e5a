"""Rows 24, 25 and 32 of the mechanics check table: the folded rod.

The load ratios 1.015, 1.063, 1.152, 1.293 and end distances .970, .881, .741, .559 at end angles of
20, 40, 60, 80 degrees are Timoshenko and Gere's table (Theory of Elastic Stability), from memory.
The curvatures 2.2163 and 4.5940 came from a discrete least-energy rod before this project.
Elliptic integrals are also compared with scipy.special, and the fold with a solver of its
differential equation.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_bvp
from scipy.special import ellipe, ellipk

from advisor.mechanics.elastica import complete_elliptic, post_buckling
from advisor.mechanics.hand import safe_stroke


def parameter(degrees):
    return np.sin(np.radians(degrees) / 2) ** 2


def test_elliptic_integrals():
    m = np.concatenate([np.linspace(0, 0.99, 100), [0.999, 0.9999]])
    first, second = complete_elliptic(m)
    np.testing.assert_allclose(first, ellipk(m), rtol=1e-12)
    np.testing.assert_allclose(second, ellipe(m), rtol=1e-12)


@pytest.mark.parametrize(
    ("degrees", "load", "chord"),
    [(20, 1.015, 0.970), (40, 1.063, 0.881), (60, 1.152, 0.741), (80, 1.293, 0.559)],
)
def test_textbook_table(degrees, load, chord):
    ratio, ends, _ = post_buckling(parameter(degrees))
    assert ratio == pytest.approx(load, abs=1.1e-3)
    assert ends == pytest.approx(chord, abs=1e-3)


@pytest.mark.parametrize(("degrees", "curvature"), [(40, 2.2163), (80, 4.5940)])
def test_sharpest_curvature(degrees, curvature):
    assert post_buckling(parameter(degrees))[2] == pytest.approx(curvature, rel=1e-4)


@pytest.mark.parametrize("degrees", [20, 60, 100, 125])
def test_fold_against_a_boundary_value_solver(degrees):
    """theta'' + P sin(theta) = 0 with free ends and a given end angle; P is part of the answer."""
    end = np.radians(degrees)
    at = np.linspace(0, 1, 41)
    found = solve_bvp(
        lambda s, y, p: [y[1], -p[0] * np.sin(y[0]), np.cos(y[0])],
        lambda a, b, p: [a[0] - end, a[1], b[1], a[2]],
        at,
        [end * np.cos(np.pi * at), -np.pi * end * np.sin(np.pi * at), at],
        p=[10.0],
        tol=1e-8,
    )
    load, chord, curvature = post_buckling(parameter(degrees))
    assert load == pytest.approx(found.p[0] / np.pi**2, rel=1e-6)
    assert chord == pytest.approx(found.y[2, -1], abs=1e-6)
    assert curvature == pytest.approx(np.abs(found.y[1]).max(), rel=1e-4)


@pytest.mark.parametrize(("degrees", "length"), [(30, 0.3), (60, 0.5), (100, 0.8)])
def test_stroke_that_reaches_the_smallest_radius(degrees, length):
    """Taken from the fold itself: its sharpest radius and the way its ends have come together."""
    m = parameter(degrees)
    radius = length / (4 * np.sqrt(m) * ellipk(m))
    stroke = length * (2 - 2 * ellipe(m) / ellipk(m))
    assert safe_stroke(length, radius) == pytest.approx(stroke, rel=1e-9)


@pytest.mark.parametrize(("length", "stroke"), [(0.3, 0.011), (0.5, 0.049), (0.8, 0.189)])
def test_earlier_strokes(length, stroke):
    assert safe_stroke(length, 0.25) == pytest.approx(stroke, abs=6e-4)


def test_ends_meet():
    """A supple or long rod can be folded until its ends touch: 2 E = K there, as scipy has it."""
    m = 0.8261147659
    assert 2 * ellipe(m) == pytest.approx(ellipk(m), rel=1e-8)
    assert safe_stroke(4.0, 0.1) == pytest.approx(4.0, rel=1e-8)
