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

from advisor.push.log.sighting import Back, Read, Reset, Seen, Sighting, Still, Stopped, Water
from advisor.push.track import likelihood
from advisor.push.track.again import TIE_IN, told_anew
from advisor.push.track.chart import Anew, Array, Chart
from advisor.push.track.chosen_anew import chosen_anew, shares_anew
from advisor.push.track.stride import NOTHING, Stride
from advisor.push.track.trail import Been, been, carried, looked_back, whole
from advisor.push.track.undrawn_bend import Told, may_be_one, one_bend
from advisor.site.mouths import Mouth
from advisor.tables.where import number


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
    the head was told to be held and since which it has not moved; None where it has. `trail` is what was
    known at each reading on the way in to here. `backed` is whether it was drawn back last. `things` are the
    rods at which something was told that places the head, each place once; what is rare stands twice.
    `ties` are the tie-ins told so far, with the rod at each, `bends` the bends and the stops; `anew` is what
    they changed at the last sighting (`again.py`, `undrawn_bend.py`).
    """

    mass: Array
    gone: tuple[Gone, ...]
    rod: float
    shift: float
    furthest: float
    backed: bool
    slack: float = 0.0
    held: float | None = None
    trail: tuple[Been, ...] = ()
    things: tuple[float, ...] = ()
    ties: tuple[tuple[float, Seen], ...] = ()
    bends: tuple[Told, ...] = ()
    anew: Anew = ()

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
        self.stride = Stride(chart, self.rates, self.wander)
        self._false = sum(chart.false(kind) for kind in where.seen)
        self._off = sum(number(row.off_map) for row in where.seen.values())
        mouths: dict[Mouth, float] = {}
        for way in chart.ways:
            mouths[way.mouth] = mouths.get(way.mouth, 0.0) + way.prior
        self._untold = max(mouths.values()) < number(where.sure.one_thing)

    def at_most(self, belief: Belief) -> float:
        """How sure anything may be told: the way that nobody told is not settled by one common thing."""
        sure = self.chart.where.sure
        return number(sure.one_thing if self._untold and len(belief.things) < 2 else sure.certain)

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
        belief = replace(belief, anew=())
        if isinstance(sighting, Still):
            if sighting.stood is not None:
                out = max(sighting.stood + belief.shift, belief.rod + belief.slack)
                belief = self._let_go(self._moved(belief, out))
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
            if belief.furthest - belief.rod >= self.chart.cell:
                # The reading was placed when the head came past it; what holds it there now may lie anywhere.
                return belief
        if isinstance(sighting, Seen) and sighting.kind == TIE_IN:
            trail = (*belief.trail, been(belief.rod, belief.mass, new=True))
            anew = told_anew(self.chart, self.stride, trail, belief.ties, sighting, belief.rod)
            belief = replace(belief, anew=anew, ties=(*belief.ties, (belief.rod, sighting)))
        elif isinstance(sighting, Seen | Stopped) and may_be_one(sighting):
            anew = one_bend(self.chart, belief.bends, sighting, belief.rod)
            belief = replace(belief, anew=anew, bends=(*belief.bends, (belief.rod, sighting, anew)))
        told = likelihood.of(self.chart, sighting, belief.rod, belief.anew)
        if told is None or isinstance(sighting, Read):
            return belief
        return self._weighed(replace(belief, things=self._things(belief, sighting)), *told)

    def was_at(self, belief: Belief, rod: float) -> Belief:
        """Where the head was with `rod` m in, on the way in to where it is: by all that was told until now.

        Of a head that is drawn back the rod lies taut; on its way in it lay as it lies further on.
        """
        return _normal(replace(self._looked_back(belief, rod), rod=rod)) if rod < belief.rod else belief

    def _things(self, belief: Belief, sighting: Seen | Water | Stopped) -> tuple[float, ...]:
        """What was told so far that places the head, with this: told at one place it is one thing."""
        where, rod = self.chart.where, belief.rod
        if isinstance(sighting, Water):
            return (*belief.things, rod) if sighting.seconds is None else (*belief.things, rod, rod)
        if any(abs(rod - each) < number(where.sure.near) for each in belief.things):
            return belief.things
        row = where.seen[sighting.kind] if isinstance(sighting, Seen) else where.stopped  # type: ignore[index]
        rare = number(row.off_map) < number(where.sure.common)
        return (*belief.things, rod, rod) if rare else (*belief.things, rod)

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
            cells = self.chart.cells
            group, share = shares_anew(self.chart, belief.mass)
            trail = (
                been(each.rod, chosen_anew(whole(each, cells), group, share), each.new)
                for each in belief.trail
            )
            anew = chosen_anew(belief.mass, group, share)
            belief = replace(belief, mass=anew, trail=tuple(trail), backed=False)
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
        cells = np.flatnonzero(left > NOTHING)
        stray = Gone(belief.rod, cells, left.ravel()[cells])
        passed = been(belief.rod, belief.mass * (1 - strays), new)
        mass = self._on(passed, run)
        on_map, off_map = np.ones(1), 1.0
        if new:
            # Only how the two stand to each other counts, and both may be too small for a number.
            least = min(self._false, self._off)
            known, off_map = (float(np.exp((least - each) * run)) for each in (self._false, self._off))
            on_map = np.where(self.chart.undrawn, off_map, known)
        gone = tuple(replace(each, mass=each.mass * off_map) for each in (*belief.gone, stray))
        furthest, trail = max(rod, belief.furthest), (*belief.trail, passed)
        moved = replace(belief, mass=mass * on_map, gone=gone, rod=rod, furthest=furthest, trail=trail)
        return _normal(moved)

    def _on(self, passed: Been, run: float) -> Array:
        """What was known at a reading carried on."""
        return carried(self.stride, passed, whole(passed, self.chart.cells), run, self.chart.unlogged)

    def _drawn_back(self, belief: Belief, rod: float) -> Belief:
        """Back along the same way, to where the head was at this reading on the way in.

        Where that was is known from what was seen before it and after it: the pipe is the same, whatever
        length the sheet gives it. Drawn taut the rod lies in no curve any more, so that the head is as far in
        as it was at a somewhat larger reading. What had left the map further on is on it again.
        """
        inside = max(min(rod / (1 - number(self.chart.where.travel.rod_lag)), belief.rod), 0.0)
        out = rod < self.chart.cell  # out again: it may go in the other way
        things, bends = ((), ()) if out else (belief.things, belief.bends)
        ties = tuple(each for each in belief.ties if each[0] < rod)  # looked at anew, from here on
        back = replace(self._looked_back(belief, inside), rod=rod, things=things, ties=ties, bends=bends)
        return _normal(replace(back, backed=True))

    def _looked_back(self, belief: Belief, rod: float) -> Belief:
        """With the places where the head was on its way in when it was out by so much rod, m."""
        mass, at, trail = belief.mass, belief.rod, list(belief.trail)
        gone = list(belief.gone)
        while trail:
            last = trail[-1]
            until = max(last.rod, rod)
            between = last if until == last.rod else been(until, self._on(last, until - last.rod), last.new)
            mass = looked_back(self.stride, between, mass, at - until, self.chart.unlogged)
            at = until
            if until > last.rod:
                break
            trail.pop()
            for each in [each for each in gone if each.rod == until]:
                then = np.zeros(mass.size)
                then[each.cells] = each.mass
                mass = mass + then.reshape(mass.shape)
                gone.remove(each)
            if until == rod:
                break
        return replace(belief, mass=mass, gone=tuple(gone), trail=tuple(trail))


def _normal(belief: Belief) -> Belief:
    """Chances that add up to one; what was certain not to be cannot have been, so nothing is impossible."""
    total = float(belief.mass.sum()) + belief.off_map
    if not total > 0:
        return belief
    gone = tuple(replace(each, mass=each.mass / total) for each in belief.gone)
    return replace(belief, mass=belief.mass / total, gone=gone)
