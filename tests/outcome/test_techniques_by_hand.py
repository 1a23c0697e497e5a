"""What each technique makes of a passage, by hand from the sentences of docs/mechanics."""

from __future__ import annotations

from math import acos, exp, pi
from types import SimpleNamespace

import numpy as np
import pytest

from advisor.mechanics.junction_case import JunctionKind, Lie
from advisor.mechanics.technique import quick_push_chance, quick_push_logit, string_chance, string_turn_angle
from advisor.outcome import attempts, geometry
from advisor.outcome.attempts import string_angle
from advisor.outcome.steady import JunctionChances, _steered
from tests.cases.jobs import tables

TABLES = tables()
LIMITS = {
    "turn_length": 10.0, "turn_steers": 0.35, "quick_speed": 1.0, "quick_square_share": 0.4,
    "steer_leg": 0.5, "steer_hairpin": 0.25, "against_sweep": 0.2, "least_stroke": 0.12,
    "quick_bend_weight": 0.25,
    "string_eccentricity": 0.004, "string_hand_tension": 1e6, "string_friction": 0.0, "guide_lifts": 0.5,
}  # fmt: skip
ONE = np.ones(1, np.float32)


def drawn(**limits: float) -> SimpleNamespace:
    values = {**LIMITS, **limits}
    return SimpleNamespace(
        worlds=SimpleNamespace(n=1, uniform=lambda key: ONE * 0.5),
        tables=TABLES,
        limit=lambda name: ONE * values[name],
        likely=lambda name: values[name],
        error=lambda name: 1.0,
    )


def spot(way: str, plain: dict[str, float] | None = None, **more: object) -> SimpleNamespace:
    turn = {"way": way, "bends": way not in ("none", "past"), "merges": {}, "lie": Lie.FLAT, "back": None,
            "square": None}  # fmt: skip
    shape = {"bore_in": 0.075, "bore_out": 0.1, "bore": 0.075, "friction": 0.3, "ledge": np.inf,
             "gap": np.inf}  # fmt: skip
    kit = {"spring_over_rod": 0.1, "head_length": 0.06, "head_diameter": 0.03, "spring_length": 0.3,
           "spring_stiffness": 0.05, "guided": False}  # fmt: skip
    station = {"at": 0.0, "bends": 2, "turned": 0.0, "force": 1e6}
    plainly = {"passes": 0.3, "rod_end": 0.2, "far_wall": 0.3, "wrong_way": 0.1, "folds": 0.1, "crosses": 0.0}
    turn |= {k: v for k, v in more.items() if k in turn}
    shape |= {k: v for k, v in more.items() if k in shape}
    kit |= {k: v for k, v in more.items() if k in kit}
    station |= {k: v for k, v in more.items() if k in station}
    piece = SimpleNamespace(id="x", kind=more.get("kind", "pipe"))
    made = SimpleNamespace(
        shape=SimpleNamespace(**{k: ONE * v for k, v in shape.items()}, turn=SimpleNamespace(**turn),
                              passage=SimpleNamespace(piece=piece)),
        kit=SimpleNamespace(**{k: v if k == "guided" else ONE * v for k, v in kit.items()}),
        station=SimpleNamespace(
            **{k: v if k == "bends" else ONE * v for k, v in station.items()}
        ),
        plain=SimpleNamespace(**{k: ONE * v for k, v in (plainly | (plain or {})).items()}),
        drawn=more.get("drawn", drawn()),
        stroke=ONE * more.get("stroke", 1.0),  # type: ignore[operator]
    )  # fmt: skip
    return made


def test_the_string_passes_what_the_head_and_then_the_rod_end_pass():
    # Of the heads, 1 - .1 - .3 - .1 = .5 come round; of those .3 / .5 = .6 get their rod end round too.
    at_rest = spot("merge")
    turned = float(string_chance(string_angle(at_rest), TABLES.junction)[0])
    assert float(attempts._string(at_rest)[0][0]) == pytest.approx(0.6 * turned, rel=1e-5)
    # Into a leg only rod ends that follow count: .3 / (.3 + .2).
    into_leg = spot("leg")
    assert float(attempts._string(into_leg)[0][0]) == pytest.approx(0.6 * turned, rel=1e-5)
    # Against the sweep no wall leads it round: a fifth of that.
    for against in (spot("hairpin"), spot("merge", back=np.array([True]))):
        assert float(attempts._string(against)[0][0]) == pytest.approx(0.2 * 0.6 * turned, rel=1e-5)
    sure = spot("leg", {"passes": 0.3, "rod_end": 0.0})
    assert float(attempts._string(sure)[0][0]) == pytest.approx(turned, rel=1e-5)
    # Where nothing passes and no rod end sticks, there is nothing that could follow.
    never = spot("merge", {"passes": 0.0, "rod_end": 0.0})
    assert float(attempts._string(never)[0][0]) == 0
    # Nothing turns in a plain bend that a string could turn.
    assert float(attempts._string(spot("bend"))[0][0]) == 0


