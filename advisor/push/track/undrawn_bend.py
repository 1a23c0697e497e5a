"""What is told at one place where the sheet draws no bend, a stop and a bend: one bend that nobody drew.

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
# What was told, with so much rod in, m, and what was told before changed of it.
Told = tuple[float, Seen | Stopped, Anew]


def may_be_one(sighting: object) -> bool:
    """Whether it may tell of a bend: one that was seen, or a stop at nobody knows what; a rim is no bend."""
    if isinstance(sighting, Stopped):
        return not (sighting.by_rim or sighting.by_dirt)
    return isinstance(sighting, Seen) and sighting.kind == BEND


def one_bend(chart: Chart, before: Sequence[Told], now: Seen | Stopped, rod: float) -> Anew:
    """By how much more likely it is told, for a bend (or a stop) told `before` at so much rod each: where the
    sheet draws no bend, and off the map. Once told, such a bend is told again as one that is drawn."""
    if not may_be_one(now):
        return ()
    row = chart.where.seen[BEND]
    if (close := _closest(chart, before, now, rod, Seen)) is not None:
        (was_out, first, anew), much = close
        assert isinstance(first, Seen)
        if isinstance(now, Seen):
            much *= number(row.p) / (1 - number(row.p))
        else:
            much *= number(chart.where.stopped.chances[BEND])
        undrawn = chart.false(BEND) + sum(each.much for each in anew)
        share = undrawn / seen(chart, first, was_out, anew)[0]
        return (Again("", _led_on(share * much, chart, rod - was_out), False, much),)
    if isinstance(now, Seen) and (close := _closest(chart, before, now, rod, Stopped)) is not None:
        (was_out, _, _), much = close
        much *= number(chart.where.stopped.chances[BEND])
        bends = _led_on(chart.false(BEND) * much / chart.stops, chart, rod - was_out)
        return (Again("", bends, False, number(row.off_map) * much / number(chart.where.stopped.off_map)),)
    return ()


def _closest(
    chart: Chart, before: Sequence[Told], now: Seen | Stopped, rod: float, kind: type[Seen | Stopped]
) -> tuple[Told, float] | None:
    """What was told closest of that kind, and how likely the two lie so far apart if they are one, per m."""
    alike = [each for each in before if isinstance(each[1], kind)]
    found = min(alike, key=lambda each: abs(rod - each[0]), default=None)
    if found is None:
        return None
    spread, run = hypot(_spread(chart, found[1]), _spread(chart, now)), rod - found[0]
    if abs(run) > _FAR * spread:
        return None
    return found, exp(-0.5 * (run / spread) ** 2) / (spread * sqrt(2 * pi))


def _spread(chart: Chart, told: Seen | Stopped) -> float:
    where = chart.where
    return number(where.stopped.spread if isinstance(told, Stopped) else where.seen[BEND].spread)


def _led_on(each: Array, chart: Chart, run: float) -> Array:
    """What holds at each cell where the head was so far before it, [R, C]."""
    cells = np.arange(chart.cells) - round(run / chart.cell)
    return each[:, np.clip(cells, 0, chart.cells - 1)]
