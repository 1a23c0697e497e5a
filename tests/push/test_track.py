"""The filter's own promises: replay, undo, late entries, drawing back, counter reset, chances that add up."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from advisor.push.fix import fix_of, named, warned
from advisor.push.sighting import Back, Read, Reset, Seen, Still, Stopped, Water
from advisor.push.track import Belief, Tracker
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


def test_rod_that_goes_in_with_the_picture_still_moves_no_head(tracker):
    before = tracker.replay(DOWN)
    assert tracker.after(before, Still(12.0)) is before


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
    assert back.off_map < lost.off_map


def test_ground_gone_over_again_is_not_missed_again(tracker):
    there = tracker.replay([Seen(3.4, "tie-in", 9.0), Read(9.0)])
    again = tracker.replay([Seen(3.4, "tie-in", 9.0), Read(9.0), Back(1.0), Read(9.0)])
    assert fix_of(tracker, again).best.line == fix_of(tracker, there).best.line == "house drain"
    assert again.off_map < 2 * there.off_map + 0.05


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
    best = named(tracker, belief, "tie-in")[0]
    assert best.landmark.piece.name == "bath line"
    assert best.chance > 0.6
