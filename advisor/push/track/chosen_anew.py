"""Drawn back and pushed on, the head may take another way at every fork before it."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from advisor.push.track.chart import Array, Chart
from advisor.push.track.stride import NOTHING


def shares_anew(chart: Chart, mass: Array) -> tuple[NDArray[np.intp], Array]:
    """The ways that are one up to each cell, and what share of them goes each way from there.

    Where a line ends the head cannot choose, so that what was learned of that stays.
    """
    group, share = chart.same_so_far
    share, by_way = share.copy(), mass.sum(axis=(0, 2))
    number_of = {way.longer: row for row, way in enumerate(chart.ways) if way.longer}
    for end, longer in number_of.items():
        if end > 0:
            drawn = number_of[-end]
            both = group[longer] == group[drawn]
            total = float(by_way[longer] + by_way[drawn])
            if total > NOTHING:
                whole_share = (share[longer] + share[drawn])[both]
                share[longer, both] = whole_share * by_way[longer] / total
                share[drawn, both] = whole_share * by_way[drawn] / total
    return group, share


def chosen_anew(mass: Array, group: NDArray[np.intp], share: Array) -> Array:
    """The same [B, R, C] with the way chosen anew at every fork before it."""
    anew = [np.bincount(group.ravel(), each.ravel())[group] * share for each in mass]
    return np.stack(anew)
