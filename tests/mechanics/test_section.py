"""A rod's round section against small squares summed up and arcs measured out."""

from __future__ import annotations

import numpy as np
import pytest

from advisor.mechanics.section import (
    core_diameter,
    core_stiffness,
    rod_weight_per_length,
    smallest_bend_radius,
)


def squares(diameter):
    """Heights over the axis and the area of each of the small squares that make up a disc."""
    side = diameter / 2000
    at = (np.arange(2000) + 0.5) * side - diameter / 2
    across, up = np.meshgrid(at, at)
    inside = np.hypot(across, up) <= diameter / 2
    return up[inside], side * side


def test_weight_of_a_metre_of_rod():
    heights, area = squares(0.007)
    mass = 1950 * 0.8 * heights.size * area  # kg in 1 m
    assert rod_weight_per_length(1950.0, 0.8, 0.007) == pytest.approx(mass * 9.80665, rel=1e-4)


def test_stiffness_of_a_core():
    heights, area = squares(0.0037)
    assert core_stiffness(40e9, 0.0037) == pytest.approx(40e9 * (heights**2).sum() * area, rel=1e-3)
    assert core_diameter(core_stiffness(40e9, 0.0037), 40e9) == pytest.approx(0.0037, rel=1e-12)


def test_outermost_fibre_of_the_smallest_bend_is_stretched_to_the_limit():
    radius = smallest_bend_radius(0.0037, 0.012)
    turn = np.linspace(0, 1, 100001)
    axis, outermost = (
        np.hypot(*np.diff([r * np.cos(turn), r * np.sin(turn)], axis=1)).sum()
        for r in (radius, radius + 0.0037 / 2)
    )
    assert outermost / axis - 1 == pytest.approx(0.012, rel=1e-6)


def test_worlds_keep_single_precision():
    some = np.linspace(0.003, 0.008, 5, dtype=np.float32)
    for found in (
        rod_weight_per_length(1950.0, 0.8, some),
        core_stiffness(40e9, some),
        core_diameter(some, 40e9),
        smallest_bend_radius(some, 0.012),
    ):
        assert found.shape == (5,)
        assert found.dtype == np.float32
