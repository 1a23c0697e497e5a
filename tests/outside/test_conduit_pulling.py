"""Rows 13 and 14 of the mechanics check table: cable pulls in conduit.

Row 13: CommScope, ConQuest Conduit Construction manual, p. 69, App. 8.12: 36 lb before a quarter
bend at a friction of 0.5 gives 79 lb; its table gives the factor 1.60 for 90 degrees and 0.3.
Row 14: gera.services conduit calculator: 200 ft of 1.5 lb/ft at 0.3, then a quarter bend: 144 lb.
Both were read as excerpts. Pounds and feet are kept: the formulas do not mind.
"""

from __future__ import annotations

import numpy as np
import pytest

from advisor.mechanics.push import Bend, Straight, pull_bend, pull_out, pull_straight, push_bend

QUARTER = np.pi / 2


def test_manual_worked_example():
    assert pull_bend(36.0, 0.5, QUARTER, 0.0) == pytest.approx(79, abs=1)


def test_manual_factor_table():
    assert pull_bend(1.0, 0.3, QUARTER, 0.0) == pytest.approx(1.60, abs=0.005)
    assert push_bend(1.60, 0.3, QUARTER, 0.0) == pytest.approx(1.0, abs=0.005)


def test_calculator_run_and_bend():
    run = pull_straight(0.0, 200.0, 0.3, 1.5, 0.0)
    assert pull_bend(run, 0.3, QUARTER, 0.0) == pytest.approx(144, abs=1)
    segments = [Bend(0.3, QUARTER, 0.0), Straight(200.0, 0.3, 1.5, 0.0, 1.0, 1.0, 2.83)]
    assert pull_out(0.0, segments) == pytest.approx(144, abs=1)
