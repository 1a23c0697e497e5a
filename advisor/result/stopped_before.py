"""Places at which pushes of the job were held though the plan has nothing hard there: its chances know of
them by what came of it there, and by nothing else."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np

from advisor.kit.model import KitPart, Loadout
from advisor.outcome.assess import RouteOutcome
from advisor.outcome.drawn import Drawn
from advisor.outcome.walk import HardSpot, MetStop, walk_way
from advisor.quantity import show_counter
from advisor.result.chances import chance_words
from advisor.result.study import Study
from advisor.result.through_opening import Leads, comes_through
from advisor.result.way_model import MetStopNote
from advisor.site.mouths import line_by, port_of
from advisor.site.network import Network
from advisor.tables.load import Tables
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
    `place` m down it and its head going down (`fall` 1) or up it (-1), where that is sure. `gear` is all that
    it is known to hold, where the pipe was open ahead: there it was the rod that came to its end.
    """

    opening: str
    ports: tuple[str, ...]
    at: float
    visits: tuple[Visit, ...]
    push: int
    gear: frozenset[KitPart] | None = None
    line: str | None = None
    place: float | None = None
    fall: float = 0.0
    mouth: str | None = None  # of an open channel, by the line that begins there; without it any of that port
    under_way: int = 0  # the push that goes on now: on its own way it weighs what came of it there itself

    def without(self, push: int) -> StoppedBefore:
        """The same without what came of it in that push."""
        return replace(self, visits=tuple(each for each in self.visits if each.push != push))

    def met_by(self, loadout: Loadout, drawn: Drawn, at: float | None = None) -> MetStop | None:
        """How likely that gear comes past it, `at` m in on a way from elsewhere; None where it is not known
        to hold it.

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
        found = MetStop(self.at, chance, np.asarray(passes, np.float32), came, len(own))
        if at is None:
            return found
        return replace(
            found, at=at, told=(self.opening, self.at), off=drawn.tables.where.sure.may_part(max(self.at, at))
        )


@dataclass(frozen=True)
class _Here:
    """One of them `at` m in on a way; `elsewhere` is the same where it was met from elsewhere."""

    stop: StoppedBefore
    at: float
    elsewhere: float | None = None


def by_stops(
    outcome: RouteOutcome,
    stops: Sequence[StoppedBefore],
    drawn: Drawn,
    network: Network,
    leads: Leads = MappingProxyType({}),
) -> RouteOutcome:
    """The route as those places have it; where it has a hard spot at one, that has its chance already."""
    route, tables = outcome.route, drawn.tables
    port, end = port_of(route.passages, tables), middle(outcome.march.end.at)
    lines = {None, *(passage.piece.line for passage in route.passages)}
    own = [each for each in stops if each.opening == route.opening.name and port in each.ports]
    own = [each for each in own if each.mouth in (None, line_by(route.passages, tables))]
    others = [each for each in stops if each not in own]
    own = [told for each in own if (told := each.without(each.under_way)).visits]
    in_line: list[_Here] = []
    for each in (stop for stop in own if stop.line in lines):
        # Told with its mouth and without it is one place.
        _put(in_line, _Here(each, each.at), number(tables.where.travel.cell))
    here = _with_others(in_line, others, outcome, network, tables, leads)
    # What stood at the far end was the end itself.
    on_way = (each for each in here if each.at < end - tables.where.sure.may_part(each.at))
    free = (each for each in on_way if not _hard_there(outcome.spots, each.at, tables))
    given = (each.stop.met_by(outcome.loadout, drawn, each.elsewhere) for each in free)
    met = tuple(each for each in given if each is not None)
    if not met:
        return outcome
    way = replace(outcome.way, stops=met)
    return replace(outcome, way=way, walk=walk_way(way, outcome.spots, drawn))


def counted_in(outcome: RouteOutcome, opening: str, at: float, near: float) -> bool:
    """Whether that way knows of what held a push from another opening, `at` m in from there."""
    told = (each.told for each in outcome.way.stops if each.told is not None)
    return any(name == opening and abs(reading - at) < near for name, reading in told)


def stop_notes(outcome: RouteOutcome, study: Study) -> tuple[MetStopNote, ...]:
    """Those places of a route, the nearest first."""
    return tuple(_note(stop, outcome, study) for stop in sorted(outcome.way.stops, key=lambda stop: stop.at))


def _note(stop: MetStop, outcome: RouteOutcome, study: Study) -> MetStopNote:
    tables, say = study.tables, chance_words(study).say
    words, row = tables.in_pipe.stopped_before, tables.stuck.met_again
    off = max(stop.at * number(tables.where.travel.counter_off), stop.off)
    opening, reading = stop.told or (outcome.route.opening.name, stop.at)
    there = {"opening": opening, "reading": show_counter(reading, study.units)}
    low = max(stop.at - off, 0.0)
    return MetStopNote(
        at_m=stop.at,
        at_low_m=low,
        chance=stop.chance,
        says=(words.there if stop.times else words.never).format(
            chance=say(stop.chance), came=stop.came, times=stop.times
        ),
        see=row.see.format(signs=words.elsewhere.format(**there) if stop.told else ""),
        do=row.gently.format(reading=show_counter(low if stop.told else stop.at, study.units)),
        missed=tables.in_pipe.found_before.missed,
        told=words.told.format(**there),
        elsewhere=stop.told is not None,
    )


def _with_others(
    own: Sequence[_Here],
    others: Iterable[StoppedBefore],
    outcome: RouteOutcome,
    network: Network,
    tables: Tables,
    leads: Leads,
) -> list[_Here]:
    """With those that ways from elsewhere met and that this one comes to the same way; one place is one."""
    found = list(own)
    for stop in others:
        at = _comes_at(stop, outcome, network, tables)
        at = _through(stop, outcome, network, tables, leads) if at is None else at
        if at is None:
            continue
        _put(found, _Here(stop, at, at), tables.where.sure.may_part(max(stop.at, at)))
    return found


def _put(found: list[_Here], here: _Here, off: float) -> None:
    """Put it with the others; where one is so near that they are one place, that one has its visits too."""
    same = next((i for i, each in enumerate(found) if abs(each.at - here.at) < off), None)
    if same is None:
        found.append(here)
        return
    first = found[same].stop
    known = {each.push for each in first.visits}
    more = (each for each in here.stop.visits if each.push not in known)
    found[same] = replace(found[same], stop=replace(first, visits=(*first.visits, *more)))


def _comes_at(stop: StoppedBefore, outcome: RouteOutcome, network: Network, tables: Tables) -> float | None:
    """How far in it lies on that route, m; None where that does not surely come to it the same way.

    Where the rod was at its end there is no place that another comes to.
    """
    if stop.line not in network.lines or stop.place is None or stop.gear is not None:
        return None
    tops, begins = network.positions(stop.line), None
    for passage, station in zip(outcome.route.passages, outcome.march.stations, strict=True):
        piece, enters = passage.piece, "up" if stop.fall > 0 else "down"
        if piece.line != stop.line or passage.enters != enters:
            continue
        start = middle(station.at)
        begins = start if begins is None else begins
        inside = (stop.place - tops[piece.id]) * stop.fall + (piece.along if stop.fall < 0 else 0.0)
        if piece.along and 0 <= inside <= piece.along:
            at = start + inside
            # So near to where it comes into that line it may have joined below the place.
            return at if at - begins > tables.where.sure.may_part(stop.at) else None
    return None


def _through(
    stop: StoppedBefore, outcome: RouteOutcome, network: Network, tables: Tables, leads: Leads
) -> float | None:
    """How far in it lies on a route through the opening of that push, m; None where it may not."""
    if stop.gear is not None:
        return None
    found = comes_through(stop.opening, stop.ports, stop.mouth, outcome, network, tables, leads)
    if found is None:
        return None
    zero, parts = found
    # So near to where something joins, that push may have gone into it.
    return zero + stop.at if zero + stop.at + tables.where.sure.may_part(stop.at) < parts else None


def _hard_there(spots: Sequence[HardSpot], at: float, tables: Tables) -> bool:
    """Whether one of these may be that place."""
    slack, runs = tables.where.sure.may_part(at), (each.spot.run for each in spots)
    return any(low - slack <= at <= high + slack for low, high in runs)
