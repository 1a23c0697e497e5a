"""The throat by which the plan goes in, where the opening was found to lead the other way."""

from __future__ import annotations

import numpy as np

from advisor.push.course import Course
from advisor.push.track import Belief, Tracker
from advisor.site.mouths import port_of
from advisor.tables.where import number


def wrong_port(tracker: Tracker, course: Course, belief: Belief, most: float) -> str | None:
    """That port; None where the head may have gone in by it, or no way is wanted. No surer than `most`."""
    if course.wanted is None:
        return None
    chart = tracker.chart
    planned = port_of(course.wanted.route.passages, course.study.tables)
    into = np.array([way.port == planned for way in chart.ways])
    by_way = belief.mass.sum(axis=(0, 2))
    total = float(by_way.sum())
    share = max(float(by_way[into].sum()) / total, 1 - most) if total > 0 else 1.0
    return planned if share < number(chart.where.sure.other_way) else None
