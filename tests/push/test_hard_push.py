"""A hard try where it said stop: what it risks by the book, told with a figure only where there is one."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from advisor.push.held.all_the_same import hard_all_the_same
from advisor.push.held.stuck import Stuck, stuck
from tests.push.test_stuck import course, met

TECHNIQUE = "quick push"


def stopped_with(wedge: float, kink: float, spot: str | None = None) -> str:
    """The remark where every such try wedges and kinks as often, held at the tee with scale before it."""
    of, at = course(), met(course())
    found: Stuck = stuck(of, at, frozenset({"blocked", "gritty"}), (), 2.0, ())
    attempt = at.hard.tries[TECHNIQUE]
    bad = replace(attempt, wedge=np.full_like(attempt.wedge, wedge), kink=np.full_like(attempt.kink, kink))
    kept = dict(at.hard.tries)
    try:
        at.hard.tries[TECHNIQUE] = bad  # type: ignore[index]
        return hard_all_the_same(of, found if spot is None else replace(found, spot=spot), TECHNIQUE)
    finally:
        at.hard.tries.update(kept)  # type: ignore[attr-defined]


def test_the_share_that_wedges_or_kinks_is_told():
    """By hand: 1 - 0.8 x 0.9 = 0.28."""
    assert "By the book 28% of the tries that fail there wedge or kink." in stopped_with(0.2, 0.1)


@pytest.mark.parametrize(("harm", "spot"), [(0.0, None), (0.2, "")])
def test_without_a_figure_the_reason_stands_alone(harm, spot):
    """None worked out, or no hard place there: nought would make light of it."""
    said = stopped_with(harm, 0.0, spot)
    assert said.startswith("Pushed hard where it said stop. A blow wedges it in what narrows the bore.")
    assert "By the book" not in said
