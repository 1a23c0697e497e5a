"""Finds, a trap and standing water that were told and lie on the way of this push: told before each again.

Their readings are known from that push, better than any length of the sheet tells where a thing is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from advisor.push.before.found_before import Heed, heeded
from advisor.push.log.cleared import cleared_since
from advisor.push.log.log import Entry
from advisor.push.log.sighting import PIPE_END, TRAP
from advisor.push.log.went_in import read_off
from advisor.push.now.leads import leads_there
from advisor.push.now.now import Now
from advisor.push.track.track import Belief
from advisor.tables.where import number


@dataclass(frozen=True)
class Found:
    """What was told `rod` m in, at which reading it comes, m, `off` so much, and where to go slowly from.

    `behind` is whether the lens is past it; `earlier` tells that it was in an earlier push of the job;
    `then` is where the head may have been as it was told.
    """

    heed: Heed
    entry: Entry
    rod: float
    reading: float
    off: float
    slow_from: float
    behind: bool
    earlier: bool
    then: Belief

    @property
    def low(self) -> float:
        """The first reading at which it may be, m."""
        return max(self.reading - self.off, 0.0)


def found_ahead(now: Now) -> tuple[Found, ...]:
    """The nearest that lies ahead, the nearest trap, and the nearest else that no head goes past, though it
    be past it; by reading. At one place what has a heed of its own, as a wad that stands in water.

    In the push in which it was told, what may be passed and has none is told again once it lies ahead again.
    """
    cell, plain = now.push.tracker.chart.cell, now.push.study.tables.in_pipe.found_before.do
    there = tuple(found_on_way(now))
    ahead = [
        each
        for each in there
        if each.rod - now.belief.rod >= cell or (not each.behind and (each.earlier or each.heed.do != plain))
    ]
    nearest = min(map(_rod, ahead), default=0.0)
    ahead.sort(key=lambda one: (one.rod - nearest >= cell, one.heed.do == plain, one.rod))
    bars = (
        [each for each in there if each.heed.not_past and (each.heed.kind == TRAP) is trap]
        for trap in (True, False)
    )
    first = (*ahead[:1], *(min(each, key=_rod) for each in bars if each))
    return tuple(sorted({each.rod: each for each in first}.values(), key=_rod))


def to_be_cleaned(now: Now) -> tuple[Found, ...]:
    """Each that is not behind and is cleaned out before a camera goes on; what bars it says so itself."""
    ahead = (each for each in found_on_way(now) if not each.behind)
    return tuple(each for each in ahead if each.heed.first and not each.heed.not_past)


def found_on_way(now: Now) -> Iterator[Found]:
    """Each of this push and of earlier ones that went its way, where the head may come to it or has."""
    cell, where = now.push.tracker.chart.cell, now.push.study.tables.where
    slow = number(where.sure.warn_before)
    for entry, heed, then, earlier in heeded_in(now):
        rod = (entry.counter or 0.0) + then.shift
        if not leads_there(now, then):
            continue
        off, behind = read_off(rod, where) if earlier else 0.0, now.belief.rod - rod >= cell
        reading = now.counted(rod)
        yield Found(heed, entry, rod, reading, off, reading - off - slow, behind, earlier, then)


def heeded_in(now: Now) -> Iterator[tuple[Entry, Heed, Belief, bool]]:
    """What was told, with the belief of its push as it was then.

    Of a trap or an end as it was before: where the map has it elsewhere, the look itself leads astray.
    """
    pushes, where = (*now.before, now), now.push.study.tables.where
    standing = [entry for push in pushes for entry in (push.push.began, *push.entries)]
    place = {entry.number: index for index, entry in enumerate(standing)}
    for push in pushes:
        before = push.after(0)
        for entry, belief in push.told:
            since = partial(cleared_since, standing, place[entry.number], where)
            heed = heeded(entry, now.push.study.tables, since)
            if heed is not None and entry.counter is not None:
                yield entry, heed, before if heed.kind in (TRAP, PIPE_END) else belief, push is not now
            before = belief


def _rod(found: Found) -> float:
    return found.rod
