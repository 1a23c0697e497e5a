"""Rows 1, 2 and 8 of the mechanics check table: answers others published.

Row 1: a question-and-answer page on "the longest ladder round a corner", halls of 3 ft and 4 ft: 9.87.
Row 2: the ladder formula (a^(2/3) + b^(2/3))^(3/2) of calculus textbooks, equal halls.
Row 8: an engineers' forum thread on pushing stiff innerduct round a bend (Eng-Tips 31394): the
gentlest arc through a 4.124 in bore with a 6 in sweep is "almost 18 inches".
The sources were read as excerpts.
"""

from __future__ import annotations

import numpy as np
import pytest

from advisor.mechanics.head import rigid_limit, rigid_limit_step
from advisor.mechanics.rod import chord_height

QUARTER = np.pi / 2


def ladder(a, b):
    return (a ** (2 / 3) + b ** (2 / 3)) ** 1.5


def test_ladder_through_two_hallways():
    assert rigid_limit_step(3.0, 4.0, 0.0, QUARTER) == pytest.approx(9.87, abs=0.01)


@pytest.mark.parametrize(("a", "b"), [(1.0, 1.0), (0.05, 0.1), (0.077, 0.102), (1.0, 8.0)])
def test_ladder_formula_for_any_hallways(a, b):
    assert rigid_limit_step(a, b, 0.0, QUARTER) == pytest.approx(ladder(a, b), rel=1e-6)
    assert rigid_limit_step(b, a, 0.0, QUARTER) == pytest.approx(ladder(a, b), rel=1e-6)


def test_mitre_without_width_is_the_ladder():
    assert rigid_limit(1.0, 0.0, 0.0, QUARTER) == pytest.approx(ladder(1.0, 1.0), rel=1e-8)


@pytest.mark.parametrize("diameter", [0.3, 0.5, 0.7, 0.8, 0.9, 0.99])
def test_equal_bores_make_the_step_a_mitre(diameter):
    assert rigid_limit_step(1.0, 1.0, diameter, QUARTER) == pytest.approx(
        rigid_limit(1.0, diameter, 0.0, QUARTER), rel=1e-6
    )


def test_wide_ladder_through_two_hallways():
    """A board 1 wide through halls 3 and 4: least over its tilt, found by stepping the tilt."""
    tilt = np.linspace(0.01, QUARTER - 0.01, 200001)
    across = (3 - np.cos(tilt)) / np.sin(tilt) + (4 - np.sin(tilt)) / np.cos(tilt)
    assert rigid_limit_step(3.0, 4.0, 1.0, QUARTER) == pytest.approx(across.min(), rel=1e-6)


def test_gentlest_arc_of_the_forum_thread():
    height = chord_height(4.124, 0.0, 6.0, QUARTER)
    assert height / (1 - np.cos(QUARTER / 2)) == pytest.approx(18, rel=0.01)
