"""A route and a loadout over the worlds: is the target reached, what is lost, how many minutes go."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from advisor.kit.model import Kit, Loadout
from advisor.outcome.attempts import NO_TRY, STEADY, STRING, Attempt, mean_stuck
from advisor.outcome.broken import held_by_break
from advisor.outcome.drawn import Drawn
from advisor.outcome.facts import Facts, opening_facts, route_facts
from advisor.outcome.forces import March, Station, length_of, march_route
from advisor.outcome.geometry import Before, Geometry, geometry
from advisor.outcome.meeting import Meeting
from advisor.outcome.memory import Memory
from advisor.outcome.rulings import allowed, infer_all, rule_on, said_alone
from advisor.outcome.spot import Spot, stands
from advisor.outcome.spot_facts import may_be_fragile
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
    def part_chance(self) -> float:
        """Mean chance to see what this route shows of the target, be it all or a part."""
        return float(self.walk.arrived.mean())

    @property
    def shut(self) -> bool:
        """True where nothing goes in at that opening in any world: it does not open, or a rule closes it."""
        return not self.walk.survive[0].any()

    @property
    def closed_by(self) -> Firing | None:
        """The rule that says that the opening cannot be used, if one does."""
        return next(_closing((*self.opening_firings, *self.route_firings)), None)

    @property
    def hardest(self) -> HardSpot | None:
        """The hard spot that takes the most worlds."""
        if not self.spots:
            return None
        held = (self.walk.stood - self.walk.survive[1:]).mean(axis=1)
        return self.spots[int(np.argmax(held))]


class Assessor:
    """Assesses routes of one case; what the memory holds is not worked out again."""

    def __init__(
        self,
        drawn: Drawn,
        base: RuleBase,
        kit: Kit,
        site: Facts,
        site_firings: tuple[Firing, ...],
        reader: Reader,
        memory: Memory,
    ) -> None:
        self.drawn, self.base, self.reader = drawn, base, reader
        self.besides = {loadout.name: kit.besides(loadout) for loadout in kit.loadouts}
        self.site, self.site_firings, self.memory = site, site_firings, memory
        memory.judge_by(base, reader, site)

    def assess(self, route: Route, loadout: Loadout) -> RouteOutcome:
        """The outcome of one route with one loadout, over all worlds."""
        key = (*self.memory.route_key(route), loadout.name, self.besides[loadout.name])
        return self.memory.outcomes.get(key, lambda: self._assess(route, loadout))

    def _assess(self, route: Route, loadout: Loadout) -> RouteOutcome:
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
        outer = tuple(
            each
            for each in (*self.site_firings, *opening_firings, *route_firings)
            if each.rule.conclusion.techniques or each.rule.conclusion.steps
        )
        spots, easy, kinks = self._spots(route, loadout, shapes, march, around, outer)
        closed = any(_closing((*opening_firings, *route_firings)))
        breaks = held_by_break(self.site, march.end.at, drawn)
        way = Way(route, loadout, march, easy, kinks, breaks, closed)
        walk = walk_way(way, spots, drawn)
        return RouteOutcome(way, spots, opening_firings, route_firings, walk, tuple(shapes))

    def _geometries(self, route: Route, loadout: Loadout) -> list[Geometry]:
        shapes: list[Geometry] = []
        before: Before | None = None
        since: tuple[Hashable, ...] = ()  # the last turn and the pipe behind it
        for passage in route.passages:
            here = self.memory.passage_key(passage)
            make = partial(geometry, passage, loadout, self.drawn, before)
            shape = self.memory.shapes.get((here, loadout.name, since), make)
            shapes.append(shape)
            if shape.turn.bends:
                since = (here,)
                before = Before(shape.turn, passage.piece.id, np.zeros(self.drawn.worlds.n, np.float32))
            elif before is not None:
                since = (*since, here)
                before = replace(before, gap=before.gap + length_of(passage, self.drawn))
        return shapes

    def _spots(
        self,
        route: Route,
        loadout: Loadout,
        shapes: list[Geometry],
        march: March,
        around: Facts,
        outer: tuple[Firing, ...],
    ) -> tuple[tuple[HardSpot, ...], tuple[Array, ...], Array]:
        """The hard spots in order, the chances to come past what lies between, and that it kinks the rod."""
        drawn = self.drawn
        hard_below, pushes = drawn.likely("hard_chance"), round(drawn.likely("easy_pushes"))
        ways = self.memory.ways_in(route)
        found: list[HardSpot] = []
        sound: Array = np.ones(drawn.worlds.n, np.float32)
        easy: list[Array] = [sound]
        rooted: Array = np.zeros(drawn.worlds.n, np.float32)
        for index, (shape, station) in enumerate(zip(shapes, march.stations, strict=True)):
            make = partial(self._meeting, shape, station, loadout, rooted)
            here = ways[index], loadout.name, self.besides[loadout.name]
            meeting = self.memory.meetings.get(here, make)
            plain = meeting.spot.plain
            rooted = rooted if shape.roots is None else np.maximum(rooted, shape.roots.there)
            if float(plain.passes.mean()) >= hard_below and not self._notable(shape, shapes[:index]):
                sound = sound * (1 - plain.kink)
                easy[-1] = easy[-1] * (1 - plain.stuck**pushes)
                continue
            say = partial(said_alone, meeting, self.base, self.site, self.reader)
            alone = self.memory.said.get(here, say)
            rulings = rule_on(meeting, self.base, around, outer, self.reader, alone)
            masks = allowed(rulings, drawn.worlds.n)
            # A string is put on once the way behind was seen to be clear; where it is not, there is none.
            masks[STRING] = masks[STRING] * (1 - meeting.spot.rooted)
            order = self._order(meeting.tries, masks, plain)
            back = self.site.get("site.roots_back") is True
            hard = HardSpot(index, meeting.spot, rulings, meeting.tries, masks, order, roots_back=back)
            found.append(hard)
            easy.append(np.ones(drawn.worlds.n, np.float32))
            if float(hard.with_techniques.max()) == 0:
                break  # nothing gets past here in any world, so what lies behind is not met
        return tuple(found), tuple(easy), np.asarray(1 - sound, np.float32)

    def _meeting(self, shape: Geometry, station: Station, loadout: Loadout, rooted: Array) -> Meeting:
        kit = self.drawn.kit(loadout)
        plain = steady(shape, station.force, kit, self.drawn)
        spot = Spot(shape, stands(shape, station), kit, self.drawn, plain, rooted)
        return Meeting(spot, self.besides[loadout.name], loadout)

    def _notable(self, shape: Geometry, before: list[Geometry]) -> bool:
        """An easy passage that rules must still see.

        Where fragile pipe begins, roots, a sag, a rim on the way back; a turn that bends the rod too tight,
        where the head passes and the rod is hurt.
        """
        wall, notable = shape.passage.wall_out, self.drawn.likely("notable_share")
        if shape.passage.piece.kind == "belly":
            return True
        if shape.roots is not None and float(shape.roots.there.mean()) >= notable:
            return True
        if shape.bends_too_tight > self.drawn.likely("unlikely_share"):
            return True
        begins = all(other.passage.wall_out.id != wall.id for other in before)
        if begins and may_be_fragile(wall, self.drawn):
            return True
        return float(np.mean(np.asarray(shape.ledge_back) < 1)) > notable

    def _order(
        self, tries: dict[str, Attempt], masks: dict[str, Array], plain: Steady
    ) -> tuple[tuple[str, int], ...]:
        """Falling chance per minute, a loss counted in minutes; the plain push is always made first.

        For independent tries that may all be made, that order has the least expected minutes.
        """
        drawn, stuck = self.drawn, plain.stuck
        least = drawn.likely("worth_trying")
        worth: list[tuple[float, str]] = []
        for name, attempt in tries.items():
            if name == STEADY or name in NO_TRY:
                continue
            passes = attempt.chance * masks[name]
            chance = mean_stuck(passes, stuck)
            if chance >= least:
                worth.append((attempt.cost(passes) / chance, name))
        counts = {name: max(round(drawn.likely(f"tries, {name}")), 1) for _, name in worth}
        return ((STEADY, 1), *((name, counts[name]) for _, name in sorted(worth)))


def _closing(firings: Iterable[Firing]) -> Iterator[Firing]:
    return (each for each in firings if each.outcome and each.rule.conclusion.closed)
