"""The free rod and the elastica at the ends of their ranges."""

from __future__ import annotations

import numpy as np
import pytest

from advisor.mechanics.elastica import complete_elliptic, droop_ratio, post_buckling
from advisor.mechanics.hand import euler_load, largest_hand_distance, safe_stroke


def test_unfolded_rod():
    assert complete_elliptic(0.0) == pytest.approx((np.pi / 2, np.pi / 2), rel=1e-15)
    assert post_buckling(0.0) == pytest.approx((1.0, 1.0, 0.0), abs=1e-15)


def test_short_free_rod_leaves_little_stroke():
    """For a shallow sine fold the ends close by l^3/(4 pi^2 rho^2)."""
    assert safe_stroke(0.05, 0.5) == pytest.approx(0.05**3 / (2 * np.pi * 0.5) ** 2, rel=2e-3)


def test_no_weight_no_droop_and_never_more_than_the_length():
    assert droop_ratio(0.0) == 0
    assert np.all(droop_ratio(np.array([50.0, 100.0])) < 1)


def test_worlds_keep_single_precision():
    some = np.linspace(0.1, 0.6, 7, dtype=np.float32)
    for found in (
        *complete_elliptic(some),
        *post_buckling(some),
        droop_ratio(some),
        euler_load(some, 0.5, 1.0),
        largest_hand_distance(some, 50.0, 1.0, 1.5),
        safe_stroke(some, 0.25),
    ):
        assert found.shape == (7,)
        assert found.dtype == np.float32
