"""The rod in a bend at the ends of its range, and plain geometry drawn point by point."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import quad

from advisor.mechanics.rod import (
    chord_height,
    elastic_radius,
    pushed_radius,
    stiffness_load,
    stroke_slack,
)

QUARTER = np.pi / 2
BEND = (0.102, 0.006, 0.15)


def test_straight_pipe_bends_nothing():
    assert elastic_radius(*BEND, 0.0) == np.inf
    assert elastic_radius(0.006, 0.006, 0.15, 0.0) == np.inf, "not even a rod that fills it"
    assert stiffness_load(2.4, *BEND, 0.0) == 0
    assert stroke_slack(0.102, 0.006, 0.0) == 0


@pytest.mark.parametrize("angle", np.radians([5, 22.5, 45, 60, 90, 120, 180]))
def test_root_sine_integral_inside_the_radius(angle):
    """I(angle/2) = H/(rho sqrt(s)) with the integral by adaptive quadrature."""
    integral = quad(lambda x: np.sqrt(np.sin(x)), 0, angle / 2, epsabs=1e-13)[0]
    height = chord_height(*BEND, angle)
    found = height / (elastic_radius(*BEND, angle) * np.sqrt(np.sin(angle / 2)))
    assert found == pytest.approx(integral, rel=1e-8)


def test_small_bends_tend_to_three_quarters_of_the_arc():
    """Beam theory: three point loads bend a beam to 3/4 of the radius of the arc through them."""
    angle = 0.01
    arc = chord_height(*BEND, angle) / (1 - np.cos(angle / 2))
    assert elastic_radius(*BEND, angle) / arc == pytest.approx(0.75, abs=1e-4)


def test_chord_height_between_points_of_the_walls():
    """Height of the axis over the line along the leg through the inner contact, drawn out."""
    bore, rod, radius, half = 0.102, 0.006, 0.15, QUARTER / 2
    clearance = (bore - rod) / 2
    inner = (radius - clearance) * np.array([np.sin(0.0), np.cos(0.0)])  # at mid bend
    normal = np.array([np.sin(half), np.cos(half)])  # square to the leg
    outer_wall = (radius + clearance) * normal + 0.3 * np.array([np.cos(half), -np.sin(half)])
    expected = (outer_wall - inner) @ normal
    assert chord_height(bore, rod, radius, QUARTER) == pytest.approx(expected, rel=1e-12)


def test_sharp_corner_leaves_the_bore_to_bend_in():
    """In a mitre the inner contact is the corner where the walls meet, on both inner walls."""
    for radius in (0.0, 0.02, 0.048):
        assert chord_height(0.102, 0.006, radius, QUARTER) == pytest.approx(0.096, rel=1e-12)


def test_pushed_rod_follows_the_outer_wall():
    """Three points of the outer wall, moved in by half the rod, and the circle through them."""
    wall = 0.15 + 0.102 / 2
    points = [(wall - 0.003) * np.array([np.cos(t), np.sin(t)]) for t in (0.1, 0.5, 1.2)]
    (ax, ay), (bx, by), (cx, cy) = points
    sides = [np.hypot(ax - bx, ay - by), np.hypot(bx - cx, by - cy), np.hypot(cx - ax, cy - ay)]
    twice_area = abs((bx - ax) * (cy - ay) - (cx - ax) * (by - ay))
    assert pushed_radius(*BEND) == pytest.approx(np.prod(sides) / (2 * twice_area), rel=1e-9)


def test_slack_is_the_difference_of_two_arcs():
    bore, rod, radius = 0.102, 0.006, 0.15
    outer, inner = radius + (bore - rod) / 2, radius - (bore - rod) / 2
    assert stroke_slack(bore, rod, QUARTER) == pytest.approx(QUARTER * (outer - inner), rel=1e-12)


def test_worlds_keep_single_precision():
    bore = np.linspace(0.07, 0.1, 5, dtype=np.float32)
    for found in (
        elastic_radius(bore, 0.006, 0.1, QUARTER),
        pushed_radius(bore, 0.006, 0.1),
        chord_height(bore, 0.006, 0.1, QUARTER),
        stiffness_load(2.4, bore, 0.006, 0.1, QUARTER),
        stroke_slack(bore, 0.006, QUARTER),
    ):
        assert found.shape == (5,)
        assert found.dtype == np.float32
