"""The plan as it bears on one push: what is wanted from this opening, and which places are hard."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from advisor.kit.model import Loadout
from advisor.outcome.assess import RouteOutcome
from advisor.outcome.turns import Turn
from advisor.outcome.walk import HardSpot
from advisor.push.log.kinds import AS_PLANNED, PORTS, UNKNOWN
from advisor.push.track.chart import Array
from advisor.push.track.double import crossed, may_cross
from advisor.push.track.track import Belief, Tracker
from advisor.push.track.ways import Intent, Way
from advisor.result.spots import place_name
from advisor.result.study import Study
from advisor.site.fields import AssumedName
from advisor.site.mouths import Mouth, mouth_of, port_of
from advisor.site.network import Piece
from advisor.site.pieces import OpeningEntry
from advisor.tables.where import number
from advisor.worlds.spread import middle

_AT_BRANCH = ("merge", "hairpin", "leg", "fork")
Passing = tuple[str, str, str]  # piece, port in, port out


@dataclass(frozen=True)
class Met:
    """A hard spot of a route from this opening."""

    name: str
    hard: HardSpot
    outcome: RouteOutcome

    @property
    def key(self) -> Passing:
        """Piece and ports."""
        passage = self.hard.passage
        return (passage.piece.id, passage.enters, passage.leaves)

    def along(self, way: Way) -> float | None:
        """How far along a way it is met, m; None where that way does not pass it."""
        for leg in way.legs:
            if (leg.piece.id, leg.enters, leg.leaves) == self.key or self._ends_in(leg.piece.id, leg.enters):
                if self.hard.spot.by_roots:  # behind the opening's own entry, as the plan has it
                    return max(leg.start, self.hard.spot.run[0])
                inside = leg.enters == "hole"  # a step of the opening's own entry
                return middle(self.hard.spot.station.at) if inside else leg.start
        return None

    def crossed_on(self, way: Way) -> bool:
        """Whether the rod runs straight across it on a way, and has it behind as soon as it is in the arm."""
        return any((leg.piece.id, leg.enters) == self.key[:2] for leg in crossed(way.legs))

    @property
    def run(self) -> float:
        """The m over which it may be met: roots stand at any joint of their run, all else is one place.

        The run goes on to where the pipe is another, wherever the way of the plan ends.
        """
        if not self.hard.spot.by_roots:
            return 0.0
        return self._seen_run + sum(piece.along for piece in self.hard.passage.more)

    @property
    def _seen_run(self) -> float:
        """The m of that which the plan's way goes along; the same pipe may go on behind it."""
        begins, ends = self.hard.spot.run
        return ends - begins

    @property
    def stuck(self) -> float:
        """The chance that a gentle push is stopped somewhere in it: alike behind the way of the plan."""
        stuck = float(self.hard.spot.plain.stuck.mean())
        if not self.run or not self._seen_run:
            return stuck
        return float(1 - (1 - stuck) ** (self.run / self._seen_run))

    def roots_left(self, passed: float) -> float:
        """The chance of roots in a run of which `passed` m showed none.

        Places with roots are scattered as chance has it, so many a metre: that a part shows none tells of the
        rest by what it tells of the pipe.
        """
        roots = self.hard.spot.shape.roots
        if roots is None:
            return 0.0
        none = np.exp(-roots.per_metre * passed)
        left = np.exp(-roots.per_metre * max(self.run - passed, 0.0))
        return mean(1 - left, none)

    def until(self, way: Way) -> float | None:
        """Where along a way it is left behind, m; None where that way does not pass it."""
        along = self.along(way)
        return None if along is None else along + self.run

    def _ends_in(self, piece: str, enters: str) -> bool:
        return not self.key[2] and self.key[:2] == (piece, enters)


