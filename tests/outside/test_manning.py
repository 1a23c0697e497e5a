"""Rows 28 to 30 of the mechanics check table: water in a round pipe.

Row 28: engineeringprep.com problem 472: full 0.5 ft pipe, 5 %, n 0.02: 0.82 ft^3/s.
Row 29: the textbook curve of flow over full flow, from memory: .1370, .5, .9119, 1.0757.
Row 30: the general-purpose library fluids, V_Manning times the wetted area.
"""

from __future__ import annotations

import numpy as np
import pytest
from fluids.open_flow import V_Manning

from advisor.mechanics.flow import full_flow, manning_flow, normal_depth

FOOT = 0.3048


def library_flow(diameter, depth, slope, roughness):
    """Area and wetted edge by adding up thin level strips, the speed by the library."""
    at = np.sin(np.linspace(0, np.pi / 2, 20001)) ** 2 * depth
    middle = (at[1:] + at[:-1]) / 2
    width = 2 * np.sqrt(middle * (diameter - middle))
    area = (width * np.diff(at)).sum()
    half = np.sqrt(np.maximum(at * (diameter - at), 0))
    edge = 2 * np.hypot(np.diff(at), np.diff(half)).sum()
    return area * V_Manning(Rh=area / edge, S=slope, n=roughness)


def test_published_exercise():
    flow = full_flow(0.5 * FOOT, 0.05, 0.02)
    assert flow / FOOT**3 == pytest.approx(0.82, abs=0.01)


@pytest.mark.parametrize(
    ("share", "expected"), [(0.25, 0.1370), (0.5, 0.5), (0.75, 0.9119), (0.938, 1.0757), (1.0, 1.0)]
)
def test_textbook_curve(share, expected):
    ratio = manning_flow(0.1, share * 0.1, 0.02, 0.011) / full_flow(0.1, 0.02, 0.011)
    assert ratio == pytest.approx(expected, abs=1e-3)


@pytest.mark.parametrize("diameter", [0.05, 0.1, 0.15])
@pytest.mark.parametrize("share", [0.05, 0.3, 0.6, 0.9])
def test_general_library(diameter, share):
    depth = share * diameter
    expected = library_flow(diameter, depth, 0.02, 0.011)
    assert manning_flow(diameter, depth, 0.02, 0.011) == pytest.approx(expected, rel=1e-6)
    assert normal_depth(expected, diameter, 0.02, 0.011) == pytest.approx(depth, rel=1e-5)


def test_row_30():
    assert manning_flow(0.1, 0.03, 0.02, 0.011) == pytest.approx(1.690651e-3, rel=1e-6)


def test_more_than_the_pipe_carries_runs_full():
    peak = 1.0757 * full_flow(0.05, 0.02, 0.011)
    assert normal_depth(1.001 * peak, 0.05, 0.02, 0.011) == 0.05
    assert normal_depth(0.999 * peak, 0.05, 0.02, 0.011) < 0.938 * 0.05
    assert normal_depth(0.99 * peak, 0.05, 0.02, 0.011) < 0.938 * 0.05
    assert normal_depth(1.8e-3, 0.05, 0.02, 0.011) == 0.05