def test_the_hand_aims_the_string_at_the_middle_of_the_window():
    middle = (TABLES.junction.string_low + TABLES.junction.string_high) / 2
    assert float(string_angle(spot("merge"))[0]) == pytest.approx(middle, rel=1e-4)
    # Held to 1 N, the arm is the eccentricity and half the head: 4 mm + 15 mm.
    # The model's own error for strings makes it so much more.
    off = drawn()
    off.error = lambda name: {"string": 1.5}[name]
    assert float(string_angle(spot("merge", drawn=off))[0]) == pytest.approx(1.5 * middle, rel=1e-4)
    held = spot("merge", drawn=drawn(string_hand_tension=1.0))
    by_hand = string_turn_angle(1.0, 0.004 + 0.03 / 2, 0.3, 0.05)
    assert float(string_angle(held)[0]) == pytest.approx(float(by_hand), rel=1e-4)


@pytest.mark.parametrize(("way", "share"), [("merge", 1.0), ("leg", 0.5), ("hairpin", 0.25), ("bend", 1.0)])
def test_a_quick_push_by_its_logit_the_stroke_and_what_the_hand_must_steer(way, share):
    # 4 in behind 3 in: a step of 100/75; two bends count a quarter each; half of the least stroke arrives.
    logit = quick_push_logit(0.1, 0.1 / 0.075, 0.3, 2 * 0.25, TABLES.junction)
    whole = float(np.asarray(quick_push_chance(logit, 1.0, TABLES.junction)))
    chance, folds = attempts._quick(spot(way, stroke=0.06))
    assert float(chance[0]) == pytest.approx(whole * share / 2, rel=1e-4)
    assert (float(folds[0]) > 0) == (way != "bend"), "in a bend no head rolls over"


def test_a_quick_push_out_of_a_square_turn_seldom_goes_the_way_wanted():
    tee = {JunctionKind.STRAIGHT_TEE: np.array([True])}
    gentle = float(attempts._quick(spot("merge"))[0][0])
    for more, share in (
        ({"square": np.array([True]), "way": "bend"}, 0.4),
        ({"merges": tee}, 0.4),
        ({"merges": tee, "lie": Lie.STACK}, 1.0),  # in a stack the fall carries it round
        ({"back": np.array([True])}, 0.25),
    ):
        made = spot(str(more.pop("way", "merge")), **more)
        assert float(attempts._quick(made)[0][0]) == pytest.approx(gentle * share, rel=1e-4)
    assert float(attempts._quick(spot("none"))[0][0]) == 0


@pytest.mark.parametrize(("at", "arrives"), [(0.0, 1.0), (10.0, exp(-1)), (30.0, exp(-3))])
def test_a_turn_of_the_rod_arrives_the_less_the_further_in(monkeypatch, at, arrives):
    # Of the heads that ran past a leg (.1) the turn that arrives steers .35, and .3 / .5 of their rods
    # follow; against the sweep a fifth of that. On its side a tee leaves 1 - .3 to steer.
    monkeypatch.setattr(attempts, "steady", lambda *_, **__: SimpleNamespace(passes=ONE * 0.3, folds=ONE * 0))
    for way, less in (("leg", 1), ("hairpin", 0.2), ("fork", 1)):
        chance, _ = attempts._turned(spot(way, at=at))
        assert float(chance[0]) == pytest.approx(0.3 + 0.1 * 0.35 * arrives * 0.6 * less, rel=1e-5)
    tee = {JunctionKind.STRAIGHT_TEE: np.array([True])}
    flat, _ = attempts._turned(spot("merge", at=at, merges=tee))
    assert float(flat[0]) == pytest.approx(0.3 + 0.7 * 0.35 * arrives, rel=1e-5)
    upright, _ = attempts._turned(spot("merge", at=at, merges=tee, lie=Lie.STACK))
    assert float(upright[0]) == pytest.approx(0.3)
    assert float(attempts._turned(spot("past"))[0][0]) == 0
    # A wye that is met against its sweep is that hairpin, whatever else it may be.
    for merges in (tee, {JunctionKind.WYE: np.array([True])}):
        back, _ = attempts._turned(spot("merge", at=at, merges=merges, back=np.array([True])))
        assert float(back[0]) == pytest.approx(0.3 + 0.1 * 0.35 * arrives * 0.6 * 0.2, rel=1e-5)


