"""How likely a turn, or a way out of a branch, is drawn where the head is or near behind: it takes one."""

from __future__ import annotations

import numpy as np

from advisor.push.now.now import Now
from advisor.push.track.leg import Leg
from advisor.tables.where import number


def near_here(now: Now) -> tuple[tuple[str, float], ...]:
    """For each of them the chance, by where the head may be; a pipe that is not on the map may have any."""
    push, mass = now.push, now.belief.mass.sum(axis=0)
    chart, spread = push.tracker.chart, number(push.tracker.chart.where.stopped.spread)
    behind = number(push.study.tables.stuck.tell.turn_near)
    found = []
    for needs, has in (("turn", _turns), ("way out of a branch", _out_of_branch)):
        share = now.belief.off_map
        for row, way in enumerate(chart.ways):
            there = np.zeros(chart.cells, np.bool_)
            for leg in filter(has, way.legs):
                there |= (chart.x >= leg.start - spread) & (chart.x <= leg.start + leg.length + behind)
            share += float(mass[row, there].sum())
        found.append((needs, min(share, 1.0)))
    return tuple(found)


def _turns(leg: Leg) -> bool:
    return leg.piece.kind in ("bend", "stopper") or leg.enters == "hole" or leg.turns_aside


def _out_of_branch(leg: Leg) -> bool:
    # Who passes a mouth, or goes into it, has no wall across the way there.
    return leg.enters == "branch"
