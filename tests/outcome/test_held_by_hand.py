"""What holds a head at a spot: each cause by its own name, and all of them together what does not pass."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest

from advisor.outcome.held import held_by
from advisor.outcome.steady import Steady


def spot():
    """Four worlds of a bend: in 1 the head is wider than the bore (so no length of it turns either), in 2 it
    fits and is too long, in 3 it fits and turns, in 4 it is wider than the bore and short enough to turn."""

    def row(*values: float):
        return np.array(values, np.float32)

    shape = SimpleNamespace(
        fits=row(0.9, 1.2, 1.2, 0.9),
        rigid=row(0.0, 0.8, 2.0, 2.0),
        ledge=np.inf,
        gap=np.inf,
        turn=SimpleNamespace(way="bend", bends=True),
    )
    # What cannot be is counted under the far wall by the planner.
    zero = row(0, 0, 0, 0)
    plain = Steady(row(0, 0, 0.6, 0), zero, zero, row(1, 1, 0, 1), row(0, 0, 0.4, 0), zero, zero)
    return SimpleNamespace(shape=shape, plain=plain)


def test_a_head_that_does_not_fit_is_no_head_that_jams():
    """By hand: 1 and 4 are held by the bore, 2 jams, 3 is held by its rod end in four of ten."""
    held = held_by(spot())
    assert held["bore"].tolist() == [1, 0, 0, 1]
    assert held["jams"].tolist() == [0, 1, 0, 0]
    assert held["rod_end"].tolist() == pytest.approx([0, 0, 0.4, 0])
    assert held["far_wall"].tolist() == [0, 0, 0, 0]
    assert held["ledge"].tolist() == [0, 0, 0, 0]


def test_every_cause_together_is_what_does_not_pass():
    held = held_by(spot())
    assert np.sum(list(held.values()), axis=0).tolist() == pytest.approx([1, 1, 0.4, 1])