class Course:
    """Everything that a study says of pushes from one opening with one loadout."""

    def __init__(self, study: Study, opening: Piece, loadout: Loadout) -> None:
        self.study, self.opening, self.loadout = study, opening, loadout
        settled = {outcome.route.id: outcome for outcome in study.settled.attempts}
        self.outcomes = tuple(
            settled.get(each.route.id, each) if settled.get(each.route.id, each).loadout == loadout else each
            for each in study.outcomes
            if each.route.opening.id == opening.id and each.loadout == loadout
        )

    @cached_property
    def wanted(self) -> RouteOutcome | None:
        """The route that is being pushed, as far as the plan has one from here."""
        return max(self.outcomes, key=lambda each: (each.route.covers, each.chance), default=None)

    def leads_into(self, arm: Piece) -> bool:
        """Whether the way that is wanted goes into the side line of this junction."""
        passages = self.wanted.route.passages if self.wanted else ()
        return any((each.piece.id, each.leaves) == (arm.id, "branch") for each in passages)

    @cached_property
    def spots(self) -> tuple[Met, ...]:
        """Every hard spot on a route from here, those of the wanted route first."""
        found: dict[tuple[Passing, int], Met] = {}
        first = [self.wanted] if self.wanted else []
        for outcome in (*first, *self.outcomes):
            for hard in outcome.spots:
                met = Met(place_name(hard, self.study.reader), hard, outcome)
                found.setdefault((met.key, hard.passage.step_number), met)
        return tuple(found.values())

    @property
    def hard(self) -> tuple[Met, ...]:
        """Those at which a gentle push may well stop or bend the rod too tight; others are for a caution."""
        likely = self.study.drawn.likely
        bound, tight = likely("hard_chance"), likely("unlikely_share")
        return tuple(
            met
            for met in self.spots
            if float(met.hard.spot.plain.passes.mean()) < bound or met.hard.spot.shape.bends_too_tight > tight
        )

    @property
    def rooty(self) -> tuple[Met, ...]:
        """The runs in which the plan tells of roots, though a gentle push mostly comes through."""
        hard = {met.key for met in self.hard}  # two runs of one line share their name
        return tuple(met for met in self.spots if self._tells_of_roots(met) and met.key not in hard)

    def _tells_of_roots(self, met: Met) -> bool:
        roots = met.hard.spot.shape.roots
        least = self.study.drawn.likely("notable_share")
        return bool(met.run) and roots is not None and float(roots.there.mean()) >= least

    @property
    def turns(self) -> bool:
        """Whether a way from here turns anywhere, as the plan counts turns; where there is no way it may."""
        return not self._turns or any(turn.bends or turn.way in ("stop", "fork") for turn in self._turns)

    @property
    def branches(self) -> bool:
        """Whether a way from here comes out of a branch, or to one; where there is no way it may."""
        return not self._turns or any(turn.way in _AT_BRANCH for turn in self._turns)

    @cached_property
    def _turns(self) -> tuple[Turn, ...]:
        return tuple(shape.turn for outcome in self.outcomes for shape in outcome.geometries)

    @property
    def way_told(self) -> bool:
        """Whether the kind of the opening, not an assumed one, tells which way it leads."""
        entry, hole = self.opening.entry, self.opening.hole
        if hole is None or not isinstance(entry, OpeningEntry) or isinstance(entry.kind, AssumedName | None):
            return False
        return self.study.tables.openings[hole.kind].tells_way

    def intent(self, direction: str, mouth: Mouth | None = None) -> Intent:
        """What the filter is told of the plan, and of the way in, and the mouth, that was told."""
        wanted = self.wanted
        sticks = {met.key: self._sticks(met) for met in reversed(self.spots)}
        crosses = {met.key[0]: _crosses(met) for met in reversed(self.spots) if met.key[1] == "branch"}
        runs = {met.key: met.run for met in self.spots if met.run}
        ports = PORTS.get(direction, ())
        if direction == UNKNOWN and self.way_told:
            ports = ()  # as its kind says: not seen at the rim, but told with the kind
        if wanted is None:
            return Intent(ports=ports, sticks=sticks, runs=runs, crosses=crosses, mouth=mouth)
        passages = wanted.route.passages
        if direction == AS_PLANNED:
            ports = (port_of(passages, self.study.tables),)
        steers = {
            (p.piece.id, p.enters): p.leaves for p in passages if p.piece.kind == "junction" and p.leaves
        }
        main_up = passages[0].leaves == "up" and mouth_of(passages, self.study.tables) is None
        return Intent(ports, steers, sticks, runs, crosses, main_up, mouth)

    def _sticks(self, met: Met) -> float:
        """The chance that a gentle push is stopped there: one that runs across a double fitting goes on."""
        plain = met.hard.spot.plain
        stuck, over = met.stuck, float(plain.crosses.mean())
        if not may_cross(self.study.network, met.hard.passage.piece, self.study.tables):
            return stuck
        return (stuck - over) / max(1 - over, 1e-6)

    def spots_here(
        self, tracker: Tracker, belief: Belief, out: bool = False
    ) -> tuple[tuple[Met, float], ...]:
        """Each hard spot with the chance that the head is held there, likeliest first.

        Held as it is drawn `out`, that is the chance that it is there at all: what stops a head on its way in
        draws no stop of the way out to it, and in a run with roots what is seen and felt tells.
        """
        chart = tracker.chart
        mass = belief.mass.sum(axis=0)
        spread = number(chart.where.stopped.spread)
        found: list[tuple[Met, float]] = []
        for met in self.spots:
            stick = self._sticks(met)
            here = 0.0
            for r, way in enumerate(chart.ways):
                along, until = met.along(way), met.until(way)
                if along is None or until is None:
                    continue
                if not out:
                    here += stick * float(mass[r] @ chart.spread(along, until, spread))
                elif not met.run:
                    here += float(mass[r, abs(chart.x - along) <= spread].sum())
            found.append((met, here))
        # The chart's own stops hold those of the plan too.
        anywhere = float((mass * chart.stops).sum()) + number(chart.where.stopped.off_map) * belief.off_map
        total = max(1.0 if out else anywhere, sum(here for _, here in found), 1e-12)
        shares = [(met, min(here / total, 0.99)) for met, here in found]
        return tuple(sorted(shares, key=lambda each: -each[1]))

    def among_roots(self, tracker: Tracker, belief: Belief) -> Met | None:
        """The run in which the plan tells of roots and the head most likely is, held or not; else None."""
        return next((met for met, inside in self._in_roots(tracker, belief, 0.0) if inside > 0.5), None)

    def may_be_among_roots(self, tracker: Tracker, belief: Belief) -> tuple[Met, ...]:
        """Each run in which the plan tells of roots and the head may well be, likeliest first.

        What holds it may stand before its nose by as much as a stop is told off its place.
        """
        spread, least = number(tracker.chart.where.stopped.spread), number(self.study.tables.stuck.tell.here)
        found = [each for each in self._in_roots(tracker, belief, spread) if each[1] >= least]
        return tuple(met for met, _ in sorted(found, key=lambda each: -each[1]))

    def _in_roots(self, tracker: Tracker, belief: Belief, off: float) -> Iterator[tuple[Met, float]]:
        """Each run with roots, and how likely the head, if on the map, is in it or within `off` m of it."""
        chart, mass = tracker.chart, belief.mass.sum(axis=0)
        on_map = max(float(mass.sum()), 1e-12)
        for met in self.spots:
            if not self._tells_of_roots(met):
                continue
            inside = 0.0
            for r, way in enumerate(chart.ways):
                along, until = met.along(way), met.until(way)
                if along is not None and until is not None:
                    inside += float(mass[r, (chart.x >= along - off) & (chart.x <= until + off)].sum())
            yield met, inside / on_map


def _crosses(met: Met) -> float:
    """Of the gentle pushes that go on from a fitting, the share that runs across into the arm opposite."""
    plain = met.hard.spot.plain
    over = float(plain.crosses.mean())
    return over / max(over + float((plain.passes + plain.wrong_way).mean()), 1e-6)


def mean(values: Array, weights: Array) -> float:
    """The mean over worlds of these weights."""
    return float((values * weights).sum() / max(float(weights.sum()), 1e-12))
