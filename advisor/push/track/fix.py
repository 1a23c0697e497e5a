"""Where the head is, said as an answer: the line, how far along it, how sure, and which way is downstream."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from advisor.push.log.sighting import Seen
from advisor.push.track.chart import Array
from advisor.push.track.landmarks import Landmark
from advisor.push.track.likelihood import looks, seen
from advisor.push.track.track import Belief, Tracker
from advisor.tables.where import number


@dataclass(frozen=True)
class Place:
    """A line that the head may be in, and which way along it; distances in m from the line's upper end.

    `share` is the chance of the line and the way along it; `chance` that of the pipe named, from fork to
    fork, or of being so near to the place named that it makes no difference (rules/signs/where.yaml). `low`
    to `high` hold 80 % of what is on the line. `inside` is the same place as m of pipe from the hand by the
    sheet, the opening's own entry in it as the counter has it, and `least` to `most` its 80 %.
    """

    line: str
    share: float
    chance: float
    at: float
    low: float
    high: float
    with_flow: bool  # the head looks downstream
    inside: float
    least: float
    most: float

    @property
    def alone(self) -> float:
        """Its chance beside other places and a pipe that is not on the map: what lies near it on another line
        is told as that one."""
        return min(self.share, self.chance)


@dataclass(frozen=True)
class Fix:
    """Where the head is: the lines, likeliest first, and the chance of a pipe that is not on the map.

    Nothing is told as surer than `most`.
    """

    places: tuple[Place, ...]
    off_map: float
    rod: float
    most: float

    @property
    def best(self) -> Place:
        """The likeliest line."""
        return self.places[0]

    @property
    def second(self) -> Place | None:
        """The next likeliest line."""
        return self.places[1] if len(self.places) > 1 else None

    @property
    def downstream(self) -> float:
        """Chance that downstream is ahead of the lens; of what is on the map."""
        total = sum(place.share for place in self.places)
        ahead = sum(place.share for place in self.places if place.with_flow)
        return min(max(ahead / total, 1 - self.most), self.most) if total else 0.5


def fix_of(tracker: Tracker, belief: Belief, most: float = 1.0) -> Fix:
    """The answer that a belief gives; every one with more than a thousandth, and none surer than `most`."""
    chart, most = tracker.chart, min(most, tracker.at_most(belief))
    mass = belief.mass.sum(axis=0)
    shares = np.bincount(chart.run.ravel(), mass.ravel(), len(chart.runs))
    places = [
        _place(tracker, mass, index, float(shares[index]), most)
        for index in np.argsort(-shares, kind="stable")
        if shares[index] > 1e-3
    ]
    if not places:
        index = int(np.argmax(shares))
        places = [_place(tracker, mass, index, float(shares[index]), most)]
    return Fix(tuple(places), min(belief.off_map, most), belief.rod, most)


def _place(tracker: Tracker, mass: Array, index: int, share: float, most: float) -> Place:
    chart = tracker.chart
    here = chart.run == index
    at, low, high = quantiles(chart.place[here], mass[here], (0.5, 0.1, 0.9))
    inside, least, farthest = quantiles(
        np.broadcast_to(chart.x, here.shape)[here], mass[here], (0.5, 0.1, 0.9)
    )
    line, with_flow = chart.runs[index]
    near = chart.stretches.near(line, at, number(chart.where.sure.near))
    chance = float(mass[np.isin(chart.stretch, list(near))].sum())
    known = min(share, most), min(chance, most)
    return Place(line, *known, at, low, high, with_flow, inside, least, farthest)


@dataclass(frozen=True)
class Named:
    """What a landmark that was just seen is, on the map."""

    landmark: Landmark
    chance: float


def named(tracker: Tracker, belief: Belief, sighting: Seen) -> tuple[Named, ...]:
    """Which landmark it was that was just told, likeliest first; the rest is none that is drawn.

    `belief` is that after it was told. Place, hour, size and material all weigh: at each place the landmark
    has the share that it has in how likely such a sighting is there.
    """
    chart = tracker.chart
    mass = belief.mass.sum(axis=0)
    row = chart.where.seen[sighting.kind]  # type: ignore[index]
    odds = number(row.p) / (1 - number(row.p))
    on_map, _ = seen(chart, sighting, belief.rod, belief.anew)
    shares: dict[str, tuple[Landmark, float]] = {}
    nothing, anew = np.zeros(mass.shape), {each.piece: each.much for each in belief.anew}
    for r, way in enumerate(chart.ways):
        for mark in way.landmarks:
            if share := chart.told_as(mark, sighting.kind):
                told = odds * share * looks(chart, sighting, mark.look, belief.rod)
                here = told * chart.spread(mark.at, mark.until, number(row.spread))
                here = (here + anew.get(mark.piece.id, nothing)[r]) / on_map[r]
                before = shares.get(mark.piece.id, (mark, 0.0))[1]
                shares[mark.piece.id] = mark, before + float(mass[r] @ here)
    most = tracker.at_most(belief)
    found = [Named(mark, min(each, most)) for mark, each in shares.values() if each > 0]
    return tuple(sorted(found, key=lambda one: (-one.chance, one.landmark.piece.id)))


def called(tracker: Tracker, belief: Belief, sighting: Seen, least: float | None = None) -> Named | None:
    """What it most likely was that was just told; None where that is less sure than to be called by its name.

    `least` is how sure it must be, where that is told. One name for two, told on two sides, is settled first.
    """
    sure = tracker.chart.where.sure
    best = next(iter(named(tracker, belief, sighting)), None)
    if best is not None and any(each.taken and each.piece == best.landmark.piece.id for each in belief.anew):
        least = number(sure.settles)
    least = number(sure.name_landmark) if least is None else least
    return best if best is not None and best.chance >= least else None


def on_no_sheet(tracker: Tracker, belief: Belief, sighting: Seen) -> float:
    """How likely what was just told lies in a pipe of the map, and the sheet draws it nowhere."""
    drawn = sum(each.chance for each in named(tracker, belief, sighting))
    return min(max(float(belief.mass.sum()) - drawn, 0.0), tracker.at_most(belief))


def quantiles(values: Array, weights: Array, shares: tuple[float, ...]) -> list[float]:
    """The values below which these shares of the weight lie; 0 where there are none."""
    order = np.argsort(values, kind="stable")
    so_far = np.cumsum(weights[order])
    if not len(so_far) or so_far[-1] <= 0:
        return [float(values[0]) if len(values) else 0.0] * len(shares)
    found = np.searchsorted(so_far, np.array(shares) * so_far[-1])
    return [float(values[order][min(each, len(order) - 1)]) for each in found]


def warned(tracker: Tracker, fix: Fix) -> bool:
    """True where a pipe that is not on the map is likely enough to be told."""
    return fix.off_map > number(tracker.chart.where.off_map.told_from)
