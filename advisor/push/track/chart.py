"""The ways of a push cut into cells: for each way and cell what lies there and what is seen there."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import pi, sqrt
from typing import Any

import numpy as np
from numpy.typing import NDArray

from advisor.push.log.sighting import CHAMBER
from advisor.push.track.landmarks import Landmark, Look
from advisor.push.track.near import Stretches
from advisor.push.track.normal import below
from advisor.push.track.ways import Way
from advisor.site.network import Network
from advisor.site.pieces import FixtureEntry
from advisor.tables.where import WhereFile, number

_FAR = 8.0  # standard deviations
_LEFT_OUT = ("tie-in", "bend")  # of what a map that nobody saw leaves out the most
Array = NDArray[np.floating[Any]]


@dataclass(frozen=True)
class Again:
    """A junction by its piece: by how `much` more (or less) likely it is told at each cell, [R, C], for what
    was told of it before; and whether that was told by its name, on another side.

    No piece: a bend that nobody drew, `off` by how much more likely it is told off the map.
    """

    piece: str
    much: Array
    taken: bool
    off: float = 0.0


Anew = tuple[Again, ...]


@dataclass(frozen=True)
class Path:
    """Where a fixture's water runs: m from the tap to each cell, [R, C], not a number off its path."""

    fixture: str
    away: Array


