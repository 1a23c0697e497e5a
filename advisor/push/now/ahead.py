"""What comes next: the next landmark with its counter readings, and the next hard passage."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from advisor.push.log.sighting import Read
from advisor.push.now.course import Met
from advisor.push.track.chart import Array
from advisor.push.track.fix import Fix, fix_of
from advisor.push.track.landmarks import Landmark
from advisor.push.track.track import Belief, Tracker
from advisor.site.network import Piece
from advisor.tables.where import number

_TENTH = 1.28  # standard deviations below which a tenth of a normal distribution lies
_LEAST = 1e-6


@dataclass(frozen=True)
class Ahead:
    """The next landmark: how likely it is that one, if it is there at all, and at which counter readings
    (80 %) it comes, m."""

    landmark: Landmark
    chance: float
    low: float
    likely: float
    high: float


@dataclass(frozen=True)
class Hard:
    """The next hard passage: how likely the head comes to it, and where it stands on the counter, m.

    A run with roots is told from where it may begin to where it may end, `by_sheet` by that and not by where
    the head may be; `likely` is its beginning.
    `slow_from` is the reading from which on to go slowly: some way before the first place where it may be.
    """

    met: Met
    chance: float
    low: float
    likely: float
    high: float
    slow_from: float
    by_sheet: bool = False


@dataclass(frozen=True)
class NotPast:
    """What the head must not go past, and where it stands on the counter, m.

    `holds` is the kind of trap, valve or tank; None where the drain ends, in a sewer mostly.
    """

    piece: Piece
    holds: str | None
    low: float
    likely: float
    high: float
    slow_from: float


def next_landmarks(tracker: Tracker, belief: Belief) -> tuple[Ahead, ...]:
    """What the lens meets next, likeliest first."""
    chart = tracker.chart
    spread = max(number(row.spread) for row in chart.where.seen.values())
    least = number(chart.where.sure.tell_next)
    found: dict[tuple[str, str], list[tuple[Landmark, _Run]]] = {}
    for r, way in enumerate(chart.ways):
        marks = [mark for mark in way.landmarks if mark.kind and not mark.beside]
        if not marks or float(belief.mass[:, r].sum()) < _LEAST:
            continue
        ends = np.array([mark.at for mark in marks])
        # What is nearer than its own spread has been seen or missed by now.
        following = np.searchsorted(ends, chart.x + spread)
        for index, mark in enumerate(marks):
            cells = np.flatnonzero(following == index)
            if len(cells):
                run = _run(tracker, belief, r, cells, mark.at)
                found.setdefault((mark.piece.id, mark.kind), []).append((mark, run))
    told = []
    for parts in found.values():
        runs = [run for _, run in parts]
        if sum(run.chance for run in runs) >= least:
            told.append(Ahead(parts[0][0], *_spread(belief, runs, spread)))
    return tuple(sorted(told, key=lambda each: (-each.chance, each.landmark.piece.id)))


def may_not_pass(tracker: Tracker, belief: Belief) -> tuple[NotPast, ...]:
    """What the head may come to and must not go past; each lies ahead until the head is in it.

    A trap, valve or tank, also where a line is told to end in one, or where the drain ends.
    """
    chart, told = tracker.chart, []
    spread, sure = number(chart.where.stopped.spread), chart.where.sure
    for piece in {m.piece.id: m.piece for way in chart.ways for m in way.landmarks}.values():
        if piece.kind not in ("stopper", "end"):
            continue
        runs = [
            _run(tracker, belief, r, np.flatnonzero(chart.x < at + spread), at)
            for r, at in lies_at(tracker, piece)
        ]
        # That the pipe may be off the map does not show that it leads nowhere that holds the head.
        if sum(run.chance for run in runs) >= number(sure.tell_next) * on_map(belief):
            _, low, likely, high = _spread(belief, runs, spread)
            told.append(NotPast(piece, piece.holds, low, likely, high, low - number(sure.warn_before)))
    return tuple(told)


def on_map(belief: Belief) -> float:
    """The chance that the head is in a pipe of the map; never quite nothing."""
    return max(1 - belief.off_map, _LEAST)


def on_way_to(tracker: Tracker, belief: Belief, piece: Piece) -> float:
    """The chance that the head is on a way that leads to a piece, before it or past it."""
    return float(sum(belief.mass[:, r].sum() for r, _ in lies_at(tracker, piece)))


def lies_at(tracker: Tracker, piece: Piece) -> Iterator[tuple[int, float]]:
    """Each way that leads to a piece, by its row, and how far along it, m."""
    for r, way in enumerate(tracker.chart.ways):
        at = next((mark.at for mark in way.landmarks if mark.piece.id == piece.id), None)
        if at is not None:
            yield r, at


def next_hard(tracker: Tracker, belief: Belief, spots: Iterable[Met], passed: frozenset[str]) -> Hard | None:
    """The one of some `spots` to which the head most likely comes first; those `passed` are behind it."""
    chart = tracker.chart
    spread, sure = number(chart.where.stopped.spread), chart.where.sure
    told = []
    for met in spots:
        if met.name in passed:
            continue
        runs, ends = [], []
        for r, way in enumerate(chart.ways):
            along, until = met.along(way), met.until(way)
            if along is None or until is None:
                continue
            cells = np.flatnonzero(chart.x < until + (0.0 if met.crossed_on(way) else spread))
            # A head among the joints of a run with roots is at the hard place until it is out of the run.
            within = (along < chart.x[cells]) & (chart.x[cells] < until)
            runs.append(_run(tracker, belief, r, cells, along, within))
            ends.append(_run(tracker, belief, r, cells, until))
        if runs and sum(run.chance for run in runs) >= number(sure.tell_next):
            at, last = (_spread(belief, each, spread) for each in (runs, ends))
            told.append(Hard(met, *at[:3], last[3], at[1] - number(sure.warn_before)))
    return min(told, key=lambda each: each.likely, default=None)


def on_run(tracker: Tracker, belief: Belief, line: str, with_flow: bool) -> Belief:
    """The belief if the head is on that line and goes that way: what would then come next?"""
    chart = tracker.chart
    here = chart.run == chart.runs.index((line, with_flow))
    mass = np.where(here[None, :, :], belief.mass, 0)
    total = float(mass.sum())
    return replace(belief, mass=mass / total, gone=()) if total > 0 else belief


def if_not_seen(tracker: Tracker, belief: Belief, ahead: Ahead) -> Fix:
    """Where the head would be taken to be if the counter ran past a landmark with nothing to be told."""
    reading = max(ahead.high, belief.counter)
    return fix_of(tracker, tracker.after(belief, Read(reading)))


@dataclass(frozen=True)
class _Run:
    """Rod from each place on one way to a landmark, m, its variance, m2, and how likely each place is."""

    rod: Array
    vary: Array
    weights: Array

    @property
    def chance(self) -> float:
        return float(self.weights.sum())


def _run(
    tracker: Tracker,
    belief: Belief,
    row: int,
    cells: NDArray[np.intp],
    at: float,
    within: NDArray[np.bool_] | bool = False,
) -> _Run:
    """By what the sheet knows of each pipe between: one of unknown length may be any.

    No rod is needed from the places that are `within` what lies at `at`.
    """
    rod, vary = (np.where(within, 0.0, each[cells]) for each in tracker.stride.ahead(row, at))
    readings = rod[None, :] / tracker.rates[:, None]
    varies = np.broadcast_to(np.maximum(vary, 0.0), readings.shape)
    return _Run(readings.ravel(), varies.ravel(), belief.mass[:, row, cells].ravel())


def _spread(belief: Belief, runs: Sequence[_Run], spread: float) -> tuple[float, float, float, float]:
    """Chance, and the counter at the tenth, the middle and the ninetieth of a hundred cases.

    No case lies before the opening: that is where the counter shows what it showed there.
    """
    rod, varies, weights = (np.concatenate(each) for each in zip(*map(_parts, runs), strict=True))
    shown, opening = belief.counter, max(0.0, -belief.shift)
    total = float(weights.sum())
    middle = float((rod * weights).sum() / total)
    vary = float((((rod - middle) ** 2 + varies) * weights).sum() / total)
    slack = _TENTH * float(np.sqrt(vary + spread**2))
    return min(total, 0.99), max(shown + middle - slack, opening), shown + middle, shown + middle + slack


def _parts(run: _Run) -> tuple[Array, Array, Array]:
    return run.rod, run.vary, run.weights
