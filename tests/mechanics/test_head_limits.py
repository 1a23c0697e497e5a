"""What the rigid head must do at the ends of its range, whatever the formulas."""

from __future__ import annotations

import numpy as np
import pytest

from advisor.mechanics.head import (
    rigid_limit,
    rigid_limit_s,
    rigid_limit_step,
    rigid_limit_u,
    straight_to_bind,
)

QUARTER = np.pi / 2


def test_straight_pipe_passes_any_length():
    assert rigid_limit(0.1, 0.05, 0.1, 0.0) == np.inf
    assert rigid_limit_u(0.1, 0.05, 0.1, 0.0, 0.2) == np.inf
    assert rigid_limit_s(0.1, 0.05, 0.1, 0.0, 0.2) == np.inf
    assert rigid_limit_step(0.1, 0.08, 0.05, 0.0) == np.inf
    assert straight_to_bind(0.1, 0.05, 0.1, 0.0) == np.inf


@pytest.mark.parametrize("diameter", [0.1, 0.12])
def test_head_as_wide_as_the_bore_never_passes(diameter):
    assert rigid_limit(0.1, diameter, 0.1, QUARTER) == 0
    assert rigid_limit(0.1, diameter, 0.0, QUARTER) == 0
    assert rigid_limit(0.1, diameter, 0.1, 0.0) == 0
    assert rigid_limit_u(0.1, diameter, 0.1, QUARTER, 0.1) == 0
    assert rigid_limit_s(0.1, diameter, 0.1, QUARTER, 0.1) == 0
    assert rigid_limit_step(0.12, 0.1, diameter, QUARTER) == 0
    assert straight_to_bind(0.1, diameter, 0.1, QUARTER) == 0


def test_long_sweep_binds_inside_the_curve():
    """Between concentric walls the longest head is a chord touching the inner one."""
    chord = 2 * np.sqrt(1.05**2 - (0.95 + 0.04) ** 2)
    assert rigid_limit(0.1, 0.04, 1.0, QUARTER) == pytest.approx(chord, rel=1e-12)
    assert straight_to_bind(0.1, 0.04, 1.0, QUARTER) == 0


@pytest.mark.parametrize("diameter", [0.02, 0.06, 0.08, 0.095])
def test_no_jump_where_the_inner_corner_turns_sharp(diameter):
    above = rigid_limit(0.1, diameter, 0.05 + 1e-9, QUARTER)
    below = rigid_limit(0.1, diameter, 0.05 - 1e-9, QUARTER)
    assert above == pytest.approx(below, rel=1e-5)


@pytest.mark.parametrize("angle", [np.radians(22.5), np.radians(45), QUARTER])
@pytest.mark.parametrize("diameter", [0.02, 0.05, 0.09])
def test_far_apart_two_bends_are_one_and_at_no_distance_twice_the_angle(angle, diameter):
    for radius in (0.1, 0.03, 0.0):
        one = rigid_limit(0.1, diameter, radius, angle)
        assert rigid_limit_u(0.1, diameter, radius, angle, 1.5) == pytest.approx(one, rel=1e-12)
    twice = rigid_limit(0.1, diameter, 0.1, 2 * angle)
    assert rigid_limit_u(0.1, diameter, 0.1, angle, 0.0) == pytest.approx(twice, rel=2e-4)


def test_between_bends_the_head_lies_along_the_inner_wall():
    """Over both inner walls at once: the spacing and, at each end, the way to the outer wall."""
    # two 30 degree bends, ends in the straights beyond: outer wall tilted by 30 degrees
    a, r, radius, angle, spacing = 0.05, 0.02, 0.06, np.pi / 6, 0.1
    end = (radius + a - r * np.cos(angle) - (radius - a + r) * np.cos(angle)) / np.sin(angle)
    assert rigid_limit_u(2 * a, 2 * r, radius, angle, spacing) <= spacing + 2 * end + 1e-12


def test_opposite_bends_out_of_sight_are_one_bend():
    assert rigid_limit_s(0.1, 0.05, 0.1, QUARTER, 0.2) == rigid_limit(0.1, 0.05, 0.1, QUARTER)


def test_opposite_bends_in_sight_pass_any_length():
    """Two 10 degree bends 0.1 m apart shift the pipe by 0.020 m; a slim head sees through."""
    assert rigid_limit_s(0.1, 0.07, 0.1, np.radians(10), 0.1) == np.inf
    assert rigid_limit_s(0.1, 0.09, 0.1, np.radians(10), 0.1) < np.inf


