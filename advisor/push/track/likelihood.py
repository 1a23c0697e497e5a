"""How likely a sighting is at each cell of each way, and in a pipe that is not on the map."""

from __future__ import annotations

from math import exp, log, pi, sqrt

import numpy as np
from numpy.typing import NDArray

from advisor.push.log.sighting import AHEAD, Read, Seen, Stopped, Water
from advisor.push.track.chart import Anew, Array, Chart
from advisor.push.track.landmarks import Clocks, Look
from advisor.tables.where import number

HOURS = 12.0


def seen(chart: Chart, sighting: Seen, rod: float, anew: Anew = ()) -> tuple[Array, float]:
    """A landmark told with so much `rod` in, m: per m on the map [R, C], and off it.

    `anew` is what was told before changes of that.
    """
    row, where = chart.where.seen[sighting.kind], chart.where  # type: ignore[index]
    told = 1.0 if sighting.clock is None or sighting.kind != "tie-in" else 1 / HOURS
    if sighting.size is not None:
        told *= 1 / number(where.size.range)
    found = np.full((len(chart.ways), chart.cells), chart.false(sighting.kind) * told)
    for look, field in chart.fields(sighting.kind).items():
        found += field * looks(chart, sighting, look, rod)
    for each in anew:
        found += each.much
    unknown = number(row.off_map) * told + sum(each.off for each in anew)
    return np.where(chart.undrawn, unknown, found), unknown


def looks(chart: Chart, sighting: Seen, look: Look, rod: float) -> float:
    """How likely a landmark of this look is told so, with so much `rod` in, m."""
    clocks, size, assumed, materials, within = look
    if rod > within:
        return 0.0
    likely = 1.0
    if sighting.clock is not None and sighting.kind == "tie-in":
        likely *= hour(chart, sighting.clock, clocks)
    if sighting.size is not None:
        likely *= _size(chart, sighting.size, size, assumed)
    if sighting.material is not None and materials:
        right, share = number(chart.where.size.right), dict(materials).get(sighting.material, 0.0)
        likely *= right * share + (1 - right) * (1 - share)
    return likely


def hour(chart: Chart, told: float, clocks: Clocks) -> float:
    """How likely a hole that is there, by hours and shares, is told at that hour; per hour."""
    row = chart.where.clock
    right, spread = number(row.right), number(row.spread)
    if not clocks:
        return 1 / HOURS
    total = 0.0
    for hour, share in clocks:
        away = [(told - hour + turn) / spread for turn in (-2 * HOURS, -HOURS, 0.0, HOURS, 2 * HOURS)]
        total += share * sum(exp(-0.5 * z * z) for z in away) / (spread * sqrt(2 * pi))
    return right * total + (1 - right) / HOURS


def _size(chart: Chart, told: float, size: float | None, assumed: bool) -> float:
    row = chart.where.size
    flat = 1 / number(row.range)
    if size is None:
        return flat
    right, spread = number(row.assumed if assumed else row.right), number(row.spread)
    z = (log(told) - log(size)) / spread
    return right * exp(-0.5 * z * z) / (spread * sqrt(2 * pi)) + (1 - right) * flat


def water(chart: Chart, sighting: Water, at: NDArray[np.bool_] | None = None) -> tuple[Array, float]:
    """Water or dye of a fixture: per second where it came by, the chance where it did not.

    Over all cells [R, C], or over those `at` which it is asked, in one row.
    """
    row = chart.where.water
    away, with_flow, undrawn = chart.path(sighting.fixture).away, chart.with_flow, chart.undrawn
    if at is not None:
        away, with_flow, undrawn = away[at], with_flow[at], undrawn[at]
    on_path = np.isfinite(away)
    wait = number(row.dye_wait if sighting.dye else row.wait)
    other = number(row.dye_elsewhere if sighting.dye else row.elsewhere)
    unknown = number(row.in_unknown)
    if sighting.seconds is None:
        arrives = number(row.arrives) * (1 - other)
        return np.where(undrawn, 1 - unknown, np.where(on_path, 1 - arrives, 1 - other)), 1 - unknown
    seconds = max(sighting.seconds, 1.0)
    came = number(row.arrives) * _arrival(chart, away, seconds)
    right = number(row.side_right)
    if sighting.side is not None:
        agrees = with_flow != (sighting.side == AHEAD)
        came = came * np.where(agrees, right, 1 - right)
        other, unknown = other / 2, unknown / 2
    seen_by = np.where(on_path, came, 0) + other / wait
    return np.where(undrawn, unknown / wait, seen_by), unknown / wait


def _arrival(chart: Chart, away: Array, seconds: float) -> Array:
    """The density of the time that water takes, log-normal about the median for the distance, 1/s."""
    row = chart.where.water
    spread = number(row.spread)
    run = np.where(np.isfinite(away), np.maximum(away, 0), 0)
    median = number(row.start) + run / number(row.speed)
    z = (log(seconds) - np.log(median)) / spread
    return np.asarray(np.exp(-0.5 * z * z) / (seconds * spread * sqrt(2 * pi)))


def stopped(chart: Chart, by_rim: bool, anew: Anew = ()) -> tuple[Array, float]:
    """The head goes no further: per m on the map, and off it; a rim before it is hardly the end of a pipe.

    `anew` is what the bends told before change of that.
    """
    row = chart.where.stopped
    others = chart.stops - (1 - number(row.rim_at_end)) * chart.end_stops if by_rim else chart.stops
    unknown = number(row.off_map) + sum(each.off for each in anew)
    for each in anew:
        others = others + np.where(chart.undrawn, each.off, each.much)
    return others, unknown


def of(
    chart: Chart, sighting: Read | Seen | Water | Stopped, rod: float, anew: Anew
) -> tuple[Array, float] | None:
    """What a sighting says at each cell and off the map; None where it says nothing but the reading."""
    if isinstance(sighting, Seen):
        return seen(chart, sighting, rod, anew)
    if isinstance(sighting, Water):
        return water(chart, sighting) if sighting.fixture in chart.fixtures else None
    # What lies in a pipe may lie anywhere: a head that it holds tells nothing of the fittings there.
    if isinstance(sighting, Stopped) and not sighting.by_dirt:
        return stopped(chart, sighting.by_rim, anew)
    return None
