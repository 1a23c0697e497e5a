"""Held where the plan has no hard place, a try is told with its steps, and a quick push with its stroke.

From a trial: "Next: quick push. Two tries left." and nothing more, of the one try that can kink
a rod. How long a stroke the rod bears between two hands hangs on the rod, so it is the same wherever the head
is.
"""

from __future__ import annotations

import re
from math import pi, sqrt

import pytest

from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.plan import Case, plan
from advisor.push.held.stuck import stuck
from advisor.push.now.course import Course
from advisor.quantity import Units
from advisor.result.spots import passage_note
from advisor.site.sheet import site_of_text
from tests.cases.jobs import kit_text, rules, tables
from tests.push.test_stuck import course, met
from tests.terminal.test_now_shown import tee

WALL = frozenset({"wall ahead", "springs back"})


def held(of: Course, *signs: str):
    return stuck(of, None, frozenset(signs or WALL), [], 2.0, ())


def quick(of: Course) -> tuple[str, ...]:
    return next(each.steps for each in held(of).tries if each.technique == "quick push")


def test_a_quick_push_is_told_with_the_steps_of_the_plan_and_its_stroke():
    at = met(course())
    notes = passage_note(at.hard, at.outcome, course().study.reader).techniques
    steps = quick(course())
    assert steps == next(note.steps for note in notes if note.name == "quick push")
    assert any("Back off about 300 mm" in step for step in steps)
    assert any("Head points back at you? Draw out" in step for step in steps)


@pytest.mark.parametrize("sign", [None, *tables().stuck.signs])
def test_no_try_is_told_without_how_it_is_made(sign):
    found = held(course(), *filter(None, (sign,)))
    assert [each.technique for each in found.tries if not each.steps] == []


def of_rod(stiffness: float) -> Course:
    sheet = re.sub(
        r"rods: .*",
        f"rods: [{{rod: rod, length: 30 m, diameter: 9 mm, stiffness: {stiffness} N m2}}]",
        kit_text(),
    )
    case = Case(
        site_of_text(tee(), "site", tables()), kit_of(kit_of_text(sheet, "kit"), tables()), Units.METRIC, 200
    )
    study = plan(case, tables(), rules())
    opening = next(piece for piece in study.network.openings() if piece.name == "wall plug")
    return Course(study, opening, study.kit.loadouts[0])


def longest(stiffness: float, push: float) -> float:
    """By Euler, of a rod held at one end and guided at the other (K = 0.5): (pi/K) sqrt(EI/F), m."""
    return pi / 0.5 * sqrt(stiffness / push)


def test_the_stroke_is_no_longer_than_the_rod_bears_between_the_hands():
    """A short push is 120 N to 180 N (limits): nine cases in ten lie between the strokes for these."""
    (stroke,) = (int(each) for step in quick(of_rod(0.3)) for each in re.findall(r"at most (\d+) mm", step))
    assert longest(0.3, 180) <= stroke / 1000 <= longest(0.3, 150)


def test_a_rod_that_folds_in_the_shortest_stroke_gets_none():
    """A stroke takes 0.12 m (limits); this rod bears less even at the least push."""
    assert longest(0.03, 120) < 0.12
    found = held(of_rod(0.03))
    assert "quick push" not in {each.technique for each in found.tries}
    assert "the longest safe stroke is" in dict(found.not_now)["quick push"]
