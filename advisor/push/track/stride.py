"""How the head's place spreads while the counter runs: one step of the filter, forth and looked back on.

Where the sheet gives a pipe a range, its length is as unsure as that and not as the map: plan and card draw
the pipe from the same range. Over many steps, the rod that it takes to come m metres further on the drawing
has the mean m/v and the variance m D/v^3, where a metre of rod leads v metres on with the variance D: so v
and D are chosen such that both are those of the length that the sheet believes. A pipe that is known less
well than the map is passed in steps that may be short or long but never go back.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from advisor.push.track.chart import Array, Chart
from advisor.push.track.gamma import on_cells
from advisor.push.track.normal import below
from advisor.quantity import Estimate
from advisor.site.believed import is_range
from advisor.site.network import Length
from advisor.tables.where import number

NOTHING = 1e-15  # a chance that no sighting can bring back
_SIGMAS = 7
_ROUND = 3
Pace = tuple[float, float]  # m on the drawing for each m of rod, and m2 of wander for each


def pace(length: Length | None, wander: float, least: float) -> Pace:
    """m on the drawing for each m of rod, and m2 of wander for each, in a pipe of such a length.

    `wander` is that of the map as a whole, for one number that is no worse than that; `least` that of a
    measured map: what is seen and drawn is off by as much, however narrow a range is told.
    """
    if not isinstance(length, Estimate) or length.likely <= 0:
        return 1.0, wander
    a, c, b = length.low, length.likely, length.high
    mean = (a + b + c) / 3
    vary = (a * a + b * b + c * c - a * b - a * c - b * c) / 18  # of a triangle between its ends
    if not is_range(length) and vary <= wander * c:
        return 1.0, wander
    advance = c / mean
    return round(advance, _ROUND), max(round(vary * advance**3 / c, _ROUND), least)


@dataclass(frozen=True)
class _Loose:
    """A pipe of hardly known length on a way: its cells, from the first up to `end`, where it is left."""

    row: int
    first: int
    end: int
    pace: Pace

    def spread(self, mass: Array, kernels: Array) -> Array:
        """Its cells [B, n] led on by 0 to n of them, [B, n + 1]: what leads out of it lies at its end."""
        count = mass.shape[1]
        found = np.zeros((mass.shape[0], count + 1))
        for place in range(count + 1):
            by = kernels[:, place, None] * mass
            found[:, place:count] += by[:, : count - place]
            found[:, count] += by[:, count - place :].sum(axis=1)
        return found

    def expected(self, worth: Array, kernels: Array) -> Array:
        """The mean of `worth`, [B, n + 1], over where each of its cells leads, [B, n]."""
        count = worth.shape[1] - 1
        found = np.zeros((worth.shape[0], count))
        for place in range(count + 1):
            to = np.minimum(np.arange(count) + place, count)
            found += kernels[:, place, None] * worth[:, to]
        return found


class Stride:
    """Steps of the filter over the ways of one chart."""

    def __init__(self, chart: Chart, rates: Array, wander: float) -> None:
        self.chart, self.rates = chart, rates
        travel = chart.where.travel
        self._least, self._longest = number(travel.least_wander), number(travel.stride)
        self._led: dict[tuple[int, Pace, float], Array] = {}  # the same for pipes alike
        self._spreads: dict[tuple[float, Pace], tuple[int, Array]] = {}
        measured = min(number(travel.wander["measured"]), wander)
        told = [[pace(leg.piece.length, wander, measured) for leg in way.legs] for way in chart.ways]
        self.paces = tuple(dict.fromkeys([(1.0, wander), *(each for way in told for each in way)]))
        index = {each: place for place, each in enumerate(self.paces)}
        rows = [np.array([index[each] for each in way])[chart.leg[r]] for r, way in enumerate(told)]
        self._pace = np.stack(rows)
        self._loose = tuple(
            _Loose(row, int(cells[0]), min(int(cells[-1]) + 1, int(chart.ends[row])), told[row][leg])
            for row, way in enumerate(chart.ways)
            for leg in range(len(way.legs))
            if told[row][leg][1] > wander
            if len(cells := np.flatnonzero((chart.leg[row] == leg) & chart.there[row]))
        )

        # Each pace that is no looser than the map, with the cells that have it.
        self._firm = tuple(
            (each, self._pace == place)
            for each, place in index.items()
            if each[1] <= wander and (place == 0 or (self._pace == place).any())
        )
        self._alike = len(self._firm) == 1 and not self._loose

    @cached_property
    def rod_to(self) -> tuple[Array, Array]:
        """Mean rod, m, and its variance, m2, from the opening to each cell, [R, C]: by the sheet."""
        advance, wander = np.array(self.paces).T
        mean, vary = 1 / advance, wander / advance**3
        runs = [np.cumsum(each[self._pace], axis=1) * self.chart.cell for each in (mean, vary)]
        return runs[0], runs[1]

    def ahead(self, row: int, at: float) -> tuple[Array, Array]:
        """The same from each cell of a way to a place `at` m along it, [C]; less than nothing behind it."""
        cells = np.arange(self.chart.cells) * self.chart.cell
        mean, vary = (each[row] for each in self.rod_to)
        return np.interp(at, cells, mean) - mean, np.interp(at, cells, vary) - vary

    def forth(self, mass: Array, run: float) -> Array:
        """Every cell spread over where the head may be after `run` m of rod, [B, R, C].

        What comes past a closed end in one of the steps is at it for the rest, and speaks against it once.
        """
        past = np.zeros(mass.shape[:2])
        for step in self._steps(run):
            made = np.zeros_like(mass)
            for pace, here in self._firm:
                part, beyond = self._spread(mass if self._alike else np.where(here, mass, 0), step, pace)
                made, past = made + part, past + beyond
            for pipe in self._loose:
                here = mass[:, pipe.row, pipe.first : pipe.end]
                if here.any():
                    made[:, pipe.row, pipe.first : pipe.end + 1] += pipe.spread(
                        here, self._onward(pipe, step)
                    )
            mass = made
        mass = mass.copy()
        mass[:, np.arange(len(self.chart.ways)), self.chart.ends] += past * self._kept[None, :]
        return mass

    def back(self, worth: Array, run: float) -> Array:
        """What is expected of `worth` where the head is `run` m of rod later, for each place before."""
        past = worth[:, np.arange(len(self.chart.ways)), self.chart.ends] * self._kept[None, :]
        for step in self._steps(run):
            made = np.zeros_like(worth)
            for pace, here in self._firm:
                made += np.where(here, self._expected(worth, past, step, pace), 0)
            for pipe in self._loose:
                there = worth[:, pipe.row, pipe.first : pipe.end + 1]
                made[:, pipe.row, pipe.first : pipe.end] = pipe.expected(there, self._onward(pipe, step))
            worth = made
        return worth

    def _onward(self, pipe: _Loose, run: float) -> Array:
        """For each rate the chance to come on by so many cells, in a pipe that the sheet hardly knows."""
        key = pipe.end - pipe.first, pipe.pace, run
        if key not in self._led:
            count, (advance, wander), cell = key[0], pipe.pace, self.chart.cell
            means = self.rates * run * advance
            kernels = np.stack([on_cells(float(mean), wander * run, cell, count) for mean in means])
            # Whatever leads further is at the end of it, where the next pipe has its own pace.
            over = np.maximum(1 - kernels.sum(axis=1, keepdims=True), 0)
            self._led[key] = np.append(kernels, over, axis=1)
        return self._led[key]

    def _steps(self, run: float) -> list[float]:
        # Farther than twice the longest way is off its end all the same; a counter may be any number.
        run = min(run, 2 * self.chart.cells * self.chart.cell)
        count = 1 if self._alike else max(int(np.ceil(run / self._longest)), 1)
        return [run / count] * count

    def _kernels(self, run: float, pace: Pace) -> tuple[int, Array]:
        """The first offset in cells, and for each rate the chance of each offset from there on."""
        key = run, pace
        if key not in self._spreads:  # the steps of one length are alike, and its way back takes them again
            self._spreads[key] = self._spread_by(run, pace)
        return self._spreads[key]

    def _spread_by(self, run: float, pace: Pace) -> tuple[int, Array]:
        cell, (advance, wander) = self.chart.cell, pace
        spread = np.sqrt(wander * run + self._least**2)
        shifts = self.rates * run * advance
        first = int(np.floor((shifts.min() - _SIGMAS * spread) / cell))
        last = int(np.ceil((shifts.max() + _SIGMAS * spread) / cell))
        offsets = np.arange(first, last + 1) * cell
        return first, np.stack([_kernel(offsets, shift, spread, cell) for shift in shifts])

    def _spread(self, mass: Array, run: float, pace: Pace) -> tuple[Array, Array]:
        """What stays on the ways, [B, R, C], and what comes past their ends, [B, R]."""
        live = np.flatnonzero(mass.max(axis=(0, 1)) > NOTHING)
        if not len(live):
            return np.zeros_like(mass), np.zeros(mass.shape[:2])
        low, high = int(live[0]), int(live[-1]) + 1
        first, kernels = self._kernels(run, pace)
        # Added up offset by offset: in one order on every machine, so that a replay is the same to the bit.
        wide = high - low
        landed = np.zeros((*mass.shape[:2], wide + kernels.shape[1] - 1))
        from_here = mass[:, :, low:high]
        for place in range(kernels.shape[1]):
            landed[:, :, place : place + wide] += kernels[:, place, None, None] * from_here
        return self._within(landed, low + first)

    def _within(self, landed: Array, at: int) -> tuple[Array, Array]:
        """What lies before the opening is at it; what lies past the ends is told apart."""
        chart = self.chart
        moved = np.zeros((*landed.shape[:2], chart.cells))
        wide = landed.shape[2]
        low, high = max(at, 0), min(at + wide, chart.cells)
        if high > low:
            moved[:, :, low:high] = landed[:, :, low - at : high - at]
        if at < 0:
            moved[:, :, 0] += landed[:, :, : min(-at, wide)].sum(axis=2)
        beyond = np.where(chart.there, 0, moved).sum(axis=2)
        if at + wide > chart.cells:
            beyond += landed[:, :, max(chart.cells - at, 0) :].sum(axis=2)
        return np.where(chart.there, moved, 0), beyond

    @property
    def _kept(self) -> Array:
        """What lies past a closed end is mostly not so."""
        return np.where(self.chart.closed, number(self.chart.where.travel.past_end), 1.0)

    def _expected(self, worth: Array, at_end: Array, run: float, pace: Pace) -> Array:
        """The mean of `worth` over where each cell leads, `at_end` of it past an end: as forth, gathered."""
        chart = self.chart
        first, kernels = self._kernels(run, pace)
        inside = np.where(chart.there, worth, at_end[:, :, None])
        before, after = max(-first, 0), max(first + kernels.shape[1], 0)
        lead = np.repeat(worth[:, :, :1], before, axis=2)
        tail = np.repeat(at_end[:, :, None], after, axis=2)
        wide = np.concatenate([lead, inside, tail], axis=2)
        found = np.zeros_like(worth)
        for place in range(kernels.shape[1]):
            start = before + first + place
            found += kernels[:, place, None, None] * wide[:, :, start : start + chart.cells]
        return np.where(chart.there, found, 0)


def _kernel(offsets: Array, shift: float, spread: float, cell: float) -> Array:
    """Chance to land in each cell: a normal distribution about `shift`, integrated over the cell."""
    edges = np.append(offsets - cell / 2, offsets[-1] + cell / 2)
    return np.diff(below((edges - shift) / spread))
