"""Where the head was when something was told, by all that its push told after that as well.

What comes later places what came before: the end of a pipe is so many metres of counter past a find. It
counts until the head was drawn back behind the place and a fork: pushed on anew it may have gone another way.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import numpy as np

from advisor.push.log.went_in import SAME_READING
from advisor.push.now.now import Now
from advisor.push.track.chart import Array
from advisor.push.track.track import Belief
from advisor.tables.where import number

Told = tuple[int, float]  # after so many sightings, with so much rod in, m
_MOST = 0.9  # arithmetic: the ends of a place as they are told, with four fifths of it between them


def looked_back(now: Now, asked: Iterable[Told]) -> Mapping[Told, Belief]:
    """It for each that is asked, the head having been there or further in once so much was told."""
    found: dict[Told, Belief] = {}
    by_last: dict[int, set[Told]] = {}
    for each in asked:
        by_last.setdefault(last_past(now, *each), set()).add(each)
    for last, alike in by_last.items():
        belief = now.after(last)
        for each in sorted(alike, key=lambda one: -one[1]):  # each pass back goes on from the one before
            belief = found[each] = now.push.tracker.was_at(belief, each[1])
    return found


def last_past(now: Now, count: int, rod: float) -> int:
    """After how many sightings the head, that had come past `rod` m after `count`, was last there or further
    in and had surely gone no other way since."""
    last = count
    for each in range(count + 1, len(now.sightings) + 1):
        out = now.after(each).rod
        if out >= rod - SAME_READING:
            last = each
        elif out < now.after(each - 1).rod and not _same_way(now, now.after(last), now.after(each), rod):
            break
    return last


def _same_way(now: Now, was: Belief, back: Belief, rod: float) -> bool:
    """Whether a head that is drawn `back` comes to `rod` m again the way by which it `was` there."""
    tracker = now.push.tracker
    chart, there = tracker.chart, tracker.was_at(was, rod).mass.sum(axis=0)
    way = int(there.sum(axis=1).argmax())
    far, near = _cell(there[way], _MOST), _cell(back.mass.sum(axis=0)[way], 1 - _MOST)
    group, _ = chart.same_so_far
    same, free = (group[:, cell] == group[way, cell] for cell in (far, min(near, far)))
    if back.rod < chart.cell:
        free = np.ones_like(same)  # out again: it may leave its opening otherwise
    if end := chart.ways[way].longer:  # where a line ends nobody can choose
        same = same | np.array([each.longer == -end for each in chart.ways])
    whole = float(chart.prior[free].sum())
    return whole > 0 and float(chart.prior[same & free].sum()) >= number(chart.where.sure.settles) * whole


def _cell(mass: Array, share: float) -> int:
    """The cell up to which that share of it lies."""
    so_far = np.cumsum(mass)
    return min(int(np.searchsorted(so_far, share * so_far[-1])), len(mass) - 1)


def came_past(now: Now, count: int, rod: float) -> int | None:
    """After how many of the first `count` sightings the head was last at `rod` m or further in."""
    return next((each for each in range(count, -1, -1) if now.after(each).rod >= rod - SAME_READING), None)
