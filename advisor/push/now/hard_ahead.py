"""The next hard place of a push: one that was read on the way stands at that reading, as everywhere else."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from advisor.push.now.across import across
from advisor.push.now.ahead import Hard, next_hard
from advisor.push.now.course import Met
from advisor.push.now.now import Now
from advisor.push.now.roots_span import of_run
from advisor.push.now.since import read_at
from advisor.tables.where import number


def hard_ahead(now: Now, spots: Collection[Met]) -> Hard | None:
    """The one of some `spots` that comes first; none that was read and lies behind the head since."""
    sure = now.push.tracker.chart.where.sure
    read: dict[str, tuple[float, float]] = {}
    for met in spots:
        told = None if met.run else _read(now, met)
        if told is not None:
            read[met.name] = told
    behind = {name for name, (at, off) in read.items() if now.counter - at > max(off, number(sure.near))}
    over = across(now.push.tracker, now.belief)
    if over is not None and over.likely(
        now.push.study.tables
    ):  # in the arm opposite, the fitting lies behind the lens
        behind |= {
            met.name for met in spots if any(met.crossed_on(way) for way in now.push.tracker.chart.ways)
        }
    hard = next_hard(now.push.tracker, now.belief, spots, now.passed | behind)
    if hard is not None and hard.met.run:
        return of_run(now, hard)
    if hard is None or hard.met.name not in read:
        return hard
    at, off = read[hard.met.name]
    slow_from = at - off - number(sure.warn_before)
    return replace(hard, low=max(at - off, 0.0), likely=at, high=at + off, slow_from=slow_from)


def _read(now: Now, met: Met) -> tuple[float, float] | None:
    """At which reading the fitting was last seen in this push, m, and how far that may be off."""
    ways = now.push.tracker.chart.ways
    piece = met.hard.passage.piece.id
    marks = (mark for way in ways for mark in way.landmarks if mark.kind and mark.piece.id == piece)
    return next(filter(None, (read_at(now, mark) for mark in marks)), None)