class Chart:
    """Arrays over ways and cells, [R, C]; cell c lies c times `cell` m along the way from the hand."""

    def __init__(self, network: Network, ways: tuple[Way, ...], where: WhereFile) -> None:
        """Raises ValueError where there is no way at all."""
        if not ways:
            raise ValueError("no way leads from this opening")
        self.network, self.ways, self.where = network, ways, where
        self.cell = number(where.travel.cell)
        self.ends = np.array([round(way.length / self.cell) for way in ways], np.intp)
        self.closed = np.array([way.closed for way in ways])
        self.cells = int(self.ends.max()) + 1
        self.x = np.arange(self.cells) * self.cell
        self.there = np.arange(self.cells)[None, :] <= self.ends[:, None]
        self.prior = np.array([way.prior for way in ways])
        self.leg = np.stack([self._legs_at(way) for way in ways])
        # An answer is a line and which way the head goes along it: an opening in a run leads both ways.
        self.runs = tuple(dict.fromkeys((leg.line, leg.with_flow) for way in ways for leg in way.legs))
        index = {run: number for number, run in enumerate(self.runs)}
        self.run = self._of_legs(lambda leg: index[leg.line, leg.with_flow], np.intp)
        self.with_flow = self._of_legs(lambda leg: leg.with_flow, np.bool_)
        starts = self._of_legs(lambda leg: leg.start, np.float64)
        places = self._of_legs(lambda leg: leg.place, np.float64)
        falls = self._of_legs(lambda leg: leg.fall, np.float64)
        self.place = places + falls * (self.x[None, :] - starts)
        # The arm opposite in a double fitting, where nobody drew it.
        self.undrawn = self._of_legs(lambda leg: leg.piece.id not in network.pieces, np.bool_)
        undrawn = {
            way.legs[-1].line: way.legs[-2].piece
            for way in ways
            if way.legs[-1].piece.id not in network.pieces
        }
        self.stretches = Stretches(network, ways[0].legs[0].piece, undrawn)
        self.stretch = self._stretches()

    def prepare(self) -> None:
        """Work out now what else the first sighting of each kind would have to wait for."""
        _ = self.unlogged, self.same_so_far, self.stops
        for kind in self.where.seen:
            self.fields(kind)
        for fixture in self.fixtures:
            self.path(fixture)

    def _stretches(self) -> NDArray[np.intp]:
        found = np.zeros(self.run.shape, np.intp)
        for index, (line, _) in enumerate(self.runs):
            here = self.run == index
            found[here] = self.stretches.index(line, self.place[here])
        return found

    def _legs_at(self, way: Way) -> NDArray[np.intp]:
        starts = np.array([leg.start for leg in way.legs])
        # Half a cell's grace: a place is the piece in which most of the cell lies.
        found = np.searchsorted(starts, self.x + 1e-9, side="right") - 1
        return np.clip(found, 0, len(starts) - 1)

    def _of_legs(self, value: Any, kind: Any) -> Any:
        rows = [
            np.array([value(leg) for leg in way.legs], kind)[self.leg[r]] for r, way in enumerate(self.ways)
        ]
        return np.stack(rows)

    @cached_property
    def unlogged(self) -> Array:
        """Chance to come as far as each cell and to have logged none of what was passed."""
        kept = np.ones((len(self.ways), self.cells))
        for row, way in enumerate(self.ways):
            for mark in way.landmarks:
                # Beside a head that is laid into its mouth it is not missed.
                seen = None if mark.beside else self.where.seen.get(mark.kind)  # type: ignore[call-overload]
                # A trap is seen, and what comes past it is not there as well.
                share = 1 - (1 - mark.bars) * (1 if seen is None else 1 - number(seen.p) * mark.there)
                spread = number(self.where.stopped.spread if seen is None else seen.spread)
                if share:
                    kept[row] *= 1 - share * self.passed(mark.at, spread)
        return kept

    @cached_property
    def same_so_far(self) -> tuple[NDArray[np.intp], Array]:
        """A number for each cell that is the same on ways that are one up to it, and each way's share."""
        nodes = np.stack([np.array(way.nodes)[self.leg[r]] for r, way in enumerate(self.ways)])
        keys = nodes * self.cells + np.arange(self.cells)[None, :]
        _, group = np.unique(np.where(self.there, keys, -1), return_inverse=True)
        group = group.reshape(keys.shape)
        prior = np.where(self.there, self.prior[:, None], 0)
        total = np.bincount(group.ravel(), prior.ravel())
        share = np.divide(prior, total[group], out=np.zeros_like(prior), where=total[group] > 0)
        return group, share

    def fields(self, kind: str) -> dict[Look, Array]:
        """For each look of a kind of landmark: how dense such sightings are at each cell, per m."""
        if kind not in self._fields:
            row = self.where.seen[kind]  # type: ignore[index]
            odds = number(row.p) / (1 - number(row.p))
            made: dict[Look, Array] = {}
            for r, way in enumerate(self.ways):
                for mark in way.landmarks:
                    if share := self.told_as(mark, kind):
                        field = made.setdefault(mark.look, np.zeros((len(self.ways), self.cells)))
                        field[r] += odds * share * self.spread(mark.at, mark.until, number(row.spread))
            self._fields[kind] = made
        return self._fields[kind]

    def false(self, kind: str) -> float:
        """How often one is told for each metre where the map has none: more where it knows less."""
        row, undrawn = self.where.seen[kind], self.where.undrawn  # type: ignore[index]
        share = number(undrawn[self.network.map_quality]) if kind in _LEFT_OUT else 0.0  # type: ignore[index]
        return (1 - share) * number(row.false) + share * number(row.off_map)

    def told_as(self, mark: Landmark, kind: str) -> float:
        """The share in which a landmark, where it is told, is told as one of that kind; less if it may not
        be there."""
        as_tie_in = number(self.where.chamber_as_tie_in) if mark.kind == CHAMBER else 0.0
        return mark.there * (1 - as_tie_in if mark.kind == kind else as_tie_in if kind == "tie-in" else 0.0)

    @cached_property
    def _fields(self) -> dict[str, dict[Look, Array]]:
        return {}

    @cached_property
    def stops(self) -> Array:
        """How dense stops of the head are at each cell, per m."""
        stopped = self.where.stopped
        found = np.where(self.undrawn, number(stopped.off_map), number(stopped.anywhere))
        for r, way in enumerate(self.ways):
            for mark in way.landmarks:
                if mark.stops:
                    found[r] += mark.stops * self.spread(mark.at, mark.until, number(stopped.spread))
        return np.asarray(found + self.end_stops)

    @cached_property
    def end_stops(self) -> Array:
        """How dense those are that the closed end of a way makes, per m."""
        stopped, found = self.where.stopped, np.zeros((len(self.ways), self.cells))
        for r, way in enumerate(self.ways):
            if way.closed:
                found[r] = number(stopped.at_end) * self.bell(way.length, number(stopped.end_spread))
        return found

    @cached_property
    def fixtures(self) -> dict[str, str]:
        """What can be run: the name of each fixture and the piece at which its water enters."""
        return {
            piece.name: piece.id
            for piece in self.network.pieces.values()
            if piece.kind in ("opening", "cap")
            and (isinstance(piece.entry, FixtureEntry) or (piece.hole is not None and piece.hole.toilet))
        }

    def path(self, fixture: str) -> Path:
        """The way of a fixture's water over the cells; raises KeyError for one that is not drawn."""
        if fixture not in self._paths:
            self._paths[fixture] = self._path(fixture)
        return self._paths[fixture]

    @cached_property
    def _paths(self) -> dict[str, Path]:
        return {}

    def _path(self, fixture: str) -> Path:
        at, tops = 0.0, {}
        for piece_id in self.network.downstream(self.fixtures[fixture]):
            tops[piece_id] = at
            at += self.network.pieces[piece_id].along

        offset = self._of_legs(lambda leg: tops.get(leg.piece.id, np.nan) - leg.top, np.float64)
        return Path(fixture, offset + self.place)

    def bell(self, at: float, spread: float) -> Array:
        """A normal density about a place along the way, 1/m, [C]."""
        return np.asarray(np.exp(-0.5 * ((self.x - at) / spread) ** 2) / (spread * sqrt(2 * pi)))

    def spread(self, at: float, until: float, spread: float) -> Array:
        """A density that is even from a place to another and blurred at both, 1/m, [C]."""
        if until - at < self.cell:
            return self.bell(at, spread)
        ends = (below((self.x - each) / spread) for each in (at, until))
        begun, over = ends
        return np.asarray((begun - over) / (until - at))

    def passed(self, at: float, spread: float) -> Array:
        """The share that has passed a place seen from so far to either side, [C]."""
        # Further off than some deviations there is nothing left to work out.
        low, high = np.searchsorted(self.x, (at - _FAR * spread, at + _FAR * spread))
        passed = np.zeros(self.cells)
        passed[high:] = 1.0
        passed[low:high] = below((self.x[low:high] - at) / spread)
        return passed
