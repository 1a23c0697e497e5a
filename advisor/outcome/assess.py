"""A route and a loadout over the worlds: is the target reached, what is lost, how many minutes go."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from advisor.kit.model import Kit, Loadout
from advisor.outcome.attempts import NO_TRY, STEADY, Attempt, Spot, attempts
from advisor.outcome.drawn import Drawn
from advisor.outcome.facts import Facts, opening_facts, route_facts
from advisor.outcome.forces import March, march_route
from advisor.outcome.geometry import Before, Geometry, geometry
from advisor.outcome.rulings import allowed, infer_all, rule_on
from advisor.outcome.steady import Steady, steady
from advisor.outcome.walk import HardSpot, Walk, Way, walk_way
from advisor.routes.passage import Route
from advisor.rulebase.load import RuleBase
from advisor.rulebase.reader import Reader
from advisor.rulebase.trace import Firing
from advisor.worlds.draws import Array


@dataclass(frozen=True)
class RouteOutcome:
    """What becomes of one route with one loadout."""

    way: Way
    spots: tuple[HardSpot, ...]
    opening_firings: tuple[Firing, ...]
    route_firings: tuple[Firing, ...]
    walk: Walk
    geometries: tuple[Geometry, ...]

    @property
    def route(self) -> Route:
        """The route."""
        return self.way.route

    @property
    def loadout(self) -> Loadout:
        """The loadout."""
        return self.way.loadout

    @property
    def march(self) -> March:
        """The forces along the route."""
        return self.way.march

    @property
    def reached(self) -> Array:
        """Chance to see the whole target in this one push, float32[N]; nothing where it shows a part."""
        return self.walk.arrived if self.route.covers >= 1 else np.zeros_like(self.walk.arrived)

    @property
    def chance(self) -> float:
        """Mean chance to see the whole target."""
        return float(self.reached.mean())

    @property
    def hardest(self) -> HardSpot | None:
        """The hard spot that takes the most worlds."""
        if not self.spots:
            return None
        falls = -np.diff(self.walk.survive.mean(axis=1))
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
        reader: Reader,
    ) -> None:
        self.drawn, self.base, self.kit, self.reader = drawn, base, kit, reader
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
        opening_firings = infer_all(self.base, "opening", around, self.reader)
        route_firings = infer_all(self.base, "route", around, self.reader)
        outer = (*self.site_firings, *opening_firings, *route_firings)
        spots, easy, kinks = self._spots(loadout, shapes, march, around, outer)
        closed = any(f.outcome and f.rule.conclusion.closed for f in (*opening_firings, *route_firings))
        way = Way(route, loadout, march, easy, kinks, closed)
        walk = walk_way(way, spots, drawn)
        return RouteOutcome(way, spots, opening_firings, route_firings, walk, tuple(shapes))

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
    ) -> tuple[tuple[HardSpot, ...], tuple[Array, ...], Array]:
        """The hard spots in order, the chances to come past what lies between, and that it kinks the rod."""
        drawn, kit = self.drawn, self.drawn.kit(loadout)
        hard_below, pushes = drawn.likely("hard_chance"), round(drawn.likely("easy_pushes"))
        found: list[HardSpot] = []
        sound: Array = np.ones(drawn.worlds.n, np.float32)
        easy: list[Array] = [sound]
        for index, (shape, station) in enumerate(zip(shapes, march.stations, strict=True)):
            plain = steady(shape, station.force, kit, drawn)
            if float(plain.passes.mean()) >= hard_below and not self._notable(shape, shapes[:index]):
                sound = sound * (1 - plain.kink)
                easy[-1] = easy[-1] * (1 - plain.stuck**pushes)
                continue
            spot = Spot(shape, station, kit, drawn, plain)
            rulings = rule_on(spot, self.base, around, outer, self.kit, loadout, self.reader)
            tries = attempts(spot)
            masks = allowed(rulings, drawn.worlds.n)
            hard = HardSpot(index, spot, rulings, tries, masks, self._order(tries, masks, plain))
            found.append(hard)
            easy.append(np.ones(drawn.worlds.n, np.float32))
            if float(hard.with_techniques.max()) == 0:
                break  # nothing gets past here in any world, so what lies behind is not met
        return tuple(found), tuple(easy), np.asarray(1 - sound, np.float32)

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
