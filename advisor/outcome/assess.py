"""A route and a loadout over the worlds: is the target reached, what is lost, how many minutes go."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from advisor.kit.model import Kit, Loadout
from advisor.outcome.attempts import NO_TRY, STEADY, Attempt, Spot, attempts
from advisor.outcome.drawn import Drawn
from advisor.outcome.facts import Facts, opening_facts, route_facts
from advisor.outcome.forces import March, march_route
from advisor.outcome.geometry import Before, Geometry, geometry
from advisor.outcome.rulings import Ruling, allowed, infer_all, rule_on
from advisor.outcome.steady import Steady, steady
from advisor.quantity import Estimate, Known, Units
from advisor.routes.passage import Passage, Route
from advisor.rulebase.load import RuleBase
from advisor.rulebase.trace import Firing
from advisor.worlds.draws import Array


@dataclass(frozen=True)
class HardSpot:
    """One passage that may stop the head, with every technique tried on paper and by the rules."""

    index: int
    spot: Spot
    rulings: tuple[Ruling, ...]
    tries: dict[str, Attempt]
    allowed: dict[str, Array]
    order: tuple[tuple[str, int], ...]  # techniques worth trying, with the number of tries

    @property
    def passage(self) -> Passage:
        """The passage that is hard."""
        return self.spot.shape.passage

    def chance(self, technique: str) -> Array:
        """Chance of one try where the rules allow it, float32[N]."""
        return np.asarray(self.tries[technique].chance * self.allowed[technique], np.float32)

    @cached_property
    def with_techniques(self) -> Array:
        """Chance to pass by the whole order of tries, float32[N]."""
        left = np.ones_like(self.spot.plain.passes)
        for technique, count in self.order:
            left = left * (1 - self.chance(technique)) ** count
        return np.asarray(1 - left, np.float32)


@dataclass(frozen=True)
class RouteOutcome:
    """What becomes of one route with one loadout; float32[N] each.

    `survive[h]` is the chance to stand before the h-th hard spot; `minutes` includes opening, pushing,
    tries, drawing back and closing up; `harm_minutes` is what lost or hurt gear costs on average.
    """

    route: Route
    loadout: Loadout
    march: March
    spots: tuple[HardSpot, ...]
    opening_firings: tuple[Firing, ...]
    route_firings: tuple[Firing, ...]
    arrived: Array  # at the end of this route, which may show only part of the target
    reached: Array  # the whole target seen in this one push
    lost: Array
    minutes: Array
    harm_minutes: Array
    survive: Array
    geometries: tuple[Geometry, ...]

    @property
    def chance(self) -> float:
        """Mean chance to reach the target."""
        return float(self.reached.mean())

    @property
    def hardest(self) -> HardSpot | None:
        """The hard spot that takes the most worlds."""
        if not self.spots:
            return None
        falls = -np.diff(self.survive.mean(axis=1))
        return self.spots[int(np.argmax(falls))]


class Assessor:
    """Assesses routes of one case; geometry is kept, however many routes cross a passage."""

    def __init__(
        self,
        drawn: Drawn,
        base: RuleBase,
        kit: Kit,
        site: Facts,
        site_firings: tuple[Firing, ...],
        units: Units,
    ) -> None:
        self.drawn, self.base, self.kit, self.units = drawn, base, kit, units
        self.site, self.site_firings = site, site_firings
        self._geometry: dict[tuple[object, ...], Geometry] = {}

    def assess(self, route: Route, loadout: Loadout) -> RouteOutcome:
        """The outcome of one route with one loadout, over all worlds."""
        drawn = self.drawn
        shapes = self._geometries(route, loadout)
        march = march_route(route.passages, shapes, drawn, drawn.kit(loadout))
        around = {
            **self.site,
            **opening_facts(route.opening, loadout, drawn),
            **route_facts(route, march, drawn, loadout),
        }
        opening_firings = infer_all(self.base, "opening", around, self.units)
        route_firings = infer_all(self.base, "route", around, self.units)
        outer = (*self.site_firings, *opening_firings, *route_firings)
        spots = self._spots(loadout, shapes, march, around, outer)
        closed = any(f.outcome and f.rule.conclusion.closed for f in (*opening_firings, *route_firings))
        arrived, lost, minutes, harm, survive = _walk(route, march, spots, drawn, loadout, closed)
        return RouteOutcome(
            route,
            loadout,
            march,
            spots,
            opening_firings,
            route_firings,
            arrived,
            arrived if route.covers >= 1 else np.zeros_like(arrived),
            lost,
            minutes,
            harm,
            survive,
            tuple(shapes),
        )

    def _geometries(self, route: Route, loadout: Loadout) -> list[Geometry]:
        shapes: list[Geometry] = []
        before: Before | None = None
        for passage in route.passages:
            key = (passage.id, loadout.name, before.passage_id if before else None)
            shape = self._geometry.get(key)
            if shape is None:
                shape = self._geometry[key] = geometry(passage, loadout, self.drawn, before)
            shapes.append(shape)
            if shape.turn.bends:
                zero = np.zeros(self.drawn.worlds.n, np.float32)
                before = Before(passage.id, shape.turn, passage.piece.id, zero)
            elif before is not None:
                gap = before.gap + self.drawn.length(passage.piece)
                before = Before(before.passage_id, before.turn, before.roll_key, gap)
        return shapes

    def _spots(
        self,
        loadout: Loadout,
        shapes: list[Geometry],
        march: March,
        around: Facts,
        outer: tuple[Firing, ...],
    ) -> tuple[HardSpot, ...]:
        drawn, kit = self.drawn, self.drawn.kit(loadout)
        hard_below = drawn.likely("hard_chance")
        found = []
        for index, (shape, station) in enumerate(zip(shapes, march.stations, strict=True)):
            plain = steady(shape, station.force, kit, drawn)
            if float(plain.passes.mean()) >= hard_below and not self._notable(shape, shapes[:index]):
                continue
            spot = Spot(shape, station, kit, drawn, plain)
            rulings = rule_on(spot, self.base, around, outer, self.kit, loadout, self.units)
            tries = attempts(spot)
            masks = allowed(rulings, drawn.worlds.n)
            hard = HardSpot(index, spot, rulings, tries, masks, self._order(tries, masks, plain))
            found.append(hard)
            if float(hard.with_techniques.max()) == 0:
                break  # nothing gets past here in any world, so what lies behind is not met
        return tuple(found)

    def _notable(self, shape: Geometry, before: list[Geometry]) -> bool:
        """An easy passage that rules must still see: where fragile pipe begins, a sag, a rim behind."""
        wall = shape.passage.wall_out
        fragile = self.drawn.tables.materials[wall.material.likeliest].fragile
        begins = all(other.passage.wall_out.id != wall.id for other in before)
        rim_behind = float(np.mean(np.asarray(shape.ledge_back) < 1)) > self.drawn.likely("notable_share")
        return bool(fragile and begins) or shape.passage.piece.kind == "belly" or rim_behind

    def _order(
        self, tries: dict[str, Attempt], masks: dict[str, Array], plain: Steady
    ) -> tuple[tuple[str, int], ...]:
        """Falling chance per minute, a loss counted in minutes; the plain push is always made first.

        For independent tries that may all be made, that order has the least expected minutes.
        """
        drawn = self.drawn
        worth: list[tuple[float, str]] = []
        for name, attempt in tries.items():
            if name == STEADY or name in NO_TRY:
                continue
            chance = attempt.chance * masks[name]
            mean = float((chance * plain.stuck).sum() / max(float(plain.stuck.sum()), 1e-6))
            if mean < drawn.likely("worth_trying"):
                continue
            cost = (
                attempt.minutes + attempt.set_up_minutes + float((attempt.harm_minutes * (1 - chance)).mean())
            )
            worth.append((cost / mean, name))
        counts = {name: max(round(drawn.likely(f"tries, {name}")), 1) for _, name in worth}
        return ((STEADY, 1), *((name, counts[name]) for _, name in sorted(worth)))


def _walk(
    route: Route, march: March, spots: tuple[HardSpot, ...], drawn: Drawn, loadout: Loadout, closed: bool
) -> tuple[Array, Array, Array, Array, Array]:
    """From the opening to the target: what is alive, lost and spent, spot by spot."""
    tables, kit = drawn.tables, drawn.kit(loadout)
    kind = tables.openings[route.opening.hole.kind]  # type: ignore[union-attr]
    told = route.opening.hole.opens if route.opening.hole else None
    n = drawn.worlds.n
    opens = np.full(n, 0 if closed or told is False else 1, np.float32)
    if told is None and not closed:
        share = _likely(kind.opens_share)
        opens = (drawn.worlds.uniform(f"{route.opening.id}/opens") < share).astype(np.float32)
    minutes = drawn.worlds.value(f"{route.opening.id}/open minutes", kind.open_minutes)
    minutes = minutes + _likely(tables.costs["set_up"])
    closing = drawn.worlds.value(f"{route.opening.id}/close minutes", kind.close_minutes)
    minutes = minutes + opens * (closing + _likely(tables.costs["clean_up"]))
    if route.opening.hole is not None and route.opening.hole.buried:
        minutes = minutes + _likely(tables.costs["dig_up"])
    per_metre = _likely(tables.costs["push_minutes_per_metre"]) + _likely(
        tables.costs["draw_back_minutes_per_metre"]
    )
    # A push that has died, or a reel that has run out, ends the way at that distance in that world.
    alive, lost, harm = opens, np.zeros(n, np.float32), np.zeros(n, np.float32)
    survive = [alive]
    there = np.zeros(n, np.float32)
    for spot in spots:
        station = spot.spot.station
        ends = march.reach < station.at
        minutes = minutes + alive * per_metre * (np.minimum(station.at, march.reach) - there)
        alive, there = np.where(ends, 0, alive).astype(np.float32), np.minimum(station.at, march.reach)
        alive, lost, minutes, harm = _try_all(spot, alive, lost, minutes, harm)
        survive.append(alive)
    minutes = minutes + alive * per_metre * (np.minimum(march.end.at, march.reach) - there)
    alive = np.where(march.reach < march.end.at, 0, alive)
    # Reaching it is worth nothing when the rod cannot be drawn back within the pull limit.
    limit = np.minimum(kit.pull_limit, drawn.limit("pull_force"))
    stuck = np.where(march.pull > limit, alive * drawn.limit("stuck_share"), 0)
    arrived = np.asarray(alive - stuck, np.float32)
    harm = np.asarray(harm + stuck * _likely(tables.costs["wedge"]), np.float32)
    lost = np.asarray(lost + stuck, np.float32)
    return arrived, lost, minutes.astype(np.float32), harm, np.stack(survive)


def _try_all(
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
            through = through + stuck * chance
            failed = stuck * (1 - chance)
            lost = lost + failed * attempt.lost
            harm = harm + failed * attempt.harm_minutes
            stuck = failed * (1 - attempt.lost)
    return through, lost, minutes, harm


def _likely(value: Known | Estimate) -> float:
    return value.value if isinstance(value, Known) else value.likely