def test_a_turned_rod_meets_a_rim_elsewhere_as_far_as_the_turn_arrives():
    """Common practice, no source: before a low rim the curl is rolled until the nose lifts, then pushed on.

    By hand: .35 of the .7 that the rim stops, and of that the share of the turn that arrives; never nothing.
    """
    for at in (0.0, 6.3, 23.7):
        over, folds = attempts._turned(spot("none", kind="joint", ledge=0.7, at=at, plain={"folds": 0.0}))
        arrives = np.exp(-at / LIMITS["turn_length"])
        assert float(over[0]) == pytest.approx(0.3 + 0.7 * 0.35 * arrives, rel=1e-5)
        assert float(folds[0]) == 0
    # A rim all round is met alike however the curl lies.
    assert float(attempts._turned(spot("none", kind="reducer", ledge=0.7))[0][0]) == 0
    assert float(attempts._turned(spot("none"))[0][0]) == 0


def test_a_guide_lifts_half_over_a_rim_and_a_second_guide_is_none():
    over, folds = attempts._guided(spot("none", ledge=0.7, plain={"folds": 0.1}))
    assert float(over[0]) == pytest.approx(0.3 + 0.7 * 0.5)
    assert float(folds[0]) == pytest.approx(0.1), "a nose that is lifted folds back as before"
    assert float(attempts._guided(spot("none", ledge=0.7, guided=True))[0][0]) == 0
    assert float(attempts._guided(spot("none"))[0][0]) == 0


@pytest.mark.parametrize(
    ("friction", "again", "chance"),
    [
        (0.3, 0.9, 0.0),  # the wall is as it was: nothing to ease
        (0.1, 0.9, 0.9),  # eased, six tenths more pass
        (0.1, 0.33, 0.0),  # eased, but .03 more are not worth a try (.05 are)
    ],
)
def test_an_easier_wall_counts_where_it_lets_enough_more_through(monkeypatch, friction, again, chance):
    passing = SimpleNamespace(passes=ONE * again, folds=ONE * 0)
    monkeypatch.setattr(attempts, "steady", lambda *_, **__: passing)
    here = spot("merge", drawn=drawn(worth_trying=0.05))
    eased = SimpleNamespace(friction=ONE * friction, bore=here.shape.bore, gap=here.shape.gap)
    assert float(attempts._eased(here, eased)[0][0]) == pytest.approx(chance)


def test_what_is_not_steered_aside_goes_straight_on():
    ends = attempts_ends(passes=0.5, rod_end_stuck=0.3, wrong_way=0.1)
    made = _steered(ends, 0.4)
    assert (made.passes, made.rod_end_stuck) == (pytest.approx(0.2), pytest.approx(0.12))
    assert made.wrong_way == pytest.approx(0.1 + 0.6 * 0.8)


def attempts_ends(**values: float) -> JunctionChances:
    return JunctionChances(**{name: values.get(name, 0.0) for name in JunctionChances.__annotations__})


# -- shapes ----------------------------------------------------------------------------------------


