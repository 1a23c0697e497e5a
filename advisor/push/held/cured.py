"""How likely a try passes a head that is held, by what the signs told of what holds it there."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.outcome.attempts import mean_stuck
from advisor.outcome.held import held_by
from advisor.push.now.causes import Cause
from advisor.push.now.course import Course, Met, mean
from advisor.push.track.chart import Array


def planned_chance(met: Met, technique: str, weights: Array) -> float:
    """The plan's chance of one try there, in the worlds in which a gentle push is held, by their weights."""
    return mean_stuck(met.hard.chance(technique), weights * met.hard.spot.plain.stuck)


def cured(course: Course, met: Met, technique: str, causes: Sequence[Cause], weights: Array) -> float:
    """The chance of one try: over the causes, that of each by the signs times that of the try where it holds.

    Where the plan works a cause out, a try has its chance in the worlds in which that holds the head. In a
    world by itself the plan tells no try of one cause from one of another: each goes in anew, and what it
    meets is luck. What no world has, such as an object, the matrix tells: nothing where it may not be tried
    against that, else as the plan has it.
    """
    chance, cells = met.hard.chance(technique), course.study.base.matrix.cells
    planned, holds = planned_chance(met, technique, weights), held_by(met.hard.spot)
    total = 0.0
    for cause in causes:
        foreseen = mean(chance, weights * holds[cause.planned]) if cause.planned else 0.0
        other = planned if cells[technique, cause.trouble].allowed else 0.0
        total += cause.chance * (cause.foreseen * foreseen + (1 - cause.foreseen) * other)
    return total
