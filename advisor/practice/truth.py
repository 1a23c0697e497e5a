"""One hidden truth of a site: the planner's own geometry, march and tries, worked out in that world alone."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from advisor.mechanics.hand import euler_load
from advisor.outcome.assess import Assessor, RouteOutcome
from advisor.outcome.attempts import CLEANED, STEADY, TURN, Attempt, attempts
from advisor.outcome.drawn import Drawn
from advisor.outcome.forces import March, march_route
from advisor.outcome.geometry import Geometry
from advisor.outcome.memory import Memory
from advisor.outcome.spot import Spot, stands
from advisor.outcome.steady import steady
from advisor.practice.scene import draw
from advisor.result.study import Study
from advisor.worlds.draws import Worlds


class Truth:
    """World `number` of a study; what is asked twice is worked out once."""

    def __init__(self, study: Study, number: int) -> None:
        self.study, self.number = study, number
        self.drawn = Drawn(
            Worlds(study.seed, study.worlds, (number,)), study.tables, study.drawn.wet, study.drawn.learned
        )
        self._assessor = Assessor(
            self.drawn,
            study.base,
            study.kit,
            study.site_facts,
            study.site_firings,
            study.reader,
            Memory(),
        )
        self._believed = {(o.route.id, o.loadout.name): o for o in study.outcomes}
        self._marches: dict[tuple[str, str, float], March] = {}
        self._spots: dict[tuple[str, str, int, float], tuple[Spot, dict[str, Attempt]]] = {}

    def believed(self, way: tuple[str, str]) -> RouteOutcome:
        """What the plan thinks of a way in: (route id, loadout name), with the tries that pay."""
        kept = {(o.route.id, o.loadout.name): o for o in self.study.settled.attempts}
        return kept.get(way) or self._believed[way]

    def outcome(self, way: tuple[str, str]) -> RouteOutcome:
        """The same way in this world."""
        told = self._believed[way]
        return self._assessor.assess(told.route, told.loadout)

    def push(self, way: tuple[str, str], hands: float, firm: bool) -> float:
        """The push that arrives at the opening, N: what a free rod of `hands` m carries before it folds."""
        kit = self.drawn.kit(self.outcome(way).loadout)
        wanted = self.drawn.limit("short_force" if firm else "push_force")
        folds = euler_load(kit.stiffness, hands, self.drawn.limit("end_factor_loose"))
        return float(np.minimum(wanted, folds)[0])

    def bows(self, way: tuple[str, str], hands: float) -> bool:
        """True where the free rod of `hands` m gives way before the whole push arrives."""
        return self.push(way, hands, firm=False) < 0.99 * float(self.drawn.limit("push_force")[0])

    def march(self, way: tuple[str, str], force: float) -> March:
        """The push of `force` N at the opening marched along the way."""
        key = (*way, force)
        if key not in self._marches:
            outcome = self.outcome(way)
            kit = self.drawn.kit(outcome.loadout)
            told = np.full(1, force, np.float32)
            self._marches[key] = march_route(
                outcome.route.passages, outcome.geometries, self.drawn, kit, told
            )
        return self._marches[key]

    def stops_at(self, way: tuple[str, str], index: int, force: float) -> float:
        """Where the head stands when the passage of that index stops it, m from the opening."""
        stations, shapes = self.march(way, force).stations, self.outcome(way).geometries
        return float(stands(shapes[index], stations[index]).at[0])

    def roots_passed(self, way: tuple[str, str], index: int) -> bool:
        """True where roots stand at a joint that the head has passed before it comes to that passage."""
        shapes = self.outcome(way).geometries[:index]
        return any(shape.roots is not None and float(shape.roots.there[0]) > 0 for shape in shapes)

    def tries(self, way: tuple[str, str], index: int, force: float) -> tuple[Spot, dict[str, Attempt]]:
        """The passage of that index, with one try of every technique in this world."""
        key = (*way, index, force)
        if key not in self._spots:
            outcome = self.outcome(way)
            shape, station = outcome.geometries[index], self.march(way, force).stations[index]
            kit = self.drawn.kit(outcome.loadout)
            spot = Spot(
                shape, stands(shape, station), kit, self.drawn, steady(shape, station.force, kit, self.drawn)
            )
            self._spots[key] = spot, _with_its_push(attempts(spot), spot.shape)
        return self._spots[key]

    def eased(self, way: tuple[str, str], index: int, force: float, firm: float) -> tuple[Spot, Attempt]:
        """A firm push: the run up to the passage by a sustained hand, there the short push of `firm` N."""
        spot, _ = self.tries(way, index, force)
        station = replace(spot.station, force=self.march(way, firm).stations[index].force)
        kit = spot.kit
        hard = replace(spot, station=station, plain=steady(spot.shape, station.force, kit, self.drawn))
        return hard, attempts(hard)[STEADY]

    def luck(self, *key: object) -> float:
        """A number in (0, 1) for this world and key."""
        return draw(self.study.seed, f"{self.number}/" + "/".join(map(str, key)))

    def variant(self, way: tuple[str, str], index: int) -> str | None:
        """What the fitting there is, as a lens before it shows."""
        piece = self.outcome(way).route.passages[index].piece
        if piece.fitting is None or self.outcome(way).route.passages[index].step is not None:
            return None
        names, choice = self.drawn.variant(piece)
        return names[int(choice[0])]


def _with_its_push(tries: dict[str, Attempt], shape: Geometry) -> dict[str, Attempt]:
    """What gains too little to count as a technique still lets through what passed before: a gentle push goes
    with it. So on an easier wall, and so with a rod that is turned in a pipe that does not turn; but not in
    roots, which it winds up."""
    plain = tries[STEADY].chance
    straight = shape.turn.way in ("none", "past") and shape.roots is None
    eased = {
        name: replace(tries[name], chance=np.maximum(tries[name].chance, plain))
        for name in ("water", CLEANED, *((TURN,) if straight else ()))
    }
    return {**tries, **eased}
