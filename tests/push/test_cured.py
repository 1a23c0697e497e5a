"""The chance of a try at a head that is held, weighed by what the signs told of what holds it.

From a trial: an object lay before the lens at a tee, and a stroke was told with the plan's chance
for a far wall. Expected values are the law of total probability, worked by hand on a few worlds.
"""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest

import advisor.push.held.stuck as stuck_module
from advisor.outcome.held import held_by
from advisor.push.held import cured as cured_module
from advisor.push.held.cured import cured
from advisor.push.held_now import held_now
from advisor.push.now.causes import Cause
from tests.terminal.test_now_shown import TEE_PLUG, pushed, tee

BLOW, TURN, STRING = "quick push", "turn the rod", "string"


def at_tee(text: str = "", **signs: str):
    return held_now(pushed(text or tee(), TEE_PLUG, ("stopped", 2.0, signs)))


def chance(technique: str, found) -> float:
    return next(each.chance for each in found.tries if each.technique == technique)


def cause(trouble: str, chance: float, planned: str | None = None, foreseen: float = 0.0) -> Cause:
    return Cause(trouble, "", "", trouble, chance, True, planned, foreseen)


def in_two_worlds(monkeypatch, *causes: Cause) -> float:
    """A stroke of which the plan has 0.8 in the first world and 0.2 in the second; in the first the far wall
    holds every head, in the second the rod end. It may not be tried against an object."""
    holds = {"far_wall": np.array([1.0, 0.0]), "rod_end": np.array([0.0, 1.0])}
    monkeypatch.setattr(cured_module, "held_by", lambda spot: holds)
    spot = SimpleNamespace(plain=SimpleNamespace(stuck=np.array([1.0, 1.0])))
    hard = SimpleNamespace(spot=spot, chance=lambda technique: np.array([0.8, 0.2]))
    cells = {(BLOW, each.trouble): SimpleNamespace(allowed=each.trouble != "object") for each in causes}
    course = SimpleNamespace(study=SimpleNamespace(base=SimpleNamespace(matrix=SimpleNamespace(cells=cells))))
    return cured(course, SimpleNamespace(hard=hard), BLOW, causes, np.ones(2))


@pytest.mark.parametrize(
    ("wall", "rod_end", "thing", "expected"),
    [
        (0.5, 0.5, 0.0, 0.5),  # as likely as the worlds have them: the mean of 0.8 and 0.2
        (0.75, 0.25, 0.0, 0.65),  # 0.75 x 0.8 + 0.25 x 0.2
        (0.0, 1.0, 0.0, 0.2),
        (0.3, 0.3, 0.4, 0.3),  # 0.24 + 0.06, and nothing against an object
    ],
)
def test_over_the_causes_that_of_each_times_that_of_the_try_where_it_holds(
    monkeypatch, wall, rod_end, thing, expected
):
    planned = cause("far wall", wall, "far_wall", 1.0), cause("rod end", rod_end, "rod_end", 1.0)
    assert in_two_worlds(monkeypatch, *planned, cause("object", thing)) == pytest.approx(expected)


@pytest.mark.parametrize(
    ("foreseen", "expected"),
    [
        (1.0, 0.8),  # all of it is the plan's
        (0.0, 0.5),  # no world has it, and nothing speaks against the try: the plan's mean over both
        (0.5, 0.65),
    ],
)
def test_what_the_plan_does_not_work_out_of_a_cause_has_the_chance_of_the_plan(
    monkeypatch, foreseen, expected
):
    told = in_two_worlds(monkeypatch, cause("far wall", 1.0, "far_wall", foreseen))
    assert told == pytest.approx(expected)


def test_where_nothing_is_told_the_plan_stands_and_what_is_told_is_said_to_weigh_it():
    plain, found = at_tee(), at_tee(sign="blocked, object")
    assert chance(BLOW, plain) > chance(BLOW, found)
    assert " a try by what was told here" in next(t for t in found.tries if t.technique == BLOW).told(str)
    assert "told" not in next(t for t in plain.tries if t.technique == BLOW).told(str)


def test_an_object_takes_from_a_turn_of_the_rod_what_it_is_likely():
    """At this tee every world has about the same chance for a turn whatever holds it, and the matrix lets
    none be made against an object, a trap, roots or a rod that bows: the rest is left."""
    plain, found = at_tee(), at_tee(sign="blocked, object")
    no_turn = ("build-up", "stopper", "roots", "rod bows at the hand")
    against = sum(cause.chance for cause in found.causes if cause.name in no_turn)
    assert 0.3 < against < 0.5
    assert chance(TURN, found) == pytest.approx((1 - against) * chance(TURN, plain), rel=0.02)


def test_a_cause_counts_by_the_worlds_in_which_it_holds():
    """Of a fitting that nobody knows a string turns the head where the rod end then sticks, and hardly where
    the head runs at the wall: told of a wall, it does less than the plan told of all."""
    wall = at_tee(tee("unknown"), sign="wall ahead")
    plain = at_tee(tee("unknown"))
    now = pushed(tee("unknown"), TEE_PLUG)
    met = next(each for each in now.push.course.spots if each.name == wall.spot)
    string, holds = met.hard.chance(STRING), held_by(met.hard.spot)
    by_wall, by_end = (np.average(string, weights=holds[name]) for name in ("far_wall", "rod_end"))
    assert by_wall < chance(STRING, plain) < by_end
    assert chance(STRING, wall) == pytest.approx(by_wall, abs=0.02)


def test_no_sign_lets_anybody_try_what_a_rule_rejects(monkeypatch):
    """However well it would do: a pipe that a push tears bears no stroke, and no guide is in the bag."""
    monkeypatch.setattr(stuck_module, "cured", lambda *given: 0.9)
    soft = tee().replace("material: cast iron\n    condition: light scale", "material: pitch fibre")
    found = at_tee(soft, sign="wall ahead", feel="springs back")
    assert {each.technique for each in found.tries}.isdisjoint({BLOW, "guide", "clean first"})
    assert TURN in {each.technique for each in found.tries}