def test_a_rim_is_half_of_what_the_bore_narrows_and_a_round_nose_meets_it_at_an_angle(monkeypatch):
    # 100 to 75: a rim of 12.5 mm. A nose of radius 15 mm meets it at acos(1 - 12.5/15); a flat one square on.
    seen: list[float] = []
    monkeypatch.setattr(geometry, "tip_margin", lambda angle, *_: seen.append(float(angle[0])) or angle)
    kit = SimpleNamespace(head_diameter=0.03, flat_nose=False, spring_stiffness=0.05, spring_length=0.3)
    passage = SimpleNamespace(piece=SimpleNamespace(kind="reducer", id="r", length=None))
    geometry._ledges(passage, ONE * 0.1, ONE * 0.075, kit, drawn(), ONE * 0.3)
    assert seen == pytest.approx([acos(1 - 12.5 / 15), 1e-3], rel=1e-4)
    seen.clear()
    geometry._ledges(passage, ONE * 0.075, ONE * 0.1, kit, drawn(), ONE * 0.3)
    assert seen == pytest.approx([1e-3, acos(1 - 12.5 / 15)], rel=1e-4)
    seen.clear()
    kit.flat_nose = True
    geometry._ledges(passage, ONE * 0.1, ONE * 0.075, kit, drawn(), ONE * 0.3)
    # Into the narrower pipe its face stands against the rim; out of it there is none, flat or round.
    assert seen == pytest.approx([pi / 2, 1e-3])
    plain = SimpleNamespace(piece=SimpleNamespace(kind="pipe", id="p", length=None))
    assert geometry._ledges(plain, ONE, ONE, kit, drawn(), ONE) == (np.inf, np.inf)


def test_in_a_bend_there_is_the_bore_and_in_a_mouth_the_middle_of_both():
    def room(way: str) -> float:
        shape = SimpleNamespace(bore=0.075, bore_in=0.075, bore_out=0.1, turn=SimpleNamespace(way=way))
        return geometry._room(shape)

    assert room("bend") == 0.075
    assert room("merge") == pytest.approx(0.0875)


def test_of_two_turns_of_unknown_roll_a_quarter_goes_each_way():
    # Quarters of a circle: the same side, square, opposite, square.
    uniform = np.array([0.1, 0.3, 0.6, 0.9], np.float32)
    worlds = SimpleNamespace(uniform=lambda key: uniform, value=lambda key, belief: np.full(4, belief))
    passage = SimpleNamespace(piece=SimpleNamespace(id="b", roll=None))
    before = SimpleNamespace(roll_key="a")
    assert geometry._side(passage, SimpleNamespace(worlds=worlds), before).tolist() == [1, 0, -1, 0]
    passage.piece.roll = pi
    assert geometry._side(passage, SimpleNamespace(worlds=worlds), before).tolist() == [-1] * 4


@pytest.mark.parametrize(
    ("step", "size", "expected"),
    [
        (None, None, (0.1, 0.08)),
        ({"bore": 0.05, "shape": "sweep"}, None, (0.05, 0.08)),  # a bore of its own
        ({"bore": "line", "shape": "sweep"}, 0.06, (0.1, 0.08)),
        ({"bore": "own", "shape": "sweep"}, 0.06, (0.06, 0.08)),  # a sound 100 mm line: the hole's 60 mm
        ({"bore": "own", "shape": "open"}, 0.06, (0.06, 0.06)),  # and nothing but the hole
        ({"bore": "own", "shape": "sweep"}, None, (0.1, 0.08)),
    ],
)
def test_an_opening_may_be_narrower_than_its_line(step, size, expected):
    worlds = SimpleNamespace(value=lambda key, belief: belief)
    passage = SimpleNamespace(
        step=SimpleNamespace(**step) if step else None,
        step_number=1,
        piece=SimpleNamespace(id="o", wall=SimpleNamespace(nominal=SimpleNamespace(value=0.1))),
        hole=SimpleNamespace(size=SimpleNamespace(value=size) if size else None),
    )
    made = geometry._entry_bores(passage, ONE * 0.1, ONE * 0.08, SimpleNamespace(worlds=worlds))
    assert [float(np.asarray(each).ravel()[0]) for each in made] == pytest.approx(expected, rel=1e-5)


def test_a_head_too_wide_for_the_mouth_is_not_called_too_long_as_well():
    # 40 mm does not go into 30 mm at any length: that is `fits`, so nothing is taken off its length.
    shape = SimpleNamespace(
        turn=SimpleNamespace(way="merge", angle=pi / 2),
        bore_in=ONE * 0.1,
        bore_out=ONE * 0.03,
        bore=ONE * 0.03,
    )
    kit = SimpleNamespace(head_diameter=ONE * 0.04)
    assert np.asarray(geometry._mouth_share(shape, kit)).tolist() == [1.0]
    # 25 mm goes in: the edge of the narrower mouth leaves it less length than two mouths alike would.
    kit.head_diameter = ONE * 0.025
    assert 0 < float(np.asarray(geometry._mouth_share(shape, kit))[0]) < 1
