"""Junction, tip and technique formulas at points worked by hand.

Where a number is not plain arithmetic on the table's own constants, it is one that was published with the
3-D simulation: the rod-end rule (2 behind a soft spring, 0.9 behind a graded one), the quick-push logit, the
string's turn after bends, the string window, the stroke left behind bends.
"""

from __future__ import annotations

from math import atan, exp, hypot, log, log10, pi, sqrt

import numpy as np
import pytest

from advisor.mechanics import junction, technique, tip
from advisor.mechanics.junction_case import JunctionKind, Lie, Push
from tests.cases.jobs import tables

C = tables().junction
TIGHT = 1e-6


def logistic(z: float) -> float:
    return 1 / (1 + exp(-z))


def push(**other: object) -> Push:
    values = {
        "force": 60.0, "friction": 0.3, "rod_stiffness": 0.4, "rod_diameter": 0.006, "spring_stiffness": 0.02,
        "spring_length": 0.1, "head_length": 0.04, "head_diameter": 0.025, "curl": pi / 2,
        "bore_branch": 0.077, "bore_main": 0.077,
    }  # fmt: skip
    return Push(**{**values, **other})


class TestRodEnd:
    def test_number(self):
        # 60 N, 0.1 m, 0.3, 0.4 N m2: 60 * 0.01 / 0.12 = 5.
        assert junction.rod_end_number(60.0, 0.1, 0.3, 0.4) == pytest.approx(5.0, rel=TIGHT)

    @pytest.mark.parametrize(("spring", "need"), [(1e-7, 2.0), (400.0, 0.9)])
    def test_published_needs_behind_soft_and_graded_springs(self, spring, need):
        margin = junction.rod_end_margin(60.0, 0.1, 0.3, 0.4, spring, C)
        assert margin == pytest.approx(5.0 / need, rel=1e-4)

    def test_between_them_at_the_knee_is_the_geometric_mean(self):
        margin = junction.rod_end_margin(60.0, 0.1, 0.3, 0.4, 0.4 * C.spring_knee, C)
        assert margin == pytest.approx(5.0 / sqrt(0.9 * 2.0), rel=1e-4)

    def test_curl_sideways_changes_nothing_and_is_what_is_taken(self):
        taken = junction.rod_end_margin(60.0, 0.1, 0.3, 0.4, 0.02, C)
        assert taken == pytest.approx(junction.rod_end_margin(60.0, 0.1, 0.3, 0.4, 0.02, C, pi / 2), rel=1e-9)
        toward = junction.rod_end_margin(60.0, 0.1, 0.3, 0.4, 0.02, C, 0.0)
        assert toward / taken == pytest.approx(exp(C.rod_curl), rel=TIGHT)

    def test_logit_is_steepness_times_the_log_of_the_margin(self):
        made = push(bore_branch=0.08, bore_main=0.126)  # height (0.08 + 0.126)/2 - 0.006 = 0.097 m
        margin = junction.rod_end_margin(60.0, 0.097, 0.3, 0.4, 0.02, C)
        logit = junction.rod_end_logit(JunctionKind.SANITARY_TEE, Lie.STACK, made, C)
        assert logit == pytest.approx(C.rod_steepness * log(margin), rel=TIGHT)


class TestHead:
    @pytest.mark.parametrize(("lie", "level"), [(Lie.STACK, C.square_stack), (Lie.FLAT, C.square_flat)])
    def test_square_tee_at_the_springs_column_load_is_the_tables_level(self, lie, level):
        load = tip.spring_column_load(0.02, 0.1, C)
        made = push(force=float(load))
        assert junction.head_logit(JunctionKind.STRAIGHT_TEE, lie, made, C) == pytest.approx(level, rel=TIGHT)

    def test_column_load(self):
        # pi^2 0.02 / (0.7 * 0.1)^2 = 40.28 N.
        assert tip.spring_column_load(0.02, 0.1, C) == pytest.approx(pi**2 * 0.02 / 0.0049, rel=TIGHT)

    def test_crossing_over_with_the_curl_sideways(self):
        assert junction.crossing_over_chance(pi / 2, C) == pytest.approx(logistic(C.cross_level), rel=TIGHT)

    def test_slide_angle(self):
        assert tip.slide_angle(0.35, False, C) == pytest.approx(
            atan(1 / 0.35) - C.slide_loss_round, rel=TIGHT
        )

    def test_margin_at_the_slide_angle_is_one(self):
        angle = tip.slide_angle(0.35, False, C)
        assert tip.tip_margin(angle, 0.35, False, 0.0, 0.02, 0.1, C) == pytest.approx(1.0, rel=TIGHT)
        # At twice the column load the spring gives way: margin 2.
        load = tip.spring_column_load(0.02, 0.1, C)
        assert tip.tip_margin(1.5, 0.35, False, 2 * load, 0.02, 0.1, C) == pytest.approx(2.0, rel=TIGHT)


