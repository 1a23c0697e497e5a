"""What came of each place at which pushes of a job were held and the plan had nothing hard, push by push."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from math import inf

from advisor.kit.model import Kit, KitPart
from advisor.outcome.attempts import GUIDE
from advisor.push.log.cleared import cleared_since, may_be_cut
from advisor.push.log.kinds import PASSED, STOPPED, TRY
from advisor.push.log.log import Entry
from advisor.push.log.sighting import signs_at
from advisor.push.log.went_in import readings_of
from advisor.push.now.seen import Run, Taken
from advisor.push.track.leg import Leg
from advisor.push.track.way_back import held_on_way_back
from advisor.result.stopped_before import StoppedBefore, Visit
from advisor.tables.load import Tables
from advisor.tables.where import WhereFile, number

Gear = frozenset[KitPart]
Led = tuple[tuple[str, ...], str | None]  # the ports of its opening, and the mouth of its channel where known


@dataclass
class _Place:
    opening: str
    led: Led
    at: float
    push: int
    visits: list[Visit] = field(default_factory=list)
    gear: Gear | None = None

    def told(self) -> StoppedBefore:
        return StoppedBefore(
            self.opening, self.led[0], self.at, tuple(self.visits), self.push, self.gear, mouth=self.led[1]
        )


def stops_counted(
    standing: Sequence[Entry],
    runs: Sequence[Run],
    kit: Kit,
    led: Callable[[Run], Led],
    tables: Tables,
) -> tuple[StoppedBefore, ...]:
    """Each such place once; what was cut or cleaned away since is none. `led` as the pushes went."""
    if not any(entry.kind == STOPPED for entry in standing):
        return ()
    cell = number(tables.where.travel.cell)
    gone = {
        entry.number
        for place, entry in enumerate(standing)
        if entry.kind == STOPPED
        and may_be_cut(signs_at(standing, place), tables.stuck)
        and cleared_since(standing, place, tables.where)
    }
    skip = gone | held_on_way_back(standing, cell)
    ways = {run.started.number: led(run) for run in runs}
    found: list[_Place] = []
    for run in runs:
        for place in _held_at(run, ways[run.started.number], skip, kit, tables):
            before = next((each for each in found if _same(place, each, cell)), None)
            if before is None:
                found.append(place)
            elif before.gear != place.gear:
                before.gear = None  # another was held there too, or something was seen there
    for run in runs:
        for place in found:
            if (place.opening, place.led) == (run.opening, ways[run.started.number]):
                place.visits += _visits(run, place.at, skip, kit, cell)
    return tuple(place.told() for place in found)


def on_their_lines(
    stops: Sequence[StoppedBefore], ways: Sequence[tuple[int, Taken]]
) -> tuple[StoppedBefore, ...]:
    """Each with the line in which it lies, and without the pushes that were in another by then, where what
    they passed tells that surely. `ways` are those of the pushes by the entry that they began with."""
    found = []
    for stop in stops:
        legs = {push: _leg_at(taken, stop.at) for push, taken in ways}
        leg = legs.get(stop.push)
        line = None if leg is None else leg.line
        visits = tuple(each for each in stop.visits if _may_be_there(legs.get(each.push), line))
        found.append(_placed(replace(stop, line=line, visits=visits), leg))
    return tuple(found)


def came_through(
    stops: Sequence[StoppedBefore], ways: Sequence[tuple[Run, Taken]], kit: Kit, where: WhereFile
) -> tuple[StoppedBefore, ...]:
    """Each with the pushes from elsewhere that surely came the same way through its place, and unheld; one
    that may lie before that line, as counter and sheet may part, has no place on it."""
    found = []
    taken_by = {run.started.number: taken for run, taken in ways}
    for each in stops:
        sure = each.place is not None and _well_in(each.at, taken_by[each.push], each.line, where)
        stop = each if sure else replace(each, place=None, fall=0.0)
        through = (run for run, taken in ways if _through(stop, run, taken, where))
        visits = (Visit(kit.parts(run.loadout or ""), True, run.started.number) for run in through)
        found.append(replace(stop, visits=(*stop.visits, *visits)))
    return tuple(found)


def _well_in(at: float, taken: Taken, line: str | None, where: WhereFile) -> bool:
    """Whether so far in, m, a push surely was in that line."""
    off = where.sure.may_part(at)
    begins = next((leg.start for leg in taken.legs if leg.line == line), inf)
    ends = max((leg.start + leg.length for leg in taken.legs if leg.line == line), default=0.0)
    return at - off > begins and at + off <= min(taken.until, ends)


def _through(stop: StoppedBefore, run: Run, taken: Taken, where: WhereFile) -> bool:
    own = run.opening == stop.opening and taken.port in stop.ports
    if own or stop.place is None or not taken.by_passed:
        return False
    legs = [leg for leg in taken.legs if leg.line == stop.line and leg.fall == stop.fall]
    inside = [(leg, (stop.place - leg.place) * leg.fall) for leg in legs]
    at = next((leg.start + so_far for leg, so_far in inside if 0 <= so_far <= leg.length), None)
    if at is None:
        return False
    off = where.sure.may_part(max(at, stop.at))
    readings = readings_of(run.entries)
    held = (readings[each.number].inside for each in run.entries if each.kind == STOPPED)
    beyond = min(run.went_in or 0.0, taken.until, taken.came) >= at + off
    return (
        beyond and _well_in(at, taken, stop.line, where) and not any(abs(each - at) <= off for each in held)
    )


def _may_be_there(leg: Leg | None, line: str | None) -> bool:
    """Whether a push may have been in that line: it was in none other, where what it passed tells."""
    return line is None or leg is None or leg.line == line


def _placed(stop: StoppedBefore, leg: Leg | None) -> StoppedBefore:
    """It with its place on its line, where it lies in a pipe of that."""
    if leg is None or not leg.fall:
        return stop
    return replace(stop, place=leg.place + leg.fall * (stop.at - leg.start), fall=leg.fall)


def _leg_at(taken: Taken, at: float) -> Leg | None:
    if not taken.by_passed or at > taken.until:
        return None
    return next((leg for leg in taken.legs if leg.start <= at <= leg.start + leg.length), None)


def _same(one: _Place, other: _Place, cell: float) -> bool:
    return (one.opening, one.led) == (other.opening, other.led) and abs(one.at - other.at) < cell


def _held_at(run: Run, led: Led, skip: set[int], kit: Kit, tables: Tables) -> list[_Place]:
    """Where that push was held on its way in, at nothing that the plan has as hard."""
    readings, own = readings_of(run.entries), tables.in_pipe.stopped_before.own_gear
    found = []
    for index, entry in enumerate(run.entries):
        if entry.kind != STOPPED or entry.number in skip or entry.number not in readings:
            continue
        until = next((i for i, e in enumerate(run.entries) if i > index and e.kind == STOPPED), None)
        if any(each.data.get("spot") for each in (entry, *run.entries[index + 1 : until])):
            continue  # a hard spot of the plan, which has its chance
        signs = signs_at(run.entries, index)
        eye = {sign for sign, row in tables.stuck.signs.items() if sign in signs and row.by == "eye"}
        open_ahead = bool(eye) and eye <= set(own)
        gear = kit.parts(run.loadout or "") if open_ahead else None
        at = readings[entry.number].inside
        found.append(_Place(run.opening, led, at, run.started.number, gear=gear))
    return found


def _visits(run: Run, at: float, skip: set[int], kit: Kit, cell: float) -> list[Visit]:
    """What came of it there in one push: once for each gear that it came there with."""
    readings, push = readings_of(run.entries), run.started.number
    gear = kit.parts(run.loadout or "")
    far, found = 0.0, list[Visit]()
    held: Gear | None = None
    for entry in run.entries:
        read = readings.get(entry.number)
        inside = far if read is None else read.inside
        here = abs(inside - at) < cell
        if entry.kind == STOPPED and here:
            held = None if entry.number in skip else gear
        elif entry.kind == TRY and here and held is not None:
            with_guide = _guided(gear, kit) if entry.data["technique"] == GUIDE else gear
            if with_guide != held:
                found.append(Visit(held, False, push))
                gear = held = with_guide
            if entry.data["outcome"] == PASSED:
                found.append(Visit(held, True, push))
                held, far = None, max(far, at + cell)
        elif inside >= at + cell:
            if held is not None or far < at + cell:
                found.append(Visit(gear, True, push))
            held = None
        far = max(far, inside)
    if held is not None:
        found.append(Visit(held, False, push))
    return found


def _guided(gear: Gear, kit: Kit) -> Gear:
    """The same gear with a guide on it."""
    more = (each.parts for each in kit.loadouts if gear < each.parts)
    kinds = {GUIDE}
    return next((each for each in more if {kind for kind, _ in each - gear} == kinds), gear | {(GUIDE, "")})
