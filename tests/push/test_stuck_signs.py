"""What is seen and what is told for it fit: a thing before the lens is no sign of a head that is free.

Each sign by itself, at every hard spot of every built-in house, whatever the plan holds likely there.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from advisor import demo
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import read_kit
from advisor.plan import Case, plan
from advisor.push.now.causes import causes_of
from advisor.push.now.course import Course, Met
from advisor.quantity import Units
from advisor.site.sheet import read_site
from tests.cases.jobs import rules, tables

# The lens looks along an open pipe: what holds is behind it, or nothing holds it at all.
HEAD_FREE = ("rod end sticks", "wrong way", "push fades", "rod bows at the hand")


@cache
def spots() -> tuple[tuple[Course, Met], ...]:
    found = []
    for path in demo.ALL:
        kit = kit_of(read_kit(demo.KIT), tables())
        study = plan(Case(read_site(path, tables()), kit, Units.INCH, 200), tables(), rules())
        for opening in study.network.openings():
            course = Course(study, opening, study.kit.loadouts[0])
            found += [(course, met) for met in course.spots]
    return tuple(found)


@pytest.mark.parametrize("sign", ["wall ahead", "rim ahead", "blocked"])
def test_what_stands_before_the_lens_is_never_told_as_a_head_that_is_free(sign):
    assert len(spots()) > 20
    for course, met in (*spots(), (spots()[0][0], None)):
        told = causes_of(course, met, frozenset({sign}), np.ones(course.study.worlds))[0]
        assert told.name not in HEAD_FREE, met.name if met else "nowhere"


@pytest.mark.parametrize(("sign", "cause"), [("wall ahead", "far wall"), ("blocked", "build-up")])
def test_with_nothing_foreseen_the_sign_tells_its_cause(sign, cause):
    course = spots()[0][0]
    assert causes_of(course, None, frozenset({sign}), np.ones(course.study.worlds))[0].name == cause


def test_an_open_pipe_ahead_still_tells_a_rod_that_does_not_follow():
    """At a turn the plan holds that end likely: the same sign that speaks against a wall speaks for it."""
    told = [
        causes_of(course, met, frozenset({"open pipe ahead"}), np.ones(course.study.worlds))[0].name
        for course, met in spots()
    ]
    assert "rod end sticks" in told


def odds(met: Met | None, course: Course, signs: set[str], one: str, other: str) -> float:
    found = causes_of(course, met, frozenset(signs), np.ones(course.study.worlds))
    chance = {cause.name: cause.chance for cause in found}
    return chance[one] / chance[other]


@pytest.mark.parametrize(
    ("sign", "cause", "free", "times"),
    [
        # By hand: told, a sign has the chance p of the table, not told 1 - p/2, so telling it multiplies the
        # odds of the two causes by p(1 - q/2) / (q(1 - p/2)).
        ("wall ahead", "far wall", "rod end sticks", 48.54),  # .85 x .985 / (.03 x .575)
        ("wall ahead", "far wall", "wrong way", 48.54),  # the same
        ("wall ahead", "far wall", "push fades", 23.90),  # .85 x .97 / (.06 x .575)
        ("rim ahead", "rim", "rod end sticks", 97.81),  # .85 x .9925 / (.015 x .575)
        ("rim ahead", "rim", "rod bows at the hand", 48.54),  # .85 x .985 / (.03 x .575)
        ("blocked", "build-up", "wrong way", 73.17),  # .85 x .99 / (.02 x .575)
        ("blocked", "build-up", "push fades", 36.22),  # .85 x .98 / (.04 x .575)
    ],
)
def test_a_free_head_may_touch_what_holds_another_and_mostly_does_not(sign, cause, free, times):
    for course, met in (*spots()[::9], (spots()[0][0], None)):
        before = odds(met, course, set(), cause, free)
        assert odds(met, course, {sign}, cause, free) / before == pytest.approx(times, rel=1e-3)


def test_what_stands_before_the_lens_speaks_against_a_free_head_less_where_push_dies_at_a_turn():
    """The order that practice gives: seldom where the head has turned, more where it may lie before a turn,
    and never as often as where nothing at all is known of what holds it."""
    table = tables().stuck
    for sign in ("wall ahead", "rim ahead", "blocked"):
        chance = {name: table.causes[name].signs[sign].likely for name in HEAD_FREE}
        assert chance["rod end sticks"] <= chance["wrong way"] < chance["push fades"]
        assert max(chance.values()) < max(table.signs[sign].unseen.likely, 0.05)


def test_a_cause_that_the_plan_rules_out_keeps_a_fifth_of_what_is_usual():
    """By hand: what no plan works out (a rod that bows at the hand) is as usual at a place as nowhere, so
    against it the odds of a trap or flap where none is drawn fall to 0.2."""
    tried = 0
    for course, met in spots():
        if met.hard.spot.shape.turn.way != "stop":
            nowhere = odds(None, course, set(), "stopper", "rod bows at the hand")
            here = odds(met, course, set(), "stopper", "rod bows at the hand")
            assert here / nowhere == pytest.approx(0.2)
            tried += 1
    assert tried > 5
