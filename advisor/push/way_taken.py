"""Which way a push went from its opening, known by what it passed where nobody told it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from advisor.push.counted import at_farthest
from advisor.push.leg import Leg
from advisor.push.now import Now
from advisor.push.seen import Coverage, Run
from advisor.push.sighting import Water
from advisor.push.since import passed
from advisor.result.study import Study
from advisor.tables.where import number


def way_taken(run: Run, study: Study) -> tuple[Leg, ...]:
    """The pieces from the opening on, where the place of the head is so sure that no check is proposed.

    Nothing where it is less sure, or where nothing was passed that tells: that the sheet draws but one way
    does not show that the head is on it.
    """
    now = at_farthest(run, study)
    if now is None or now.off_map or not _told(now):
        return ()
    chart, best = now.push.tracker.chart, now.fix.best
    if best.chance < number(chart.where.sure.check_below):
        return ()
    here = chart.run == chart.runs.index((best.line, best.with_flow))
    by_way = np.where(here, now.belief.mass.sum(axis=0), 0.0).sum(axis=1)
    return chart.ways[int(np.argmax(by_way))].legs


def _told(now: Now) -> bool:
    """Whether a landmark was passed that is called by its name, or water came that tells the way."""
    came = any(isinstance(each, Water) and each.seconds is not None for each in now.sightings)
    return came or bool(passed(now))


def recognized(runs: Iterable[Run], cover: Coverage, study: Study) -> Coverage:
    """The coverage, and what was recognized on the way: anything of the map, and an end of the stretch."""
    pieces = [
        each.landmark.piece
        for run in runs
        if (now := at_farthest(run, study)) is not None
        for each in passed(now)
    ]
    tops, near = study.network.positions(cover.line), study.drawn.likely("same_place")
    ends = [
        piece
        for piece in pieces
        if piece.id in tops and min(abs(tops[piece.id] - at) for at in (cover.low, cover.high)) < near
    ]
    return replace(cover, recognized=bool(pieces), end_seen=bool(ends))
