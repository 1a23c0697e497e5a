"""Tip, rod end and string against values worked by hand and limits that hold for any numbers."""

from __future__ import annotations

import sys
from dataclasses import fields, replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.special import expit

sys.path.insert(0, str(Path(__file__).parents[1] / "outside"))
import engine_rows as er

from advisor.mechanics import junction, technique, tip
from advisor.mechanics.junction_case import JunctionKind, Lie, Push
from advisor.mechanics.junction_constants import JunctionConstants
from advisor.mechanics.rod import stroke_slack

C = er.constants()
PUSH = Push(
    force=80.0, friction=0.35, rod_stiffness=0.4, rod_diameter=0.004, spring_stiffness=0.02,
    spring_length=0.12, head_length=0.045, head_diameter=0.03, curl=1.0, bore_branch=0.077,
    bore_main=0.102,
)  # fmt: skip
ALL = [(kind, lie) for kind in JunctionKind for lie in Lie]
ENDS = ("passes", "wrong_way", "folded", "head_stuck", "rod_end_stuck", "crossed_over")


def test_table_holds_each_constant_and_nothing_else() -> None:
    entries = er.table()
    assert set(entries) == {f.name for f in fields(JunctionConstants)}
    for name, entry in entries.items():
        assert set(entry) == {"value", "low", "high", "unit", "grade", "source", "note"}, name
        assert entry["low"] <= entry["value"] <= entry["high"], name


@pytest.mark.parametrize("logit", [-800.0, -3.0, 0.0, 0.7, 800.0])
def test_logistic_is_expit(logit: float) -> None:
    assert tip.logistic(logit) == pytest.approx(expit(logit), abs=1e-12)


# Largest angle seen to slide with a firm spring, degrees: our own pushes in a 3-D engine.
@pytest.mark.parametrize(
    ("friction", "flat", "seen"),
    [(0.2, False, 75.5), (0.35, False, 69.5), (0.2, True, 72.5), (0.35, True, 68.0)],
)
def test_slide_angle_at_common_friction(friction: float, flat: bool, seen: float) -> None:
    assert np.degrees(tip.slide_angle(friction, flat, C)) == pytest.approx(seen, abs=2.5)


def test_slide_angle_is_cautious_on_a_rough_wall() -> None:
    # Seen to slide: 68 degrees round, 60 flat, at friction 0.6, with some help from spring flex.
    assert np.degrees(tip.slide_angle(0.6, False, C)) < 68
    assert np.degrees(tip.slide_angle(0.6, True, C)) < 60


def test_spring_column_load_by_hand() -> None:
    # pi^2 x 0.05 / (0.7 x 0.1)^2 = 0.49348 / 0.0049 = 100.71 N, Euler fixed and pinned.
    assert tip.spring_column_load(0.05, 0.1, C) == pytest.approx(100.71, abs=0.01)


def test_rod_end_number_by_hand() -> None:
    # Tee of two 77 mm bores, 5 mm rod: H = 72 mm; 80 x 0.072^2 / (0.35 x 1) = 1.1849.
    height = junction.tee_height(0.077, 0.077, 0.005)
    assert height == pytest.approx(0.072)
    assert junction.rod_end_number(80.0, height, 0.35, 1.0) == pytest.approx(1.1849, abs=1e-4)


# Read off the engine's tees into stacks and bends: passes at a number of 2, or at 0.9 with a
# spring of 0.03 of the rod's stiffness or more (90 % of 413 pushes).
@pytest.mark.parametrize(("number", "ratio", "good"), [
    (2.2, 0.001, True), (1.7, 0.001, False), (1.1, 0.3, True), (0.8, 0.3, False),
    (1.2, 0.01, False),
])  # fmt: skip
def test_rod_end_margin_holds_the_step_rule(number: float, ratio: float, good: bool) -> None:
    margin = junction.rod_end_margin(number, 1.0, 1.0, 1.0, ratio, C)
    assert (margin > 1.0) == good


def test_string_pulls_worked_by_hand() -> None:
    # 60 N, friction 0.25, knot 12 mm off axis, spring 0.1 m of 0.02 N m2: after 0, 2, 4, 6
    # quarter bends T = 60 e^(-0.25 n pi/2) = 60, 27.36, 12.47, 5.687 N; angle = 0.06 T rad.
    bends = np.array([0, 2, 4, 6])
    tension = technique.string_tip_tension(60.0, 0.25, bends * np.pi / 2)
    assert tension == pytest.approx([60, 27.36, 12.47, 5.687], rel=1e-3)
    angle = technique.string_turn_angle(tension, 0.012, 0.1, 0.02)
    assert angle == pytest.approx([3.6, 1.64, 0.75, 0.34], abs=0.01)
    assert technique.string_tension_for_turn(angle, 0.012, 0.1, 0.02) == pytest.approx(tension)


