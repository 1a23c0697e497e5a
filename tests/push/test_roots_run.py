"""A run with roots beside the opening: the head may be held at any of its joints."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import norm, uniform

from advisor.push.chart import Chart
from advisor.push.course import Course
from advisor.push.ways import ways_from
from tests.cases.jobs import outcome, tables
from tests.outcome.test_roots import BIG, planned


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
