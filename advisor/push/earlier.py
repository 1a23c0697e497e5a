"""The pushes of a job before this one that went in as it does: what stopped them lies ahead of it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from advisor.push.kinds import AS_PLANNED, DOWN, PORTS, UNKNOWN, UP
from advisor.push.log import Entry
from advisor.push.now import Now
from advisor.push.one_push import Push
from advisor.push.seen import pushes_told
from advisor.tables.where import number

_OPEN = (UNKNOWN, AS_PLANNED)  # which way was meant is not told: it may be the same


def earlier(push: Push, standing: Sequence[Entry]) -> tuple[Now, ...]:
    """Those from its opening that did not go the other way, each as it ended, the first first."""
    runs = pushes_told(standing[: standing.index(push.began)] if push.began in standing else standing)
    return tuple(Now(push.begun(run[0]), tuple(run[1:])) for run in runs if same_way(push, run))


def way_gone(own: Push, run: Sequence[Entry]) -> str:
    """Which way a push went: as it was told, else as what it passed shows where it was farthest in."""
    if own.direction not in _OPEN:
        return own.direction
    now = Now(own, tuple(run[1:]))
    beliefs = (now.after(count) for count in range(len(now.sightings) + 1))
    mass = max(beliefs, key=lambda belief: belief.rod).mass.sum(axis=(0, 2))
    chart = own.tracker.chart
    for way in (DOWN, UP):
        other = np.array([each.legs[0].leaves not in PORTS[way] for each in chart.ways])
        if float(mass[other].sum()) < number(chart.where.sure.other_way) * float(mass.sum()):
            return way
    return own.direction


def same_way(push: Push, run: Sequence[Entry]) -> bool:
    """Whether a push went in as this one does, or may have."""
    start = run[0]
    if start.data["opening"] != push.opening.name:
        return False
    told = str(start.data.get("direction") or UNKNOWN)
    if push.direction in _OPEN or told == push.direction:
        return True
    return told in _OPEN and way_gone(Push(push.study, start), run) in (*_OPEN, push.direction)
