"""Water that came as it cannot where the head is said to be: one of the two that were told is wrong."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import inf

import numpy as np

from advisor.push.log.sighting import AHEAD, Sighting, Water
from advisor.push.track.track import Belief, Tracker
from advisor.tables.where import number


@dataclass(frozen=True)
class Contrary:
    """The `water`; `passes` is whether it passes the lens at all, so that only the side is against it."""

    water: Water
    passes: bool


def contrary(
    tracker: Tracker, sightings: Sequence[Sighting], after: Callable[[int], Belief]
) -> Contrary | None:
    """The water that came by last, where it most likely cannot have come as it was told.

    By where the head may have been then on the ways on which it may be now: what was told since may have
    settled it. `after` gives the belief after so many sightings.
    """
    chart, told, back = tracker.chart, len(sightings), inf
    for upto in range(told, 0, -1):
        if after(upto).rod < chart.cell:
            return None  # out again since: the next push may go another way
        back = min(back, after(upto).rod)
        water = sightings[upto - 1]
        if isinstance(water, Water) and water.seconds is not None and water.fixture in chart.fixtures:
            break
    else:
        return None
    then, now = after(upto).mass.sum(axis=0), after(told)
    by_way = now.mass.sum(axis=(0, 2))
    passes = np.isfinite(chart.path(water.fixture).away)
    agrees = passes if water.side is None else passes & (chart.with_flow != (water.side == AHEAD))

    # Drawn back since, the rod may have taken another way from there: only what is one up to there counts.
    same = np.arange(len(by_way))
    if after(upto).rod - back >= chart.cell:
        group, _ = chart.same_so_far
        _, same = np.unique(group[:, round(back / chart.cell)], return_inverse=True)

    def share(cells: np.ndarray) -> float:
        some, whole, ways = (
            np.bincount(same, each, len(by_way))
            for each in ((then * cells).sum(axis=1), then.sum(axis=1), by_way)
        )
        return float(ways @ np.divide(some, whole, out=0 * whole, where=whole > 0))

    least = number(chart.where.sure.contrary)
    if share(agrees) + now.off_map >= least * (float(by_way.sum()) + now.off_map):
        return None
    return Contrary(water, share(passes) >= least * float(by_way.sum()))
