"""The filter's own promises: replay, undo, late entries, drawing back, counter reset, chances that add up."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from advisor.push.log.sighting import Back, Read, Reset, Seen, Still, Stopped, Water
from advisor.push.track.fix import fix_of, named, warned
from advisor.push.track.track import Belief, Tracker
from advisor.push.track.ways import Intent
from tests.push.sites import UNKNOWN, WALK, tracker_on

DOWN = [Seen(3.4, "tie-in", 9.0), Read(5.0), Seen(7.4, "tie-in", 3.0)]


@pytest.fixture(scope="module")
def tracker() -> Tracker:
    return tracker_on(WALK, "floor plug", intent=UNKNOWN)


def total(belief: Belief) -> float:
    return float(belief.mass.sum()) + belief.off_map


kinds = st.sampled_from(["tie-in", "bend", "bore", "material", "two mouths"])
sightings = st.one_of(
    st.builds(Read, st.floats(0, 30)),
    st.builds(Seen, st.floats(0, 30), kinds, st.none() | st.floats(1, 12)),
    st.builds(
        Water,
        st.floats(0, 30),
        st.sampled_from(["kitchen sink", "bath", "laundry tub"]),
        st.none() | st.floats(0, 120),
        side=st.none() | st.sampled_from(["ahead", "behind"]),
        dye=st.booleans(),
    ),
    st.builds(Stopped, st.floats(0, 30)),
    st.builds(Still, st.floats(0, 30)),
    st.builds(Back, st.floats(0, 30)),
    st.builds(Reset, st.none() | st.floats(0, 30), st.floats(0, 30)),
)


@settings(max_examples=60, deadline=None)
@given(st.lists(sightings, max_size=8))
def test_chances_always_add_up(told):
    tracker = tracker_on(WALK, "floor plug", intent=UNKNOWN)
    belief = tracker.replay(told)
    assert total(belief) == pytest.approx(1.0, abs=1e-9)
    assert (belief.mass >= 0).all()
    fix = fix_of(tracker, belief)
    assert fix.places
    assert fix.best.chance <= 0.99


def test_undone_and_told_again_is_the_same_to_the_bit(tracker):
    once = tracker.replay([*DOWN, Stopped(9.0)])
    undone = tracker.replay(DOWN)
    again = tracker.after(undone, Stopped(9.0))
    assert np.array_equal(once.mass, again.mass)
    assert [g.total for g in once.gone] == [g.total for g in again.gone]


def test_a_sighting_leaves_the_state_before_it_alone(tracker):
    before = tracker.replay(DOWN)
    kept = before.mass.copy()
    tracker.after(before, Seen(9.9, "two mouths"))
    assert np.array_equal(before.mass, kept)


def test_a_reading_told_with_its_sighting_or_before_it_is_one(tracker):
    apart = tracker.replay([Read(3.4), Seen(3.4, "tie-in", 9.0)])
    at_once = tracker.replay([Seen(3.4, "tie-in", 9.0)])
    here, there = fix_of(tracker, apart).best, fix_of(tracker, at_once).best
    assert (here.line, here.with_flow) == (there.line, there.with_flow)
    assert here.at == pytest.approx(there.at, abs=0.2)


def test_a_counter_set_anew_changes_nothing_but_the_reading(tracker):
    plain = tracker.replay([*DOWN, Seen(9.9, "two mouths")])
    anew = tracker.replay([*DOWN, Reset(None, 0.0), Seen(2.5, "two mouths")])
    assert anew.mass == pytest.approx(plain.mass, abs=1e-12)


@pytest.mark.parametrize("far", [1e4, -1e4, -1e12])
def test_a_counter_beyond_every_pipe_is_as_one_just_beyond(tracker, far):
    """No counter takes the memory; past the farthest end all are past it."""
    near = math.copysign(2 * tracker.chart.cells * tracker.chart.cell, far)
    told = [tracker.after(tracker.start(0.0), Read(each)) for each in (near, far)]
    assert total(told[1]) == pytest.approx(1)
    assert np.allclose(told[0].mass / told[0].mass.sum(), told[1].mass / told[1].mass.sum(), atol=1e-6)


def test_rod_that_goes_in_with_the_picture_still_moves_no_head(tracker):
    """12.0 m are told with the picture standing since 7.4 m: 4.6 m lie loose in the pipe."""
    before = tracker.replay(DOWN)
    still = tracker.after(before, Still(12.0))
    assert np.array_equal(still.mass, before.mass)
    assert still.counter == pytest.approx(12.0)
    assert np.array_equal(tracker.after(still, Back(8.0)).mass, before.mass)  # loose rod comes out first
    further = tracker.after(still, Read(13.0))
    assert np.array_equal(further.mass, tracker.after(before, Read(8.4)).mass)
    out = tracker.replay([*DOWN, Still(12.0), Back(6.4)])
    assert np.array_equal(out.mass, tracker.replay([*DOWN, Back(6.4)]).mass)


def test_drawn_back_the_head_is_nearer(tracker):
    belief = tracker.replay([*DOWN, Back(4.0)])
    best = fix_of(tracker, belief).best
    # By hand: 0.4 m of riser, the opening lies 7 m down the line; 4.0 m of rod out is 10.6 m.
    assert best.line == "house drain"
    assert best.at == pytest.approx(10.6, abs=0.4)


def test_drawn_back_behind_a_fork_it_may_take_the_other_way(tracker):
    # Sure to be up the laundry line, then drawn back to the opening's side of the fork and pushed anew.
    up = [Water(2.0, "laundry tub", 9.0, side="ahead"), Seen(4.5, "bend"), Seen(4.6, "bore", size=0.05)]
    inside = tracker.replay([*up, Read(6.5)])
    assert fix_of(tracker, inside).best.line == "laundry line"
    again = tracker.replay([*up, Read(6.5), Back(2.0), Read(6.5)])
    best = fix_of(tracker, again).best
    assert (best.line, best.with_flow) == ("house drain", False)


def test_what_left_the_map_comes_back_when_it_is_drawn_back(tracker):
    dry = [Water(None, name, None) for name in ("kitchen sink", "bath")]
    lost = tracker.replay([Water(2.0, "laundry tub", None), Seen(3.4, "tie-in", 9.0), Read(12.0), *dry])
    back = tracker.after(lost, Back(1.0))
    returned = sum(gone.total for gone in lost.gone if gone.rod > 1.0)
    assert returned > 0.01
    assert back.off_map == pytest.approx(lost.off_map - returned, abs=1e-9)


def test_a_trap_that_surely_stops_is_passed_by_no_certainty():
    """A plan that holds a trap to be impassable leaves a small chance that it is not there."""
    trapped = WALK.replace("      - pipe: 12 m\n", "      - trap: house trap\n      - pipe: 12 m\n")
    trap = "house drain/stopper:house trap"
    told = Intent(ports=("down",), sticks={(trap, "up", "down"): 1.0})
    belief = tracker_on(trapped, "floor plug", intent=told).replay([*DOWN, Read(20.0)])
    assert total(belief) == pytest.approx(1.0)
    assert np.isfinite(belief.mass).all()


def test_a_closed_end_is_not_passed(tracker):
    """By hand: up the drain the cap lies 7.4 m in, so 12 m of rod went down, though less was logged there.

    Unlogged up: one tie-in and a closed end, 0.3 x 0.02; down: two tie-ins and two mouths, 0.3 x 0.3 x 0.2.
    That is one to three, where without the end it would be seventeen to one.
    """
    fix = fix_of(tracker, tracker.replay([Read(4.0), Read(12.0)]))
    assert fix.downstream > 0.7


def test_ground_gone_over_again_is_not_missed_again(tracker):
    """Drawn back before the kitchen fork and pushed past the bath fork anew, the fork's own odds stand again.

    By hand 0.005 to 0.995 that it turned back up the wye of the kitchen line (where.yaml). Had the
    bath tie-in, which only the drain passes, counted as missed, they would be more than three times that.
    """
    belief = tracker.replay([Seen(3.4, "tie-in", 9.0), Read(7.9), Back(1.0), Read(7.9)])
    by_way = belief.mass.sum(axis=(0, 2))
    ends = [way.legs[-1].line for way in tracker.chart.ways]
    kitchen = by_way[ends.index("kitchen line")]
    drain = by_way[ends.index("public sewer")] + by_way[ends.index("bath line")]
    assert 0.7 * 0.005 / 0.995 < kitchen / drain < 1.3 * 0.005 / 0.995


def test_dry_tests_and_strange_sights_tell_of_a_pipe_that_is_not_drawn(tracker):
    told = [
        Water(1.5, "kitchen sink", None),
        Water(1.5, "bath", None),
        Water(1.5, "laundry tub", None),
        Seen(2.0, "bend"),
        Seen(2.9, "bend"),
        Seen(5.6, "tie-in", 12.0),
        Water(8.5, "kitchen sink", None),
        Water(8.5, "laundry tub", None),
    ]
    assert warned(tracker, fix_of(tracker, tracker.replay(told)))
    assert not warned(tracker, fix_of(tracker, tracker.replay(DOWN)))


def test_a_landmark_is_named(tracker):
    belief = tracker.replay([Water(2.0, "laundry tub", None), *DOWN])
    best = named(tracker, belief, DOWN[-1])[0]
    assert best.landmark.piece.name == "bath line"
    assert best.chance > 0.6
