"""The push companion's own tracker at an opening of a practice site: one judge for practice and for push."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

import numpy as np

from advisor.push.log.sighting import Read, Sighting, Water
from advisor.push.track.chart import Chart
from advisor.push.track.checks import checks
from advisor.push.track.track import Belief, Tracker
from advisor.push.track.ways import Intent, Way, ways_from
from advisor.result.study import Study
from advisor.site.network import Piece
from advisor.tables.where import number
from advisor.worlds.spread import middle


class Tracked:
    """Where a head may be that went in at an opening; `port` where it is known which way it turned."""

    def __init__(self, study: Study, opening: Piece, port: str = "") -> None:
        rod = max(middle(study.drawn.kit(each).reel) for each in study.kit.loadouts)
        ways, _ = ways_from(study.network, opening, rod, study.tables, Intent((port,) if port else ()))
        self._beliefs: dict[float, Belief] = {}
        self.tracker = Tracker(Chart(study.network, ways, study.tables.where), study.network.map_quality)

    @cached_property
    def _ports(self) -> list[str]:
        return [way.port for way in self.tracker.chart.ways]

    def chances(self, counter: float, water: Water) -> dict[str, float]:
        """How likely the head went each way, `up` and `down`, of all that is on the map, after a check."""
        mass = self.tracker.after(self._read(counter), water).mass.sum(axis=(0, 2))
        shares = {"up": 0.0, "down": 0.0}
        for port, share in zip(self._ports, mass / mass.sum(), strict=True):
            shares[port] += float(share)
        return shares

    def _read(self, counter: float) -> Belief:
        if counter not in self._beliefs:
            self._beliefs[counter] = self.tracker.replay([Read(counter)])
        return self._beliefs[counter]

    def arrival(self, fixture: str, port: str, counter: float) -> float:
        """Seconds that water of a fixture usually takes to a head that went so far, by its likeliest way."""
        chart = self.tracker.chart
        row = self._ports.index(port)  # the ways stand with the likeliest first
        away = float(chart.path(fixture).away[row, min(round(counter / chart.cell), chart.cells - 1)])
        run = max(away, 0.0) if np.isfinite(away) else 0.0
        return float(np.rint(number(chart.where.water.start) + run / number(chart.where.water.speed)))

    def bits(self, counter: float) -> dict[str, float]:
        """What running each fixture is expected to tell of the line that the head is in."""
        found = checks(self.tracker, self._read(counter), dyes=(False,))
        return {check.fixture: check.bits for check in found}

    def next_of(self, pieces: Sequence[str], sightings: Sequence[Sighting]) -> list[float]:
        """How likely each of these pieces, in their order along the straight way, is met next.

        The head stands at the one that it is nearest to, the opening counted in; the chances add up to one.
        """
        chart, found = self.tracker.chart, np.zeros(len(pieces))
        mass = self.tracker.replay(sightings).mass.sum(axis=0)
        for row, way in enumerate(chart.ways):
            at = _starts(way, pieces)
            middles = [(low + high) / 2 for low, high in zip([0.0, *at], at, strict=False)]
            here = np.searchsorted(np.array(middles), chart.x, side="right")
            found[: len(at)] += np.bincount(here, mass[row], len(at) + 1)[: len(at)]
        total = float(found.sum())
        return [float(each) / total if total > 0 else 1 / len(pieces) for each in found]


def entry_length(study: Study, opening: str, port: str) -> float:
    """From the hand down to the line at an opening, m, as a real push counts it."""
    ways, _ = ways_from(study.network, study.network.pieces[opening], 0.0, study.tables, Intent((port,)))
    return next((way.legs[0].length for way in ways if way.port == port), 0.0)


def _starts(way: Way, pieces: Sequence[str]) -> list[float]:
    """Where a way meets the pieces, m, as far as it passes them in their order."""
    starts = {leg.piece.id: leg.start for leg in reversed(way.legs)}
    found: list[float] = []
    for piece in pieces:
        if piece not in starts:
            break
        found.append(starts[piece])
    return found
