"""A run with roots beside the opening: the head may be held at any of its joints."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest
from scipy.stats import norm, uniform

from advisor.card.build import card_of
from advisor.push.now.course import Course
from advisor.push.track.chart import Chart
from advisor.push.track.ways import ways_from
from advisor.quantity import Units
from advisor.result.build import plan_of
from tests.cases.jobs import outcome, tables
from tests.outcome.test_roots import BIG, WHOLE, planned


def course_of(condition: str = "roots") -> tuple[Course, Chart]:
    study = planned(condition, BIG)
    way = outcome(study, "yard")
    course = Course(study, way.route.opening, way.loadout)
    ways, _ = ways_from(study.network, way.route.opening, 40.0, tables(), course.intent(True))
    return course, Chart(study.network, ways, tables().where)


def test_the_head_may_be_stopped_anywhere_in_the_run_and_not_at_its_start_only():
    course, chart = course_of()
    (met,) = (met for met in course.spots if met.run)
    begins, until = met.along(chart.ways[0]), met.until(chart.ways[0])
    assert until - begins == pytest.approx(10, abs=0.4)
    extra = chart.stops[0] - course_of("sound")[1].stops[0]
    inside = extra[(chart.x > begins + 1) & (chart.x < until - 1)]
    assert inside == pytest.approx(float(met.hard.spot.plain.stuck.mean()) / (until - begins), rel=0.03)


def test_an_even_density_blurred_at_both_ends():
    """The sum of an even and a normal distribution, by scipy."""
    _, chart = course_of()
    fine = np.linspace(-3, 12, 3001)
    even = uniform(2, 5).pdf(fine)
    want = [np.trapezoid(even * norm(at, 0.5).pdf(fine), fine) for at in chart.x]
    assert chart.spread(2, 7, 0.5) == pytest.approx(want, abs=2e-3)
    assert chart.spread(2, 2, 0.5) == pytest.approx(norm(2, 0.5).pdf(chart.x), abs=1e-9)


@pytest.mark.parametrize(("inside", "among"), [(1.0, True), (0.6, True), (0.4, False), (0.0, False)])
def test_the_head_is_among_the_roots_where_it_is_likelier_in_their_run_than_not(inside, among):
    course, chart = course_of()
    (met,) = (met for met in course.spots if met.run)
    here = (chart.x > met.along(chart.ways[0]) + 1) & (chart.x < met.until(chart.ways[0]) - 1)
    mass = np.zeros((1, len(chart.ways), len(chart.x)))
    mass[0, 0, np.flatnonzero(here)[0]] = inside
    mass[0, 0, 0] = 1 - inside  # at the opening
    found = course.among_roots(SimpleNamespace(chart=chart), SimpleNamespace(mass=mass))
    assert found == (met if among else None)


def test_whoever_is_held_in_roots_reads_first_on_the_card_not_to_push():
    """Common practice, no source: more push packs roots tighter; the gentle try is for one not held yet."""
    plan_ = plan_of(planned("roots", BIG))
    route = next(each for each in plan_.routes if each.opening == "yard")
    card = card_of(plan_, route, tables().card, Units.INCH, "2026-11-26", True)
    (block,) = (block for block in card.stuck if "roots" in block.title)
    first, *rest = block.lines
    assert first.text.startswith("Held? Not a bit further.")
    assert rest
    (row,) = (row for row in card.sights if row.see.startswith("roots"))
    assert "Push gently, never if it drags" in row.do
    # Nobody knows at which joint they stand: there is nothing to mark above ground.
    marks = [x.text for each in card.blocks if each.title.startswith("Marking") for x in each.lines]
    assert not [text for text in marks if text.startswith(f"Mark {row.reading}:")]
    others = [x.text for each in card.stuck if each is not block for x in each.lines]
    assert not [text for text in others if text.startswith("Held?")]


def test_a_run_that_a_push_mostly_comes_through_is_told_beside_a_hard_one_of_the_same_line():
    """A branch parts the line: one metre with seldom a root, then ten; both are called by the line."""
    joined = "      - joined by: side line\n        fitting: wye\n        drawn: no"
    short = f"      - pipe: 1 m\n{joined}\n{WHOLE}"
    study = planned("roots", BIG, short, worlds=200)
    way = outcome(study, "yard")
    course = Course(study, way.route.opening, way.loadout)
    (soft,) = (met for met in course.rooty)
    hard = [met for met in course.hard if met.run]
    assert soft.key not in {met.key for met in hard}
    assert soft.name in {met.name for met in hard}
