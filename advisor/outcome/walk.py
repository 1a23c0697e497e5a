"""From the opening to the target, spot by spot: what is alive, lost and spent in each world."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from advisor.kit.model import Loadout
from advisor.outcome.attempts import STEADY, Attempt
from advisor.outcome.drawn import Drawn
from advisor.outcome.forces import March
from advisor.outcome.opens import opens_share
from advisor.outcome.rulings import Ruling
from advisor.outcome.spot import Spot
from advisor.routes.passage import Passage, Route
from advisor.worlds.draws import Array

_NO_WAY = 0.01  # m


@dataclass(frozen=True)
class HardSpot:
    """One passage that may stop the head, with every technique tried on paper and by the rules."""

    index: int
    spot: Spot
    rulings: tuple[Ruling, ...]
    tries: dict[str, Attempt]
    allowed: dict[str, Array]
    order: tuple[tuple[str, int], ...]  # techniques worth trying, with the number of tries
    wedged: frozenset[str] = frozenset()  # those that wedged a head here in a push of the job
    passed: frozenset[str] = frozenset()  # those that got one past
    failed: frozenset[str] = frozenset()  # and those that did not
    roots_back: bool = False  # roots were told to have come back from this drain

    @property
    def passage(self) -> Passage:
        """The passage that is hard."""
        return self.spot.shape.passage

    def chance(self, technique: str) -> Array:
        """Chance of one try where the rules allow it, float32[N]."""
        return np.asarray(self.tries[technique].chance * self.allowed[technique], np.float32)

    def rank(self, technique: str) -> int:
        """What passed here before comes first, what failed last."""
        return 0 if technique in self.passed else 2 if technique in self.failed else 1

    @property
    def roots_unlikely(self) -> bool:
        """Whether a run is marked for roots that are not likely in it, and none came back from the drain."""
        return self.spot.roots_unlikely and not self.roots_back

    def came_of(self, technique: str) -> str:
        """What came of it here in a push of the job, in words; nothing where it was not tried."""
        row = self.spot.drawn.tables.in_pipe.tried_before
        return (row.passed, "", row.failed)[self.rank(technique)]

    def after(self, tries: int) -> HardSpot:
        """The same spot left after so many tries; the gentle first push is always made."""
        kept: list[tuple[str, int]] = []
        left = max(tries, 1)
        for technique, count in self.order:
            if left > 0:
                kept.append((technique, min(count, left)))
            left -= count
        return replace(self, order=tuple(kept))

    @cached_property
    def with_techniques(self) -> Array:
        """Chance to pass by the whole order of tries, float32[N]."""
        left = np.ones_like(self.spot.plain.passes)
        for technique, count in self.order:
            left = left * (1 - self.chance(technique)) ** count
        return np.asarray(1 - left, np.float32)


@dataclass(frozen=True)
class Walk:
    """The walk along one route; float32[N] each, `survive`, `gone` float32[H + 1, N], `stood` float32[H, N].

    `survive[h]` is the chance to be past the first h hard spots (0: to be in), `gone[h]` the minutes by then,
    harm counted in; `stood[h]` is the chance to come as far as the h-th spot, so what fades on the way to it
    or stops at the easier places before it is out. `minutes` includes opening, tries, drawing back and
    closing up. `harm_minutes` is what lost or hurt gear costs on average. `arrived` is the chance to reach
    the end of the route and come back.
    """

    arrived: Array
    lost: Array
    minutes: Array
    harm_minutes: Array
    survive: Array
    stood: Array
    gone: Array
    opening_minutes: Array  # set-up, opening, closing and clean-up
    pushing_minutes: Array  # in and back, without tries


@dataclass(frozen=True)
class MetStop:
    """A place `at` m in that held a push of the job: the chance to come past it, and the worlds in which this
    gear does, as 0 or 1. Of the `times` that it was there it `came` past so often. `told` is the opening and
    the reading there, m, where it was met from elsewhere; here it is by the sheet, by so much `off`, m.
    """

    at: float
    chance: float
    passes: Array
    came: int
    times: int
    told: tuple[str, float] | None = None
    off: float = 0.0


@dataclass(frozen=True)
class Way:
    """A route with a loadout and what holds along it, whatever is tried at its hard spots."""

    route: Route
    loadout: Loadout
    march: March
    easy: tuple[Array, ...]  # chance to come past the easier passages before each hard spot, and after all
    kinks: Array  # chance that one of the easier turns kinks the rod
    breaks: Array  # chance that a broken place somewhere on it holds the head
    closed: bool  # a rule says that the opening cannot be used
    stops: tuple[MetStop, ...] = ()  # met by pushes, where the plan has nothing hard


@dataclass(frozen=True)
class _Going:
    """A head on its way: the share alive, the minutes gone, how far in (m), and the next hard spot."""

    alive: Array
    minutes: Array
    there: Array
    first: int


def walk_way(way: Way, spots: tuple[HardSpot, ...], drawn: Drawn) -> Walk:
    """Open, push to each hard spot, try what its order says, push on, draw back and close up."""
    route, closed = way.route, way.closed
    hole = route.opening.hole
    assert hole is not None
    tables = drawn.tables
    kind, told = tables.openings[hole.kind], hole.opens
    n = drawn.worlds.n
    opens = np.full(n, 0 if closed or told is False else 1, np.float32)
    if told is None and not closed:
        share = drawn.worlds.value(f"{route.opening.id}/share that opens", opens_share(hole, tables))
        opens = (drawn.worlds.uniform(f"{route.opening.id}/opens") < share).astype(np.float32)
    if hole.there < 1:
        opens = opens * (drawn.worlds.uniform(f"{hole.reached_in or route.opening.id}/there") < hole.there)
    minutes = drawn.worlds.value(f"{route.opening.id}/open minutes", kind.open_minutes)
    minutes = minutes + tables.costs["set_up"].likely
    closing = drawn.worlds.value(f"{route.opening.id}/close minutes", kind.close_minutes)
    minutes = minutes + opens * (closing + tables.costs["clean_up"].likely)
    if hole.buried:
        minutes = minutes + tables.costs["dig_up"].likely
    return _on(way, spots, drawn, _Going(opens, minutes, np.zeros(n, np.float32), 0))


def walk_on(way: Way, spots: tuple[HardSpot, ...], drawn: Drawn, first: int, at: float) -> Walk:
    """The rest of a walk, for a head that stands `at` m in before the hard spot number `first`.

    What was spent by then is not counted again, so the walk's minutes are those still to come. Its arrays
    over the spots begin with the spot number `first`.
    """
    n = drawn.worlds.n
    here = np.full(n, at, np.float32)
    return _on(way, spots, drawn, _Going(np.ones(n, np.float32), np.zeros(n, np.float32), here, first))


def _on(way: Way, spots: tuple[HardSpot, ...], drawn: Drawn, start: _Going) -> Walk:
    march, tables, kit = way.march, drawn.tables, drawn.kit(way.loadout)
    n = drawn.worlds.n
    per_metre = sum(tables.costs[f"{what}_minutes_per_metre"].likely for what in ("push", "draw_back"))
    alive, minutes, there = start.alive, start.minutes, start.there
    pushing: Array = np.zeros(n, np.float32)
    lost: Array = np.zeros(n, np.float32)
    harm: Array = np.zeros(n, np.float32)
    survive: list[Array] = [alive]
    stood: list[Array] = []
    gone: list[Array] = [minutes]
    for spot, easy in zip(spots[start.first :], way.easy[start.first : -1], strict=True):
        station = spot.spot.station
        # A push that has died, or a reel that has run out, ends the way at that distance in that world.
        ends = march.reach < station.at
        push = alive * per_metre * np.maximum(np.minimum(station.at, march.reach) - there, 0)
        minutes, pushing = minutes + push, pushing + push
        alive = np.where(ends, 0, alive * easy).astype(np.float32)
        there = np.maximum(np.minimum(station.at, march.reach), there)
        stood.append(alive)
        alive, lost, minutes, harm = try_all(spot, alive, lost, minutes, harm)
        survive.append(alive)
        gone.append(minutes + harm)
    push = alive * per_metre * np.maximum(np.minimum(march.end.at, march.reach) - there, 0)
    minutes, pushing = minutes + push, pushing + push
    alive = np.where(march.reach < march.end.at, 0, alive * way.easy[-1])
    # Nobody knows where a broken place is: what the head has behind it holds it no more.
    ahead = 1 - np.minimum(start.there / np.maximum(march.end.at, _NO_WAY), 1)
    broke = alive * way.breaks * ahead
    kept = broke * drawn.limit("broken_keeps")
    alive = alive - broke
    for stop in way.stops:  # those that the head has behind it hold it no more
        alive = np.where(start.there < stop.at, alive * stop.passes, alive)
    # Reaching it is worth nothing when the rod cannot be drawn back within the pull limit.
    limit = np.minimum(kit.pull_limit, drawn.limit("pull_force"))
    stuck = np.where(march.pull > limit, alive * drawn.limit("stuck_share"), 0)
    kinked = (alive - stuck) * way.kinks
    arrived = np.asarray(alive - stuck - kinked, np.float32)
    harm = harm + (stuck + kept) * tables.costs["wedge"].likely + kinked * tables.costs["kink"].likely
    lost = np.asarray(lost + stuck + kept + kinked, np.float32)
    before = np.reshape(stood, (-1, n)).astype(np.float32)
    opening = start.minutes
    return Walk(arrived, lost, minutes, harm, np.stack(survive), before, np.stack(gone), opening, pushing)


def try_all(
    spot: HardSpot, alive: Array, lost: Array, minutes: Array, harm: Array
) -> tuple[Array, Array, Array, Array]:
    """Every try of the order in turn: pass, go on trying, or lose the head."""
    stuck, through = alive, np.zeros_like(alive)
    for technique, count in spot.order:
        attempt, chance = spot.tries[technique], spot.chance(technique)
        first = technique == STEADY
        minutes = minutes + stuck * attempt.set_up_minutes
        for _ in range(count):
            minutes = minutes + (0 if first else stuck * attempt.minutes)
            # A rod may kink whether or not the head gets through; only a head that fails may wedge.
            kinked = stuck * attempt.kink
            through = through + (stuck - kinked) * chance
            failed = (stuck - kinked) * (1 - chance)
            wedged = failed * attempt.wedge
            lost = lost + kinked + wedged
            harm = harm + kinked * attempt.kink_minutes + wedged * attempt.wedge_minutes
            stuck = failed - wedged
    return through, lost, minutes, harm
