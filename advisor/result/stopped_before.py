"""Places at which pushes of the job were held though the plan has nothing hard there: its chances know of
them by what came of it there, and by nothing else."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from advisor.kit.model import KitPart, Loadout
from advisor.outcome.assess import RouteOutcome
from advisor.outcome.drawn import Drawn
from advisor.outcome.walk import HardSpot, MetStop, walk_way
from advisor.quantity import show_counter
from advisor.result.chances import chance_words
from advisor.result.study import Study
from advisor.result.way_model import MetStopNote
from advisor.site.mouths import port_of
from advisor.tables.where import number
from advisor.worlds.spread import middle


@dataclass(frozen=True)
class Visit:
    """That gear of these parts came to it in the push begun with that entry, and whether it came past."""

    gear: frozenset[KitPart]
    passed: bool
    push: int


@dataclass(frozen=True)
class StoppedBefore:
    """One place, `at` m in from an opening by one of these ports of it, with every visit that was told.

    `push` is the entry that the push began with that was held there first, `line` the one in which that was,
    where it is sure. `gear` is all that it is known to hold, where the pipe was open ahead: there it was the
    rod that came to its end.
    """

    opening: str
    ports: tuple[str, ...]
    at: float
    visits: tuple[Visit, ...]
    push: int
    gear: frozenset[KitPart] | None = None
    line: str | None = None

    def without(self, push: int) -> StoppedBefore:
        """The same without what came of it in that push."""
        return replace(self, visits=tuple(each for each in self.visits if each.push != push))

    def met_by(self, loadout: Loadout, drawn: Drawn) -> MetStop | None:
        """How likely that gear comes past it; None where it is not known to hold it.

        By the rule of succession: as often as it came past, of the times that it was there, with one time
        more of each. Of gear that was never there nobody knows, so that this is even.
        """
        if self.gear is not None and self.gear != loadout.parts:
            return None
        own = [each.passed for each in self.visits if each.gear == loadout.parts]
        came, more = sum(own), drawn.likely("stop_counted")
        chance = (came + more) / (len(own) + 2 * more)
        # It is one place: where what passes more seldom comes past, so does what passes more often.
        order = drawn.worlds.uniform(f"stop met/{self.opening}/{self.at:.3f}").argsort().argsort()
        passes = (order + 0.5) / drawn.worlds.n < chance  # by rank: the share itself is no matter of luck
        return MetStop(self.at, chance, np.asarray(passes, np.float32), came, len(own))


def by_stops(outcome: RouteOutcome, stops: Sequence[StoppedBefore], drawn: Drawn) -> RouteOutcome:
    """The route as those places have it; where it has a hard spot at one, that has its chance already."""
    route = outcome.route
    port, end = port_of(route.passages, drawn.tables), middle(outcome.march.end.at)
    lines = {None, *(passage.piece.line for passage in route.passages)}
    here = (each for each in stops if each.opening == route.opening.name and port in each.ports)
    here = (each for each in here if each.line in lines)
    # What stood at the far end was the end itself.
    on_way = (each for each in here if each.at < end - _slack(each.at, drawn))
    free = (each for each in on_way if not _hard_there(outcome.spots, each.at, drawn))
    met = tuple(stop for each in free if (stop := each.met_by(outcome.loadout, drawn)) is not None)
    if not met:
        return outcome
    way = replace(outcome.way, stops=met)
    return replace(outcome, way=way, walk=walk_way(way, outcome.spots, drawn))


def stop_notes(outcome: RouteOutcome, study: Study) -> tuple[MetStopNote, ...]:
    """Those places of a route, the nearest first."""
    tables, say = study.tables, chance_words(study).say
    words, row = tables.in_pipe.stopped_before, tables.stuck.met_again
    off = number(tables.where.travel.counter_off)
    return tuple(
        MetStopNote(
            at_m=stop.at,
            at_low_m=max(stop.at * (1 - off), 0.0),
            chance=stop.chance,
            says=(words.there if stop.times else words.never).format(
                chance=say(stop.chance), came=stop.came, times=stop.times
            ),
            see=row.see.format(signs=""),
            do=row.gently.format(reading=show_counter(stop.at, study.units)),
            missed=tables.in_pipe.found_before.missed,
        )
        for stop in sorted(outcome.way.stops, key=lambda stop: stop.at)
    )


def _hard_there(spots: Sequence[HardSpot], at: float, drawn: Drawn) -> bool:
    """Whether one of these may be that place."""
    slack, runs = _slack(at, drawn), (each.spot.run for each in spots)
    return any(low - slack <= at <= high + slack for low, high in runs)


def _slack(at: float, drawn: Drawn) -> float:
    """How far counter and sheet may part so far in, m."""
    sure = drawn.tables.where.sure
    return max(number(sure.sheet_off) * at, number(sure.near))
