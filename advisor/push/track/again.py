"""A tie-in told anew further on: what it is worth if it is one that was told before.

The filter weighs each sighting by itself. But a junction seen on the right once is on the right still; it
has one size, whatever the sheet assumes; and between two looks at one place there is no pipe whose length
the sheet may have wrong, so that only the counter can have slipped. Whoever tells two sides saw two: of one
hole that is a slip, and slips are taken back.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import exp, pi, sqrt
from typing import Final

import numpy as np

from advisor.push.log.sighting import Seen
from advisor.push.track.chart import Again, Anew, Array, Chart
from advisor.push.track.landmarks import Landmark
from advisor.push.track.likelihood import HOURS, hour, looks, seen
from advisor.push.track.stride import Stride
from advisor.push.track.trail import Been, carried, whole
from advisor.tables.where import WhereFile, number

TIE_IN: Final = "tie-in"
_SURE = 3.0  # standard deviations: hours further apart are two hours
_LEAST = 1e-3  # arithmetic: what is rarer changes no chance


def told_anew(
    chart: Chart,
    stride: Stride,
    trail: Sequence[Been],
    before: Sequence[tuple[float, Seen]],
    now: Seen,
    rod: float,
) -> Anew:
    """For each junction, by its piece, what its likelihood at each cell [R, C] is more (or less) than it
    would be if it had not been told `before`, at so much rod each.

    `trail` ends with what is known at this reading. Drawn back since, nothing is known of it.
    """
    found: dict[str, Again] = {}
    if now.kind != TIE_IN or now.clock is None:
        return ()
    row = chart.where.seen[TIE_IN]
    odds, sided = number(row.p) / (1 - number(row.p)), _with_a_side(chart)
    for was_out, first in reversed(before):
        then = next((each for each in reversed(trail) if each.rod == was_out), None)
        if then is None:
            continue
        mass, run = whole(then, chart.cells), rod - was_out
        total = _on(chart, stride, then, mass, run).sum(axis=0)
        on_map, _ = seen(chart, first, was_out)
        for piece, (mark, field) in sided.items():
            if piece in found:
                continue
            was = mass * (odds * field * looks(chart, first, mark.look, was_out) / on_map)
            unlike = float(was.sum()) < _LEAST * float(mass.sum())
            if unlike or odds * float((field * total).sum()) * chart.cell < _LEAST * float(total.sum()):
                continue  # it was another thing, or the head is past it by now
            came = _on(chart, stride, then, was, run).sum(axis=0)
            stays = _by_counter(chart, was.sum(axis=0), run)
            once_more = _once_more(chart, now, first, mark, run) * _as_big(chart, now, first, mark, rod)
            more = stays * once_more - odds * came * looks(chart, now, mark.look, rod)
            # Far out in the tails one long step and several short ones are not the same any more.
            least = _LEAST * float(total.max())
            much = field * np.divide(more, total, out=np.zeros_like(more), where=total > least)
            by_name = float(was.sum()) >= number(chart.where.sure.name_landmark) * float(mass.sum())
            two = first.clock is not None and two_sides(chart.where, first.clock, now.clock, run)
            found[piece] = Again(piece, much, by_name and two)
    return tuple(found.values())


def two_sides(where: WhereFile, one: float, other: float, run: float) -> bool:
    """Whether no eye tells one hole so, at one hour and so far on at the other."""
    return abs(_turned(one, other)) > _SURE * _off(where, run)


def _turned(one: float, other: float) -> float:
    """How many hours the other is further round, the shorter way."""
    return (other - one + HOURS / 2) % HOURS - HOURS / 2


def _off(where: WhereFile, run: float) -> float:
    """The spread of the hours of two looks at one hole so far apart: near by the lens hangs as it hung."""
    near = run <= number(where.sure.near)
    return number(where.clock.one_look) if near else sqrt(2) * number(where.clock.spread)


def _on(chart: Chart, stride: Stride, then: Been, mass: Array, run: float) -> Array:
    """Some of what was known `then`, so far on; at the same reading the head has not moved."""
    return carried(stride, then, mass, run, chart.unlogged) if run > 0 else mass


def _with_a_side(chart: Chart) -> dict[str, tuple[Landmark, Array]]:
    """Each junction that is seen at some hour, and how its place lies about each cell, per m."""
    found: dict[str, tuple[Landmark, Array]] = {}
    spread = number(chart.where.seen[TIE_IN].spread)
    for r, way in enumerate(chart.ways):
        for mark in way.landmarks:
            if mark.kind == TIE_IN and mark.clocks:
                _, field = found.setdefault(mark.piece.id, (mark, np.zeros((len(chart.ways), chart.cells))))
                field[r] += mark.there * chart.spread(mark.at, mark.until, spread)
    return found


def _by_counter(chart: Chart, was: Array, run: float) -> Array:
    """Where the head is, [R, C], if only the counter tells: it moved as it ran, or it slipped by any part."""
    slips, steps = number(chart.where.travel.slips), round(run / chart.cell)
    moved = np.zeros_like(was)
    moved[:, steps:] = was[:, : was.shape[1] - steps]
    so_far = np.cumsum(was, axis=1)
    behind = np.zeros_like(was)
    behind[:, steps + 1 :] = so_far[:, : -(steps + 1)]
    return (1 - slips) * moved + slips * (so_far - behind) / (steps + 1)


def _once_more(chart: Chart, now: Seen, first: Seen, mark: Landmark, run: float) -> float:
    """How likely one that was told `first` is told again so far on, at this hour; per hour."""
    where = chart.where
    # So near that it is one look, it is told again as one likes.
    told = 1.0 if run <= number(where.sure.near) else number(where.travel.told_again)
    assert now.clock is not None
    if first.clock is None:
        return told * hour(chart, now.clock, mark.clocks)
    spread = _off(where, run)
    same = exp(-0.5 * (_turned(first.clock, now.clock) / spread) ** 2) / (spread * sqrt(2 * pi))
    return told * same + number(where.clock.turned) / HOURS


def _as_big(chart: Chart, now: Seen, first: Seen, mark: Landmark, rod: float) -> float:
    """How likely it is told to be of this size, if it is the one that was told `first`."""
    size = mark.size if first.size is None else first.size
    like = replace(mark, size=size, assumed=mark.assumed and first.size is None)
    return looks(chart, replace(now, clock=None), like.look, rod)
