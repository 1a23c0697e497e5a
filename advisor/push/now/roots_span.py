"""From where to where on the counter roots may stand in a run, and what of it was passed with nothing new.

By the sheet from what was read last, so that it does not wander with the head: it ends where the pipe does.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf

from advisor.push.log.found import tells_roots
from advisor.push.log.kinds import SIGHTING
from advisor.push.now.ahead import Hard
from advisor.push.now.course import Met
from advisor.push.now.now import Now
from advisor.push.now.since import passed
from advisor.push.track.ways import Way
from advisor.tables.conditions import ROOTS
from advisor.tables.where import number


@dataclass(frozen=True)
class RootsSpan:
    """Readings, m: the ends of the run by the sheet, no end (inf) once the head is past that.

    `clear_to` is how far it was passed with nothing new, None where no part is passed so; `seen` whether
    roots were told in it; `there` the chance of any in what is left, knowing what was passed.
    """

    begins: float
    ends: float
    clear_to: float | None
    seen: bool
    there: float


def of_run(now: Now, hard: Hard) -> Hard:
    """A run ahead with the readings of what is left of it."""
    span = roots_span(now, hard.met)
    if span is None:
        return hard
    low = span.begins if span.clear_to is None else max(span.begins, span.clear_to)
    return replace(hard, low=low, likely=low, high=span.ends, by_sheet=True)


def roots_span(now: Now, met: Met) -> RootsSpan | None:
    """The span of a run with roots; None where no way of this push leads along it."""
    mass = now.belief.mass.sum(axis=(0, 2))
    ways = [(float(mass[r]), way) for r, way in enumerate(now.push.tracker.chart.ways)]
    on = [(share, way) for share, way in ways if met.along(way) is not None]
    if not on:
        return None
    way = max(on, key=lambda each: each[0])[1]
    along, until = met.along(way) or 0.0, met.until(way) or 0.0
    off = _off(now, way, until)
    begins, ends = along + off, until + off
    told = _roots_told(now)
    clear = [
        reading
        for reading in _nothing_new(now)
        if reading > begins and told is not None and all(reading < seen for seen in told)
    ]
    clear_to = min(max(clear), ends) if clear else None
    there = met.roots_left(0.0 if clear_to is None else clear_to - begins)
    seen = told is None or any(begins <= each for each in told)
    return RootsSpan(begins, ends if now.counter < ends else inf, clear_to, seen, there)


def _off(now: Now, way: Way, until: float) -> float:
    """By how much a reading is more than the m along a way: by what was read on it last, else at the rim."""
    on_way = {mark.piece.id: mark.at for mark in way.landmarks}
    for each in reversed(passed(now)):
        at = on_way.get(each.landmark.piece.id)
        if at is not None and at <= until:
            return now.counted(each.rod) - at
    return -now.belief.shift


def _nothing_new(now: Now) -> list[float]:
    """The readings at which nothing new was told in this push, as the counter counts now."""
    return [
        now.counted(belief.rod)
        for entry, belief in now.told
        if entry.kind == SIGHTING and entry.data.get("what") == "nothing"
    ]


def _roots_told(now: Now) -> list[float] | None:
    """The readings at which roots were told in this push or one that went in so before; None where those were
    told in another push: nobody knows at which reading of this one they stand."""
    finds = now.push.study.tables.finds
    if any(finds.tells(ROOTS, each.what) for each in now.others):
        return None
    near = number(now.push.tracker.chart.where.sure.near)
    earlier = [
        entry.counter - near
        for push in now.before
        for entry in push.entries
        if entry.counter is not None and tells_roots(entry, finds)
    ]
    return earlier + [now.counted(belief.rod) for entry, belief in now.told if tells_roots(entry, finds)]