def test_string_window() -> None:
    # In the window 25 of 26 passed, at 0.06 rad half, above 0.36 a third, above 0.48 none.
    assert technique.string_chance(0.2, C) == pytest.approx(25 / 26, abs=0.01)
    assert technique.string_chance(0.06, C) == pytest.approx(0.5, abs=0.01)
    assert technique.string_chance(0.36, C) == pytest.approx(1 / 3, abs=0.01)
    assert technique.string_chance(0.6, C) == 0.0


def test_stroke_through_worked_bends() -> None:
    # 0.3 m of stroke, 6 mm rod, quarter bends of 77 mm: 0.30, 0.19, 0.08 and 0 m arrive.
    slack = np.arange(4) * stroke_slack(0.077, 0.006, np.pi / 2)
    left = technique.stroke_left(0.3, slack)
    assert left == pytest.approx([0.30, 0.19, 0.08, 0.0], abs=0.005)


def test_quick_push_logit_by_hand() -> None:
    # B/EI 0.1, equal bores, friction 0.35: 9.2 - 1.4 - 2.4 - 3.605 = 1.795.
    assert technique.quick_push_logit(0.1, 1.0, 0.35, 0, C) == pytest.approx(1.795, abs=1e-3)


def test_repeats_lie_between_one_try_and_free_tries() -> None:
    one = np.linspace(0.0, 1.0, 11)
    three = technique.repeated_chance(one, 3, C)
    assert np.all(three >= one - 2e-6)
    assert np.all(three <= 1 - (1 - one) ** 3 + 1e-6)
    assert technique.repeated_chance(one, 1, C) == pytest.approx(one, abs=2e-6)


def test_each_remedy_is_ordered_by_what_was_seen() -> None:
    # Engine rates: gentle 4 %, slow 14 %, quick 45 %, three quick 55 %.
    order = ("GENTLE_QUARTER_TURN", "HARD_SLOW_PUSH", "THREE_QUICK_PUSHES")
    chances = [technique.remedy_chance(technique.Remedy[name], 0.0, C) for name in order]
    chances.insert(2, technique.quick_push_chance(0.0, 1.5, C))
    assert chances == sorted(chances)
    assert len(set(map(float, chances))) == 4


@pytest.mark.parametrize(("kind", "lie"), ALL)
def test_chances_add_up(kind: JunctionKind, lie: Lie) -> None:
    got = junction.steady_push(kind, lie, PUSH, C)
    ends = [float(getattr(got, name)) for name in ENDS]
    assert sum(ends) == pytest.approx(1.0)
    assert min(ends) >= 0.0
    assert (ends[-1] > 0) == (kind is JunctionKind.DOUBLE_SANITARY_TEE)


@pytest.mark.parametrize(("kind", "lie"), ALL)
@settings(max_examples=15, deadline=None)
@given(
    force=st.floats(0.0, 300.0),
    friction=st.floats(0.1, 0.8),
    stiffness=st.floats(0.05, 10.0),
    factor=st.floats(1.01, 3.0),
)
def test_one_way(
    kind: JunctionKind, lie: Lie, force: float, friction: float, stiffness: float, factor: float
) -> None:
    """More friction or a stiffer rod never helps; more push never hurts."""
    push = replace(PUSH, force=force, friction=friction, rod_stiffness=stiffness)

    def passes(changed: Push) -> float:
        return float(junction.steady_push(kind, lie, changed, C).passes)

    base = passes(push)
    assert np.isfinite(base)
    assert passes(replace(push, friction=friction * factor)) <= base + 1e-12
    assert passes(replace(push, rod_stiffness=stiffness * factor)) <= base + 1e-12
    assert passes(replace(push, force=force * factor)) >= base - 1e-12


@pytest.mark.parametrize(("kind", "lie"), ALL)
def test_single_precision_stays_and_shapes_broadcast(kind: JunctionKind, lie: Lie) -> None:
    many = replace(PUSH, friction=np.full(7, 0.3, np.float32))
    got = junction.steady_push(kind, lie, many, C)
    for name in ENDS:
        assert getattr(got, name).dtype == np.float32, name
        assert getattr(got, name).shape == (7,), name


def test_single_precision_stays_in_techniques() -> None:
    x = np.full(5, 0.2, np.float32)
    logit = technique.quick_push_logit(x, 1.3, x, 1, C)
    for got in (
        logit,
        technique.quick_push_chance(logit, 1.5, C),
        technique.remedy_chance(technique.Remedy.THREE_QUICK_PUSHES, logit, C),
        technique.remedy_chance(technique.Remedy.GENTLE_QUARTER_TURN, logit, C),
        technique.string_chance(x, C),
        technique.string_tip_tension(x, 0.3, 1.5),
        technique.stroke_left(x, 0.1),
        technique.quick_push_fold_chance(x, 0.05, 0.03, C),
        tip.fold_back_chance(x, 0.1, 0.05, 0.03, C),
        tip.tip_margin(x, 0.3, False, 80.0, 0.02, 0.1, C),
        junction.rod_end_margin(x, 0.07, 0.3, 1.0, 0.02, C),
        junction.crossing_over_chance(x, C),
    ):
        assert np.asarray(got).dtype == np.float32
