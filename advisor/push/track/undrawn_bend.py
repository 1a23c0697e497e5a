"""A stop and a bend told at one place where the sheet draws neither: one bend that nobody drew.

The filter weighs each sighting by itself, and a stop in plain pipe and a bend in plain pipe are both rare.
But a bend that nobody drew holds a head as often as one that is drawn: where both are told within sight of
each other, that one thing explains both.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, hypot, pi, sqrt
from typing import Final

import numpy as np

from advisor.push.log.sighting import Seen, Stopped
from advisor.push.track.chart import Again, Anew, Array, Chart
from advisor.push.track.likelihood import seen
from advisor.tables.where import number

BEND: Final = "bend"
_FAR = 4.0  # standard deviations: what was told further off is another thing
Held = tuple[float, Seen | Stopped]  # what was told, with so much rod in, m


def may_be_one(sighting: object) -> bool:
    """Whether it may tell of a bend: one that was seen, or a stop at nobody knows what; a rim is no bend."""
    if isinstance(sighting, Stopped):
        return not (sighting.by_rim or sighting.by_dirt)
    return isinstance(sighting, Seen) and sighting.kind == BEND


def one_bend(chart: Chart, before: Sequence[Held], now: Seen | Stopped, rod: float) -> Anew:
    """By how much more likely it is told, for a stop (or a bend) told `before` at so much rod each: where the
    sheet draws no bend, and off the map."""
    others = [each for each in before if type(each[1]) is not type(now)]
    if not may_be_one(now) or not others:
        return ()
    was_out, first = min(others, key=lambda each: abs(rod - each[0]))
    stopped, bend = chart.where.stopped, chart.where.seen[BEND]
    spread, run = hypot(number(stopped.spread), number(bend.spread)), rod - was_out
    if abs(run) > _FAR * spread:
        return ()
    stops = number(stopped.chances[BEND]) * exp(-0.5 * (run / spread) ** 2) / (spread * sqrt(2 * pi))
    steps = round(run / chart.cell)
    if isinstance(now, Seen):
        much, off = chart.false(BEND) * stops / chart.stops, number(bend.off_map) * stops
        return (Again("", _led_on(much, steps), False, off / number(stopped.off_map)),)
    assert isinstance(first, Seen)
    share = chart.false(BEND) / seen(chart, first, was_out)[0]
    return (Again("", _led_on(share * stops, steps), False, stops),)


def _led_on(each: Array, steps: int) -> Array:
    """What holds at each cell where the head was so many cells before it, [R, C]."""
    cells = each.shape[1]
    return each[:, np.clip(np.arange(cells) - steps, 0, cells - 1)]
