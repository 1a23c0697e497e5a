"""The exact filter: how likely each cell of each way is, given every sighting so far.

State in, new state out; the log is replayed, so that an undone or a late entry is as if it had been
told in its time. A forward filter on a grid (way x rate of the counter x cell), after the discrete hidden
Markov model; the step hangs on how far the counter ran. Beside it stands a pipe that is not on the map.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from advisor.push import likelihood
from advisor.push.chart import Array, Chart
from advisor.push.normal import below
from advisor.push.sighting import Back, Read, Reset, Seen, Sighting, Still, Stopped, Water
from advisor.tables.where import number

_NOTHING = 1e-15  # a chance that no sighting can bring back
_SIGMAS = 7


@dataclass(frozen=True)
class Gone:
    """What left the map when so much rod was out: where from (flat cells), and how likely each."""

    rod: float
    cells: NDArray[np.intp]
    mass: Array

    @property
    def total(self) -> float:
        """Its chance."""
        return float(self.mass.sum())


@dataclass(frozen=True)
class Belief:
    """How likely each rate, way and cell is, [B, R, C], and what has left the map; all add up to one.

    `rod` is the rod by which the head was moved, m; `slack` what went in besides while the picture stood.
    The counter and `shift` make rod and slack; `furthest` is the most rod so far. `held` is the rod at which
    the head was told to be held and since which it has not moved; None where it has.
    """

    mass: Array
    gone: tuple[Gone, ...]
    rod: float
    shift: float
    furthest: float
    backed: bool
    slack: float = 0.0
    held: float | None = None

    @property
    def counter(self) -> float:
        """What the counter shows, m."""
        return self.rod + self.slack - self.shift

    @property
    def off_map(self) -> float:
        """Chance of a pipe that is not on the map."""
        return sum(gone.total for gone in self.gone)


class Tracker:
    """Moves beliefs along the ways of one opening; holds nothing that a sighting changes."""

    def __init__(self, chart: Chart, map_quality: str) -> None:
        """`map_quality`: measured, sketch or guess; it says how fast the head's place gets unsure."""
        self.chart, where = chart, chart.where
        chart.prepare()
        travel = where.travel
        count, off = round(number(travel.counter_steps)), number(travel.counter_off)
        rates = np.linspace(-off, off, count) if count > 1 else np.zeros(1)
        self.rates = (1 - rates) * (1 - number(travel.rod_lag))
        self.wander = number(travel.wander[map_quality])  # type: ignore[index]
        self._false = sum(number(row.false) for row in where.seen.values())
        self._off = sum(number(row.off_map) for row in where.seen.values())

    def start(self, rod: float = 0.0) -> Belief:
        """The head at the opening, `rod` m of it inside; every way as likely as it was beforehand."""
        chart = self.chart
        mass = np.zeros((len(self.rates), len(chart.ways), chart.cells))
        at = min(round(rod / chart.cell), chart.cells - 1)
        lost = number(chart.where.off_map.at_start)
        mass[:, :, at] = (1 - lost) * chart.prior[None, :] / len(self.rates)
        # This part never comes back onto the map: the opening itself leads elsewhere.
        gone = (Gone(-np.inf, np.zeros(1, np.intp), np.array([lost])),) if lost else ()
        return Belief(mass, gone, rod, 0.0, rod, backed=False)

    def replay(self, sightings: Iterable[Sighting], rod: float = 0.0) -> Belief:
        """The belief after all of them, in their order."""
        belief = self.start(rod)
        for sighting in sightings:
            belief = self.after(belief, sighting)
        return belief

    def after(self, belief: Belief, sighting: Sighting) -> Belief:
        """The belief after one more sighting; the one before is left as it is."""
        if isinstance(sighting, Still):
            # Rod went in, the head did not move: it lies in the pipe until it is drawn out again.
            return replace(belief, slack=max(sighting.counter + belief.shift - belief.rod, 0.0))
        if sighting.counter is not None:
            belief = self._let_go(self._moved(belief, sighting.counter + belief.shift))
        if isinstance(sighting, Reset):
            return replace(belief, shift=belief.rod + belief.slack - sighting.now)
        if isinstance(sighting, Back):
            return belief
        assert isinstance(sighting, Read | Seen | Water | Stopped)
        if isinstance(sighting, Stopped):
            if belief.held is not None:
                return belief  # the same stop told again is the same piece of evidence
            belief = replace(belief, held=belief.rod)
        told = likelihood.of(self.chart, sighting)
        return belief if told is None else self._weighed(belief, *told)

    def _weighed(self, belief: Belief, on_map: Array, off_map: float) -> Belief:
        mass = belief.mass * on_map[None, :, :]
        gone = tuple(replace(each, mass=each.mass * off_map) for each in belief.gone)
        return _normal(replace(belief, mass=mass, gone=gone))

    def _moved(self, belief: Belief, out: float) -> Belief:
        """The head moved by what the counter ran, less slack that came out of the pipe.

        Ground that is not new was logged the first time.
        """
        if belief.rod <= out < belief.rod + belief.slack:
            return replace(belief, slack=out - belief.rod)
        rod = out - belief.slack if out >= belief.rod else out
        belief = replace(belief, slack=belief.slack if out >= belief.rod else 0.0)
        if rod < belief.rod:
            return self._drawn_back(belief, rod)
        if belief.backed and rod > belief.rod:
            belief = replace(belief, mass=self._chosen_anew(belief.mass), backed=False)
        known = min(rod, belief.furthest)
        if known > belief.rod:
            belief = self._pushed(belief, known, new=False)
        if rod > belief.rod:
            belief = self._pushed(belief, rod, new=True)
        return belief

    def _let_go(self, belief: Belief) -> Belief:
        """Moved by as much as is judged as one place, the head is not held where it was."""
        held = belief.held
        free = held is not None and abs(belief.rod - held) >= self.chart.cell
        return replace(belief, held=None) if free else belief

    def _pushed(self, belief: Belief, rod: float, new: bool) -> Belief:
        chart, run = self.chart, rod - belief.rod
        strays = 1 - np.exp(-number(chart.where.off_map.each_metre) * run)
        left = belief.mass * strays
        cells = np.flatnonzero(left > _NOTHING)
        stray = Gone(belief.rod, cells, left.ravel()[cells])
        mass = belief.mass * (1 - strays)
        if new:
            mass = mass / chart.unlogged[None, :, :]
        mass = self._step(mass, run)
        on_map = off_map = 1.0
        if new:
            mass = mass * chart.unlogged[None, :, :]
            on_map, off_map = float(np.exp(-self._false * run)), float(np.exp(-self._off * run))
        gone = tuple(replace(each, mass=each.mass * off_map) for each in (*belief.gone, stray))
        moved = replace(belief, mass=mass * on_map, gone=gone, rod=rod, furthest=max(rod, belief.furthest))
        return _normal(moved)

    def _drawn_back(self, belief: Belief, rod: float) -> Belief:
        """Back along the same way; what had left the map further on is on it again."""
        mass = self._step(belief.mass, rod - belief.rod)
        kept = []
        for gone in belief.gone:
            if gone.rod <= rod:
                kept.append(gone)
                continue
            then = np.zeros(belief.mass.size)
            then[gone.cells] = gone.mass
            mass = mass + self._step(then.reshape(belief.mass.shape), rod - gone.rod)
        return _normal(replace(belief, mass=mass, gone=tuple(kept), rod=rod, backed=True))

    def _chosen_anew(self, mass: Array) -> Array:
        """Pushed on after drawing back, the head may take another way at every fork before it."""
        group, share = self.chart.same_so_far
        anew = [np.bincount(group.ravel(), each.ravel())[group] * share for each in mass]
        return np.stack(anew)

    def _step(self, mass: Array, run: float) -> Array:
        """Every cell spread over where the head may be after the counter ran `run` m."""
        chart = self.chart
        # Farther than twice the longest way is off its end all the same; a counter may be any number.
        farthest = 2 * chart.cells * chart.cell
        run = min(max(run, -farthest), farthest)
        spread = np.sqrt(self.wander * abs(run) + number(chart.where.travel.least_wander) ** 2)
        live = np.flatnonzero(mass.max(axis=(0, 1)) > _NOTHING)
        if not len(live):
            return mass
        low, high = int(live[0]), int(live[-1]) + 1
        shifts = self.rates * run
        first = int(np.floor((shifts.min() - _SIGMAS * spread) / chart.cell))
        last = int(np.ceil((shifts.max() + _SIGMAS * spread) / chart.cell))
        offsets = np.arange(first, last + 1)
        kernels = np.stack([_kernel(offsets * chart.cell, shift, spread, chart.cell) for shift in shifts])
        # Added up offset by offset: in one order on every machine, so that a replay is the same to the bit.
        wide = high - low
        landed = np.zeros((*mass.shape[:2], wide + len(offsets) - 1))
        from_here = mass[:, :, low:high]
        for place in range(len(offsets)):
            landed[:, :, place : place + wide] += kernels[:, place, None, None] * from_here
        return self._within(landed, low + first, forward=run > 0)

    def _within(self, landed: Array, at: int, forward: bool) -> Array:
        """What lies before the opening is at it; what lies past a closed end is mostly not so."""
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
        kept = np.where(chart.closed & forward, number(chart.where.travel.past_end), 1.0)
        moved = np.where(chart.there, moved, 0)
        moved[:, np.arange(len(chart.ways)), chart.ends] += beyond * kept[None, :]
        return moved


def _kernel(offsets: Array, shift: float, spread: float, cell: float) -> Array:
    """Chance to land in each cell: a normal distribution about `shift`, integrated over the cell."""
    edges = np.append(offsets - cell / 2, offsets[-1] + cell / 2)
    return np.diff(below((edges - shift) / spread))


def _normal(belief: Belief) -> Belief:
    """Chances that add up to one; what was certain not to be cannot have been, so nothing is impossible."""
    total = float(belief.mass.sum()) + belief.off_map
    if not total > 0:
        return belief
    gone = tuple(replace(each, mass=each.mass / total) for each in belief.gone)
    return replace(belief, mass=belief.mass / total, gone=gone)
