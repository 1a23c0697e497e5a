"""Rows 15 and 16 of the mechanics check table: a soft string through two level bends.

Reference figures were produced once with welleng 0.30.0, functions `force_normal` and
`force_tension_delta`, in small steps over the route below, whose 10 m lie at the tip: 17.375 to
push, 23.455 to pull. That code knows no buckling and no stiffness, so the rod here is given neither.
"""

from __future__ import annotations

import numpy as np
import pytest

from advisor.mechanics.push import Bend, Straight, march, pull_out

NEVER_COILS = {"stiffness": 1e9, "clearance": 0.046, "helical_factor": 2.83}


def straight(length):
    return Straight(length, friction=0.3, weight=1.5, slope=0.0, **NEVER_COILS)


def bend(degrees):
    return Bend(friction=0.3, angle=np.radians(degrees), load=0.0)


ROUTE = [straight(3.0), bend(45), straight(5.0), bend(90), straight(10.0)]  # from the hand


def test_push_that_leaves_two_newtons_at_the_tip():
    forces = march(17.375, ROUTE)
    assert len(forces) == len(ROUTE) + 1
    assert forces[0] == 17.375
    assert forces[-1] == pytest.approx(2.0, abs=2e-3)


def test_pull_from_five_newtons_at_the_tip():
    assert pull_out(5.0, ROUTE) == pytest.approx(23.455, rel=1e-3)
