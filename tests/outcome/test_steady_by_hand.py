"""One gentle push by hand. The rim: a margin m is got over with m^3 / (1 + m^3) at a steepness of 3."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest

from advisor.evidence import Evidence, Grade
from advisor.outcome.steady import Steady, _largest, steady
from advisor.quantity import Estimate, Known
from tests.cases.jobs import tables

LIMITS = {
    "fork_keeps_straight": 0.8, "guide_lifts": 0.5, "kink_share": 0.5, "eighth_turn_ease": 2.0,
    "short_force": 60.0, "push_force": 60.0, "steer_leg": 0.25, "steer_hairpin": 0.1,
}  # fmt: skip
ENDS = ("passes", "wrong_way", "folds", "far_wall", "rod_end", "crosses")
DRAWN = SimpleNamespace(
    worlds=SimpleNamespace(n=1),
    tables=tables(),
    likely=lambda name: {"try_steepness": 3.0}[name],
    error=lambda name: 1.0,
    limit=LIMITS.__getitem__,
)


def pushed(way: str, guided: bool = False, **other: float) -> Steady:
    values = {
        "fits": 1.2, "rigid": 1.5, "ledge": 2.0, "load": 1e9, "pushed_radius": 9.0, "rod_radius": 9.0,
        "height": 0.1, "friction": 0.3, "gap": np.inf, **other,
    }  # fmt: skip
    shape = SimpleNamespace(
        **{name: np.array([value], np.float32) for name, value in values.items()},
        turn=SimpleNamespace(way=way, merges={}, angle=np.pi / 2),
    )
    kit = SimpleNamespace(guided=guided, stiffness=0.4, spring_stiffness=0.02)
    return steady(shape, np.array([60.0], np.float32), kit, DRAWN)


def ends(made: Steady) -> list[float]:
    return [float(getattr(made, name)[0]) for name in ENDS]


@pytest.mark.parametrize(
    ("way", "guided", "expected"),
    [
        ("none", False, [8 / 9, 0, 0, 1 / 9, 0, 0]),
        ("past", False, [8 / 9, 0, 0, 1 / 9, 0, 0]),
        ("none", True, [17 / 18, 0, 0, 1 / 18, 0, 0]),  # a guide lifts half of those that the rim stops
        ("fork", False, [8 / 9 * 0.8, 8 / 9 * 0.2, 0, 1 / 9, 0, 0]),
        ("stop", False, [0, 0, 0, 1, 0, 0]),
    ],
)
def test_where_nothing_turns_only_the_rim_and_the_fork_count(way, guided, expected):
    assert ends(pushed(way, guided)) == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize(("gap", "passes"), [(1.1, 8 / 9), (1.0, 0), (0.5, 0)])
def test_between_roots_that_do_not_part_the_head_goes_only_where_it_has_room(gap, passes):
    assert ends(pushed("none", gap=gap)) == pytest.approx([passes, 0, 0, 1 - passes, 0, 0], abs=1e-6)


@pytest.mark.parametrize("why", [{"fits": 0.9}, {"rigid": 0.9}])
@pytest.mark.parametrize("way", ["none", "fork", "bend", "leg", "hairpin"])
def test_what_cannot_be_has_no_chance_whatever_the_push(way, why):
    made = pushed(way, **why)
    assert made.passes[0] == made.wrong_way[0] == made.kink[0] == 0


@pytest.mark.parametrize("fits", [1.2, 1.0, 0.9])  # 1.0: as wide as the bore, which does not go in
@pytest.mark.parametrize("way", ["none", "past", "fork", "bend", "leg", "hairpin", "stop"])
def test_every_push_ends_in_one_way(way, fits):
    assert sum(ends(pushed(way, fits=fits))) == pytest.approx(1, abs=1e-5)
    assert (float(pushed(way, fits=fits).passes[0]) > 0) == (fits > 1 and way != "stop")


@pytest.mark.parametrize(("way", "steer"), [("leg", 0.25), ("hairpin", 0.1)])
def test_where_only_the_hand_turns_it_the_rest_goes_the_wrong_way(way, steer):
    """Of a bend's passing and rod-end shares the steered part is left, whatever they are there."""
    by_itself, steered = pushed("bend"), pushed(way)
    assert sum(ends(by_itself)) == pytest.approx(1)
    assert sum(ends(steered)) == pytest.approx(1)
    assert float(steered.passes[0]) == pytest.approx(steer * float(by_itself.passes[0]), rel=1e-5)
    assert float(steered.rod_end[0]) == pytest.approx(steer * float(by_itself.rod_end[0]), rel=1e-5)
    assert float(steered.wrong_way[0]) == pytest.approx(1 - steer, rel=1e-5)


@pytest.mark.parametrize(
    ("load", "share"),
    [
        # Lifted where 60 N times more than pi/2 (the arc and the unloading at its ends) exceeds the load.
        (60 * np.pi / 2, 1 / 9),
        (60 * np.pi / 2 * 3, 1 / 2),
    ],
)
def test_a_rod_that_is_lifted_off_the_inner_wall_lies_in_the_curve_of_the_outer_one(load, share):
    """Half of those forced under their smallest radius kink: 1 / (1 + m^3) at a margin of 2 and of 1."""
    made = pushed("bend", load=load, pushed_radius=2.0, rod_radius=1.0)
    assert float(made.kink[0]) == pytest.approx(0.5 * share, rel=1e-5)


def test_a_model_without_an_error_of_its_own_is_off_by_no_more_than_its_value():
    own = Evidence(Grade.JUDGEMENT, "own")
    for told, largest in ((Known(1.2, own), 1.2), (Estimate(0.7, 1.0, 1.4, own), 1.4)):
        drawn = SimpleNamespace(tables=SimpleNamespace(limits={"model_error": told}))
        assert _largest(drawn) == largest
