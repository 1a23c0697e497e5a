"""Row 23 of the mechanics check table: a worked column.

HP 48gII user's manual, p. 430 (equation library, elastic buckling): K 0.7, length 7.3152 m, radius
of gyration 4.1148 cm, area 53.0967 cm^2, E 199947961.502 kPa give a load of 676.6019 kN.
"""

from __future__ import annotations

import pytest

from advisor.mechanics.hand import euler_load, largest_hand_distance

STIFFNESS = 199.947961502e9 * 53.0967e-4 * 4.1148e-2**2
LOAD, LENGTH, END_FACTOR = 676601.9, 7.3152, 0.7


def test_load_of_the_column():
    assert euler_load(STIFFNESS, LENGTH, END_FACTOR) == pytest.approx(LOAD, rel=1e-6)


def test_length_that_carries_the_load():
    assert largest_hand_distance(STIFFNESS, LOAD, END_FACTOR, 1.0) == pytest.approx(LENGTH, rel=1e-6)
    # a safety factor of 4 on the load halves the length
    assert largest_hand_distance(STIFFNESS, LOAD, END_FACTOR, 4.0) == pytest.approx(LENGTH / 2, rel=1e-6)