class TestFold:
    def test_room(self):
        assert tip.head_room(0.077, 0.06, 0.03) == pytest.approx(0.077 / hypot(0.06, 0.03), rel=TIGHT)

    def test_chance_at_the_two_references_is_the_tables_level(self):
        diagonal = hypot(0.04, 0.03)
        found = tip.fold_back_chance(C.fold_spring_reference, diagonal, 0.04, 0.03, C)
        assert found == pytest.approx(logistic(C.fold_level), rel=TIGHT)
        quick = technique.quick_push_fold_chance(diagonal, 0.04, 0.03, C)
        assert quick == pytest.approx(logistic(C.quick_fold_level), rel=TIGHT)


class TestQuickPush:
    def test_stroke_left_behind_one_bend(self):
        # Published: of 0.3 m in 77 mm pipe 0.19 m arrives behind one quarter bend (slack 0.1115 m).
        assert technique.stroke_left(0.3, pi / 2 * 0.071) == pytest.approx(0.3 - 0.11153, abs=1e-4)

    def test_published_logit(self):
        published = 9.2 + 1.4 * log10(0.05) - 2.4 * 1.3 - 10.3 * 0.3
        found = technique.quick_push_logit(0.05, 1.3, 0.3, 0.0, C)
        assert found == pytest.approx(published, rel=TIGHT)
        behind = technique.quick_push_logit(0.05, 1.3, 0.3, 1.0, C)
        assert found - behind == pytest.approx(C.quick_bend, rel=TIGHT)

    def test_chance_quick_and_slow(self):
        shrunk = C.quick_shrink * 1.0 - C.quick_offset
        quick = technique.quick_push_chance(1.0, C.quick_speed, C)
        assert quick == pytest.approx(logistic(shrunk), rel=TIGHT)
        slow = technique.quick_push_chance(1.0, C.slow_speed, C)
        assert slow == pytest.approx(logistic(shrunk - C.slow_penalty), rel=TIGHT)

    def test_several_strokes(self):
        found = technique.repeated_chance(0.4, 3, C)
        assert found == pytest.approx(1 - 0.6 ** (3**C.repeat_exponent), rel=TIGHT)

    def test_remedies(self):
        shrunk = C.quick_shrink * 0.5 - C.quick_offset
        found = technique.remedy_chance(technique.Remedy.THREE_QUICK_PUSHES, 0.5, C)
        assert found == pytest.approx(1 - (1 - logistic(shrunk)) ** (3**C.repeat_exponent), rel=TIGHT)
        gentle = technique.remedy_chance(technique.Remedy.GENTLE_QUARTER_TURN, 0.5, C)
        assert gentle == pytest.approx(logistic(shrunk - C.gentle_penalty), rel=TIGHT)


class TestString:
    @pytest.mark.parametrize(("bends", "turn"), [(0, 3.6), (2, 1.6), (4, 0.75), (6, 0.34)])
    def test_published_turn_after_quarter_bends(self, bends, turn):
        # 60 N, friction 0.25, 12 mm off the middle, spring 0.1 m of 0.02 N m2.
        tension = technique.string_tip_tension(60.0, 0.25, bends * pi / 2)
        found = technique.string_turn_angle(tension, 0.012, 0.1, 0.02)
        assert found == pytest.approx(turn, abs=0.05 if bends < 4 else 0.008)
        assert found == pytest.approx(3.6 * exp(-0.25 * bends * pi / 2), rel=TIGHT)

    def test_tension_for_a_turn(self):
        # 0.2 rad of 0.02 N m2 over 12 mm * 0.1 m: 0.2 * 0.02 / 0.0012 = 3.33 N.
        assert technique.string_tension_for_turn(0.2, 0.012, 0.1, 0.02) == pytest.approx(10 / 3, rel=TIGHT)

    @pytest.mark.parametrize(("turn", "chance"), [(0.06, 0.5), (0.2, 25 / 26), (0.5, 0.0)])
    def test_published_window(self, turn, chance):
        assert technique.string_chance(np.float64(turn), C) == pytest.approx(chance, abs=0.005)
