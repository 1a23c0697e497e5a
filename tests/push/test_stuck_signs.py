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
from advisor.push.course import Course, Met
from advisor.push.stuck import causes_of
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
