"""Which way each quantity must move: true of the thing itself, whatever formula is used."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from advisor.mechanics.elastica import droop_ratio, post_buckling
from advisor.mechanics.hand import euler_load, largest_hand_distance, safe_stroke
from advisor.mechanics.head import (
    rigid_limit,
    rigid_limit_s,
    rigid_limit_step,
    rigid_limit_u,
    straight_to_bind,
)
from advisor.mechanics.push import (
    Bend,
    Straight,
    march,
    pull_bend,
    pull_out,
    pull_straight,
    push_bend,
    push_straight,
    reach_straight,
)
from advisor.mechanics.rod import chord_height, elastic_radius, stiffness_load, stroke_slack

quick = settings(max_examples=60, deadline=None, derandomize=True)

ROUND = 1 + 1e-6  # rounding, and the search over tilts in the two-bend limit


def number(low, high):
    return st.floats(low, high, allow_nan=False)


BORE, FILL = number(0.04, 0.16), number(0.05, 0.95)
SWEEP = number(0.0, 3.0)  # centreline radius over bore
ANGLE = number(0.1, np.pi / 2)
MORE = number(1.0, 1.5)
FRICTION, FORCE, SLOPE = number(0.05, 0.6), number(1.0, 200.0), number(-np.pi / 2, np.pi / 2)
LENGTH, STIFFNESS, SPACING = number(0.0, 60.0), number(0.2, 20.0), number(0.0, 0.6)


@quick
@given(BORE, FILL, SWEEP, ANGLE, MORE)
def test_more_room_never_jams_a_rigid_head(bore, fill, sweep, angle, more):
    diameter, radius = fill * bore, sweep * bore
    limit = rigid_limit(bore, diameter, radius, angle)
    assert rigid_limit(bore * more, diameter, radius, angle) * ROUND >= limit
    assert rigid_limit(bore, diameter / more, radius, angle) * ROUND >= limit
    assert rigid_limit(bore, diameter, radius, angle / more) * ROUND >= limit
    assert rigid_limit(bore, diameter, radius * more, angle) * ROUND >= limit


@quick
@given(BORE, FILL, SWEEP, ANGLE)
def test_no_bend_shortens_a_head_below_the_crossing_of_the_bore(bore, fill, sweep, angle):
    """A head as long as the chord that turns freely inside the bore itself always passes."""
    free = np.sqrt(bore**2 - (fill * bore) ** 2)
    assert rigid_limit(bore, fill * bore, sweep * bore, angle) * ROUND >= free


@quick
@given(BORE, FILL, SWEEP, ANGLE, number(0.1, 10))
def test_scale_does_not_matter(bore, fill, sweep, angle, scale):
    args = (bore, fill * bore, sweep * bore)
    bigger = tuple(scale * one for one in args)
    assert np.isclose(rigid_limit(*bigger, angle), scale * rigid_limit(*args, angle), rtol=1e-9)
    assert np.isclose(
        straight_to_bind(*bigger, angle), scale * straight_to_bind(*args, angle), rtol=1e-6, atol=1e-9
    )


@quick
@given(BORE, FILL, number(0.5, 3.0), ANGLE, SPACING, MORE)
def test_two_bends_are_between_one_and_both_at_once(bore, fill, sweep, angle, spacing, more):
    args = (bore, fill * bore, sweep * bore)
    near = rigid_limit_u(*args, angle, spacing)
    assert near <= rigid_limit(*args, angle)
    assert near * 1.0005 >= rigid_limit(*args, 2 * angle)
    assert rigid_limit_u(*args, angle, spacing * more) * 1.0005 >= near


@quick
@given(BORE, FILL, number(0.5, 3.0), ANGLE)
def test_enough_straight_makes_two_bends_one(bore, fill, sweep, angle):
    args = (bore, fill * bore, sweep * bore, angle)
    needed = straight_to_bind(*args)
    assert np.isclose(rigid_limit_u(*args, needed * 1.25 + 1e-9), rigid_limit(*args), rtol=1e-6)


@quick
@given(BORE, FILL, SWEEP, ANGLE, SPACING)
def test_opposite_bends_are_never_harder_than_one(bore, fill, sweep, angle, spacing):
    args = (bore, fill * bore, sweep * bore, angle)
    assert rigid_limit_s(*args, spacing) >= rigid_limit(*args)


@quick
@given(BORE, BORE, FILL, ANGLE, MORE)
def test_wider_step_never_jams(one, other, fill, angle, more):
    diameter = fill * min(one, other)
    limit = rigid_limit_step(one, other, diameter, angle)
    assert limit * ROUND >= rigid_limit(min(one, other), diameter, 0.0, angle)
    assert rigid_limit_step(one, other, diameter / more, angle) * ROUND >= limit


@quick
@given(BORE, SWEEP, ANGLE, MORE)
def test_rod_is_eased_by_room_and_by_gentle_bends(bore, sweep, angle, more):
    rod, radius = 0.006, sweep * bore
    height = chord_height(bore, rod, radius, angle)
    assert chord_height(bore * more, rod, radius, angle) >= height / ROUND
    assert chord_height(bore, rod, radius * more, angle) >= height / ROUND
    load = stiffness_load(2.4, bore, rod, radius, angle)
    assert stiffness_load(2.4, bore * more, rod, radius, angle) <= load * ROUND
    assert stiffness_load(2.4 * more, bore, rod, radius, angle) * ROUND >= load
    sharpest = elastic_radius(bore, rod, radius, angle)
    assert elastic_radius(bore, rod, radius, angle / more) * ROUND >= sharpest
    assert stroke_slack(bore * more, rod, angle) >= stroke_slack(bore, rod, angle)


def rod_in(friction, slope, stiffness):
    return {
        "friction": friction,
        "weight": 0.68,
        "slope": slope,
        "stiffness": stiffness,
        "clearance": 0.0355,
        "helical_factor": 2.83,
    }


@quick
@given(FORCE, LENGTH, FRICTION, SLOPE, STIFFNESS, MORE)
def test_straight_run(force, length, friction, slope, stiffness, more):
    run = rod_in(friction, slope, stiffness)
    left = push_straight(force, length, **run)
    slack = 1e-6 * (1 + abs(left))
    assert push_straight(force * more, length, **run) >= left - slack
    assert push_straight(force, length, **rod_in(friction * more, slope, stiffness)) <= left + slack
    assert push_straight(force, length, **rod_in(friction, slope, stiffness * more)) >= left - slack
    # Downhill its own weight pushes the rod, until it coils and rubs: here it is one that never coils.
    # Uphill, leaning further from the level also takes weight off the wall; upright there is no wall.
    steep, flat = (
        rod_in(friction, lean, stiffness) | {"helical_factor": 1e9} for lean in (slope, slope - 0.05)
    )
    never = push_straight(force, length, **steep)
    assert not 0 <= slope <= 1.4 or push_straight(force, length, **flat) <= never + 1e-6 * (1 + abs(never))


@quick
@given(FORCE, LENGTH, LENGTH, FRICTION, SLOPE, STIFFNESS)
def test_two_runs_are_one(force, first, second, friction, slope, stiffness):
    run = rod_in(friction, slope, stiffness)
    halfway = push_straight(force, first, **run)
    left = push_straight(force, first + second, **run)
    assert np.isclose(push_straight(halfway, second, **run), left, rtol=1e-6, atol=1e-6)


@quick
@given(FORCE, number(0.0, 100.0), FRICTION, SLOPE, STIFFNESS, MORE)
def test_reach_is_the_inverse_and_shrinks_with_friction(force, end, friction, slope, stiffness, more):
    run = rod_in(friction, slope, stiffness)
    reach = reach_straight(force, end, **run)
    harder = reach_straight(force, end, **rod_in(friction * more, slope, stiffness))
    assert harder <= reach * ROUND
    if 0 < reach < 1e4:
        assert np.isclose(push_straight(force, reach, **run), end, rtol=1e-4, atol=1e-3)


@quick
@given(number(-100.0, 200.0), FRICTION, ANGLE, number(0.0, 150.0), MORE)
def test_bend(force, friction, angle, load, more):
    left = push_bend(force, friction, angle, load)
    assert left <= force
    assert push_bend(force, friction * more, angle, load) <= left + 1e-9
    assert push_bend(force, friction, angle, load * more) <= left + 1e-9


@quick
@given(FORCE, FRICTION, ANGLE, number(0.0, 150.0), LENGTH, MORE)
def test_pull_grows_with_all_that_hinders(tension, friction, angle, load, length, more):
    assert pull_bend(tension, friction, angle, load) >= tension
    bend, harder = pull_bend(tension, friction, angle, load), friction * more
    assert pull_bend(tension, harder, angle, load) * ROUND >= bend
    assert pull_bend(tension, friction, angle, load * more) * ROUND >= bend
    run = pull_straight(tension, length, friction, 0.68, 0.1)
    assert pull_straight(tension, length, harder, 0.68, 0.1) * ROUND >= run
    segments = [Straight(length, friction, 0.68, 0.0, 2.4, 0.03, 2.83), Bend(friction, angle, load)]
    longer = [segments[0]._replace(length=length * more), segments[1]]
    assert pull_out(tension, longer) * ROUND >= pull_out(tension, segments)
    assert march(tension, longer)[-1] <= march(tension, segments)[-1] + 1e-9


@quick
@given(STIFFNESS, FORCE, MORE, number(0.1, 1.0))
def test_stiffer_rod_may_be_held_further_off(stiffness, force, more, length):
    distance = largest_hand_distance(stiffness, force, 1.0, 1.5)
    assert largest_hand_distance(stiffness * more, force, 1.0, 1.5) * ROUND >= distance
    assert largest_hand_distance(stiffness, force * more, 1.0, 1.5) <= distance * ROUND
    assert euler_load(stiffness, length * more, 1.0) <= euler_load(stiffness, length, 1.0) * ROUND


@quick
@given(number(0.02, 3.0), number(0.1, 0.5), MORE)
def test_stroke_grows_with_free_length_and_shrinks_with_a_stiff_radius(length, radius, more):
    stroke = safe_stroke(length, radius)
    assert 0 <= stroke <= length * ROUND
    assert safe_stroke(length * more, radius) * ROUND >= stroke
    assert safe_stroke(length, radius * more) <= stroke * ROUND


@quick
@given(number(0.0, 0.95), number(0.0, 0.04))
def test_deeper_fold_takes_more_push_and_brings_the_ends_together(parameter, step):
    load, chord, curvature = post_buckling(parameter)
    load_next, chord_next, curvature_next = post_buckling(parameter + step)
    assert load_next >= load / ROUND
    assert chord_next <= chord + 1e-12
    assert curvature_next >= curvature / ROUND


@settings(quick, max_examples=15)
@given(number(0.01, 60.0), MORE)
def test_heavier_rod_droops_more(load, more):
    both = droop_ratio(np.array([load, load * more]))
    assert both[1] >= both[0] - 1e-9
