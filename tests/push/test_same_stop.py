"""A stop that is told twice is one piece of evidence, until the head has moved on or back in between."""

from __future__ import annotations

import numpy as np
import pytest

from advisor.push.log.sighting import Back, Read, Reset, Still, Stopped, Water
from tests.push.sites import UNKNOWN, WALK, tracker_on
from tests.push.test_track import DOWN

ONCE = [*DOWN, Stopped(9.0)]


@pytest.fixture(scope="module")
def tracker():
    return tracker_on(WALK, "floor plug", intent=UNKNOWN)


@pytest.mark.parametrize(
    ("between", "again"),
    [
        ([], 9.0),
        ([Read(9.0)], 9.0),  # tries are told at the reading
        ([Still(10.0)], 10.0),  # rod went in, the head stood
        ([Reset(None, 0.0)], 0.0),
        ([Stopped(9.0)], 9.0),
    ],
)
def test_the_same_stop_told_again_changes_nothing(tracker, between, again):
    once, twice = tracker.replay([*ONCE, *between]), tracker.replay([*ONCE, *between, Stopped(again)])
    assert np.allclose(twice.mass, once.mass, atol=1e-12)
    assert twice.off_map == pytest.approx(once.off_map, abs=1e-12)


def test_water_between_counts_and_the_stop_does_not_count_again(tracker):
    water = Water(9.0, "kitchen sink", 20.0, side="behind")
    once, twice = tracker.replay([*ONCE, water]), tracker.replay([*ONCE, water, Stopped(9.0)])
    assert twice.off_map == pytest.approx(once.off_map, abs=1e-12)
    assert once.off_map != pytest.approx(tracker.replay(ONCE).off_map, abs=1e-6)


@pytest.mark.parametrize("moved", [[Back(8.0), Read(9.0)], [Read(9.5)]])
def test_a_stop_after_the_head_has_moved_is_another_one(tracker, moved):
    """By hand, far from any fitting: 0.03 stops a metre off the map to 0.004 on it, each time anew."""
    before = tracker.replay([*ONCE, *moved])
    after = tracker.after(before, Stopped(before.counter))
    assert after.off_map > 1.5 * before.off_map
