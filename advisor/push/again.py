"""A tie-in told anew further on: what it is worth if it is one that was told before.

The filter weighs each sighting by itself. But where the sheet tells no side, a junction seen on the right
once is on the right still; it has one size, whatever the sheet assumes; and between two looks at one place
there is no pipe whose length the sheet may have wrong, so that only the counter can have slipped.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from advisor.push.chart import Anew, Array, Chart
from advisor.push.landmarks import Clocks, Landmark
from advisor.push.likelihood import hour, looks, seen
from advisor.push.sighting import Seen
from advisor.push.stride import Stride
from advisor.push.trail import Been, carried, whole
from advisor.tables.where import number

TIE_IN: Final = "tie-in"
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

    Drawn back since, or seen at the same reading, nothing is known of it.
    """
    found: dict[str, Array] = {}
    if now.kind != TIE_IN or now.clock is None:
        return ()
    for was_out, first in reversed(before):
        then = next((each for each in reversed(trail) if each.rod == was_out), None)
        if then is None or not was_out < rod:
            continue
        mass = whole(then, chart.cells)
        total = carried(stride, then, mass, rod - was_out, chart.unlogged).sum(axis=0)
        on_map, _ = seen(chart, first, was_out)
        # So near that it is one look, the eye alone tells how near.
        near = rod - was_out <= number(chart.where.sure.near)
        once_more = 1.0 if near else number(chart.where.travel.told_again)
        for piece, (mark, field) in _sideless(chart).items():
            if piece in found:
                continue
            was = mass * (field * looks(chart, first, mark.look, was_out) / on_map)
            unlike = float(was.sum()) < _LEAST * float(mass.sum())
            if unlike or float((field * total).sum()) * chart.cell < _LEAST * float(total.sum()):
                continue  # it was another thing, or the head is past it by now
            came = carried(stride, then, was, rod - was_out, chart.unlogged).sum(axis=0)
            stays = once_more * _by_counter(chart, was.sum(axis=0), rod - was_out)
            same, any_other = _looks_again(chart, now, first, mark, rod), looks(chart, now, mark.look, rod)
            more = stays * same - came * any_other
            # Far out in the tails one long step and several short ones are not the same any more.
            least = _LEAST * float(total.max())
            found[piece] = field * np.divide(more, total, out=np.zeros_like(more), where=total > least)
    return tuple(found.items())


def _sideless(chart: Chart) -> dict[str, tuple[Landmark, Array]]:
    """Each junction of which the sheet tells no side, and how dense sightings of it are at each cell."""
    found: dict[str, tuple[Landmark, Array]] = {}
    row = chart.where.seen[TIE_IN]
    odds = number(row.p) / (1 - number(row.p))
    for r, way in enumerate(chart.ways):
        for mark in way.landmarks:
            if mark.kind == TIE_IN and len(mark.clocks) > 1:
                _, field = found.setdefault(mark.piece.id, (mark, np.zeros((len(chart.ways), chart.cells))))
                field[r] += odds * mark.there * chart.spread(mark.at, mark.until, number(row.spread))
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


def _looks_again(chart: Chart, now: Seen, first: Seen, mark: Landmark, rod: float) -> float:
    """How likely it is told so if it is the one that was told `first`: of that side, and of that size."""
    clocks = mark.clocks if first.clock is None else _known_side(chart, mark.clocks, first.clock)
    size = mark.size if first.size is None else first.size
    like = replace(mark, clocks=clocks, size=size, assumed=mark.assumed and first.size is None)
    return looks(chart, now, like.look, rod)


def _known_side(chart: Chart, clocks: Clocks, told: float) -> Clocks:
    """Where the hole is, once it was told at that hour."""
    weights = [share * hour(chart, told, ((each, 1.0),)) for each, share in clocks]
    return tuple((each, weight / sum(weights)) for (each, _), weight in zip(clocks, weights, strict=True))
