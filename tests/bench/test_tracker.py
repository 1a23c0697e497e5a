"""The tracker against its simulator, a small batch; `python -m tests.bench.tracker` gives the figures.

The bounds are those that the project set itself before the first run: the right pipe from fork to fork, or
within half a metre of it, in 85 of 100 pushes after three sightings and 93 after six, 75 after six on a poor
map; a pipe that is not on the map told in 60 of 100, falsely in at most 10 on a good map.
"""

from __future__ import annotations

import numpy as np
import pytest

from tests.bench.tracker.run import Tally, network_tally
from tests.cases.jobs import tables

NETWORKS, PUSHES = range(101, 105), 20  # others than those of the figures


def batch(poor: bool, lost: bool) -> Tally:
    tally = Tally()
    for seed in NETWORKS:
        tally.add(network_tally(seed, PUSHES, poor, lost, tables()))
    return tally


@pytest.mark.parametrize(
    ("poor", "after_three", "after_six"),
    [(False, 0.85, 0.93), pytest.param(True, 0.0, 0.75, marks=pytest.mark.slow)],
)
def test_it_is_where_it_is_said_to_be(poor, after_three, after_six):
    tally = batch(poor, lost=False)
    assert np.mean(tally.right[3]) >= after_three
    assert np.mean(tally.right[6]) >= after_six
    assert np.mean(tally.right[6]) > np.mean(tally.counter[6]) + 0.2
    if not poor:
        assert np.mean(tally.alarms) <= 0.10


@pytest.mark.slow
def test_a_pipe_that_is_not_on_the_map_is_told():
    assert np.mean(batch(poor=False, lost=True).flagged) >= 0.60