@pytest.mark.parametrize(("radius", "spacing"), [(0.2, 0.0), (0.0, 0.06), (0.1, 0.03)])
def test_line_of_sight_is_what_the_sideways_shift_leaves_open(radius, spacing):
    """The shift is added up from small steps along the centreline."""
    turn = np.radians(20)
    heading = (np.arange(20000) + 0.5) / 20000 * turn
    shift = 2 * radius * turn * np.sin(heading).mean() + spacing * np.sin(turn)
    assert rigid_limit_s(0.1, 0.1 - 1.01 * shift, radius, turn, spacing) == np.inf
    assert rigid_limit_s(0.1, 0.1 - 0.99 * shift, radius, turn, spacing) < np.inf


def test_wide_step_is_never_worse_than_its_smaller_mitre():
    for diameter in (0.3, 0.7, 0.9, 0.99):
        step = rigid_limit_step(1.0, 1.5, diameter, QUARTER)
        assert step >= rigid_limit(1.0, diameter, 0.0, QUARTER)
        assert step == pytest.approx(rigid_limit_step(1.5, 1.0, diameter, QUARTER), rel=1e-6)


@pytest.mark.parametrize("bores", [(1.0, 1.0), (1.0, 1.5), (1.5, 1.0), (1.0, 2.5)])
@pytest.mark.parametrize("angle", [np.radians(45), QUARTER, np.radians(135), 2.65])
def test_round_a_corner_of_two_bores_the_length_falls_without_a_jump(bores, angle):
    """A hair more of head is a hair less of length, also where its rim begins to touch beside the plane."""
    heads = np.linspace(0.02, 0.985, 400)
    lengths = rigid_limit_step(*bores, heads, angle)
    assert (lengths > 0).all()
    assert (np.diff(lengths) < 1e-9).all()
    assert (np.diff(lengths) > -0.06).all()


@pytest.mark.parametrize("kind", [np.float64, np.float32])
def test_round_a_corner_newton_finds_the_least_of_a_dense_grid(kind):
    luck = np.random.default_rng(5)
    one, other = luck.uniform(0.03, 0.2, (2, 400))
    angle = luck.uniform(0.1, 2.65, 400)
    head = np.minimum(one, other) * luck.uniform(0.05, 0.98, 400)
    lean = angle * np.linspace(0.002, 0.998, 4000)[:, None]
    rest = angle - lean
    both = (one - head * np.cos(lean)) / np.sin(lean) + (other - head * np.cos(rest)) / np.sin(rest)
    mitre = rigid_limit((one + other) / 2, head, 0 * head, angle)
    found = rigid_limit_step(*(each.astype(kind) for each in (one, other, head, angle)))
    assert found == pytest.approx(
        np.minimum(both.min(axis=0), mitre), rel=2e-3 if kind is np.float32 else 2e-5
    )


def test_worlds_broadcast_and_keep_single_precision():
    bore = np.linspace(0.07, 0.1, 5, dtype=np.float32)
    radius = np.array([[0.0], [0.04], [0.1]], dtype=np.float32)
    for found in (
        rigid_limit(bore, 0.04, radius, 1.5),
        straight_to_bind(bore, 0.04, radius, 1.5),
        rigid_limit_u(bore, 0.04, radius, 0.7, 0.1),
        rigid_limit_s(bore, 0.04, radius, 0.7, 0.1),
        rigid_limit_step(bore, radius + 0.06, 0.04, 1.5),
    ):
        assert found.shape == (3, 5)
        assert found.dtype == np.float32
    exact = rigid_limit(bore.astype(float), 0.04, radius.astype(float), 1.5)
    np.testing.assert_allclose(rigid_limit(bore, 0.04, radius, 1.5), exact, rtol=1e-4)


@pytest.mark.parametrize("diameter", [0.04, 0.09])
def test_sharp_and_smooth_bends_side_by_side_are_what_each_is_alone(diameter):
    radii = np.array([0.0, 0.02, 0.049, 0.051, 0.1, 0.5])
    alone = [rigid_limit(0.1, diameter, radius, QUARTER) for radius in radii]
    np.testing.assert_allclose(rigid_limit(0.1, diameter, radii, QUARTER), alone, rtol=1e-9)
