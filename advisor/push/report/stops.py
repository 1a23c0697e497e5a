"""Stops that told what holds the head: a find of the push, whether or not anybody logged one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from advisor.outcome.spot_facts import may_scale
from advisor.push.log.cleared import cleared_since
from advisor.push.log.kinds import BACK, PASSED, SIGHTING, START, STOPPED, TRY
from advisor.push.log.log import Entry
from advisor.push.log.sighting import OVER_LENS, Still, sighting_of, sign_names, signs_at
from advisor.push.log.sign_words import sign_words
from advisor.push.log.went_in import Reading, readings_of
from advisor.push.now.counted import at_entry
from advisor.push.now.here import pieces_here
from advisor.push.now.never_passed import outrun
from advisor.push.now.seen import Run, way_in
from advisor.push.report.advice import Advice
from advisor.push.report.marks import Spot
from advisor.push.track.depth import path_length
from advisor.push.track.way_back import held_on_way_back
from advisor.quantity import Units, show_counter
from advisor.result.study import Study
from advisor.tables.finds import CLEANING, Advised
from advisor.tables.stuck import StuckFile
from advisor.tables.where import number


def stop_places(standing: Iterable[Entry], units: Units) -> dict[int, str]:
    """Where the head stood at each stop, from the opening on, by the number of its entry.

    Where the counter ran on while the picture stood, that is where it came to stand; where nobody knows that,
    somewhere from the last reading on.
    """
    standing = tuple(standing)
    stopped: Entry | None = None
    readings, last, found = readings_of(standing), dict[str, Reading](), dict[int, str]()
    for entry in standing:
        if entry.kind == START:
            last.clear()
        reading = readings.get(entry.number)
        if reading is None or entry.counter is None:
            continue
        told = sighting_of(entry)
        if entry.kind == STOPPED:
            stopped = entry
        elif entry.kind == TRY and stopped is not None and stopped.counter == entry.counter:
            found[entry.number] = found[stopped.number]
        if not isinstance(told, Still):
            if entry.kind == STOPPED:
                found[entry.number] = f"at {reading.words(units)}"
            if entry.kind in (START, SIGHTING, STOPPED, BACK):
                last["read"] = reading
        elif told.stood is not None:
            gone = entry.counter - told.stood
            last["read"] = replace(reading, shown=told.stood, inside=reading.inside - gone)
            found[entry.number] = f"at {last['read'].words(units)}"
        else:
            came = last["read"].words(units) if "read" in last else "the opening"
            found[entry.number] = f"somewhere from {came} on"
    return found


def still_words(standing: Iterable[Entry], places: dict[int, str], units: Units) -> list[str]:
    """What is not known where the counter ran on, nobody knows how long, while the picture stood."""
    return [
        f"The picture stood {places[entry.number]} while the counter ran to "
        f"{show_counter(told.counter, units)}: how much of that was passed is not known and is not counted."
        for entry in standing
        if isinstance(told := sighting_of(entry), Still) and told.stood is None and entry.number in places
    ]


Told = tuple[Entry, frozenset[str], Advised]


def told_stops(
    standing: Sequence[Entry], found: Iterable[Spot], advice: Advice, runs: Iterable[Run], study: Study
) -> tuple[tuple[Told, ...], tuple[Told, ...]]:
    """Each stop with its signs, one of which has to be looked after, and what is advised for it.

    A find that was logged at the same reading says it already, but not that the head came neither on nor
    back there, where nothing else was told of what held it: such stops are the second. The same stop told
    again is told once.
    """
    runs = tuple(runs)
    run_of = {entry.number: run for run in runs for entry in run.entries}
    readings = readings_of(standing)
    held = {stop.number for _, stop in held_for_good(runs, readings, frozenset())}
    finds = [spot.counter for spot in found if spot.kind == "find" and spot.counter is not None]
    near = number(study.tables.where.travel.cell)
    told: list[Told] = []
    held_fast: list[Told] = []
    for place, entry in enumerate(standing):
        if entry.kind != STOPPED or entry.counter is None:
            continue
        names = signs_at(standing, place)
        logged = any(abs(entry.counter - at) <= advice.same_place for at in finds)
        rows = (row for row in advice.finds.held if row.sign in names)
        # Where it came past after all, that water hid the picture tells nothing of what is there.
        row = next((row for row in rows if row.sign != OVER_LENS or entry.number in held), None)
        if row is not None and (not logged or row.sign in study.tables.stuck.free_first.signs):
            scales = row.without_scale is None or _may_scale(run_of.get(entry.number), entry, study)
            advised = row.on(scales)
            if advised.advice in CLEANING and cleared_since(standing, place, study.tables.where):
                advised = advice.finds.cleared[0]
            (held_fast if logged else told).append((entry, names, advised))
    again = _Again(readings, run_of, held_on_way_back(standing, near), near)
    return again.once(told), again.once(held_fast)


@dataclass(frozen=True)
class _Again:
    """Finds the same stop told again: in from one opening the same way, at one place, with no sign less."""

    readings: Mapping[int, Reading]
    run_of: Mapping[int, Run]
    back: frozenset[int]
    near: float

    def once(self, told: Sequence[Told]) -> tuple[Told, ...]:
        """Each as it was told last."""
        later = (told[place + 1 :] for place in range(len(told)))
        return tuple(
            each for each, rest in zip(told, later, strict=True) if not any(self._same(each, o) for o in rest)
        )

    def _same(self, one: Told, later: Told) -> bool:
        first, second = (self._way(each[0]) for each in (one, later))
        here, there = (self.readings.get(each[0].number) for each in (one, later))
        if first is None or first != second or here is None or there is None:
            return False
        return abs(here.inside - there.inside) < self.near and one[1] <= later[1]

    def _way(self, entry: Entry) -> tuple[str, str, bool] | None:
        """In from which opening, which way, and whether it was held when drawn back."""
        run = self.run_of.get(entry.number)
        return None if run is None else (run.opening, run.direction, entry.number in self.back)


def stop_lines(
    stops: Iterable[Told],
    places: dict[int, str],
    back: frozenset[int],
    table: StuckFile,
) -> list[tuple[str, Advised, Entry]]:
    """Each of these in words, those of `back` as held when drawn back, what is advised, and its entry."""
    found = []
    for entry, signs, row in stops:
        held = "held when drawn back," if entry.number in back else "stopped"
        where = f"The head was {held} {places[entry.number]}: {sign_words(signs, table)}"
        found.append((where, row, entry))
    return found


def held_for_good(
    runs: Sequence[Run], readings: Mapping[int, Reading], back: frozenset[int]
) -> list[tuple[Run, Entry]]:
    """The stop of each push past which neither it nor another the same way came, and none since saw all.

    Drawn back after it, or left to be marked, a head is past it no more than before.
    """
    found = []
    for place, run in enumerate(runs):
        held: Entry | None = None
        for entry in run.entries:
            if entry.number not in readings or entry.number in back:
                continue
            inside = readings[entry.number].inside
            if entry.kind == TRY and entry.data.get("outcome") == PASSED:
                held = None
            elif entry.kind == STOPPED or (
                entry.kind == TRY and (held is None or held.counter != entry.counter)
            ):
                held = entry
            elif held is not None and entry.kind == SIGHTING and inside > readings[held.number].inside:
                held = None
        seen = any(later.reached for later in runs[place:])
        if held is not None and not seen and not outrun(run, runs):
            found.append((run, held))
    return found


def held_words(held: Iterable[tuple[str, Entry]], table: StuckFile) -> tuple[str, ...]:
    """Each of these places with what was seen and felt there."""
    return tuple(
        f"Stopped {place}{f': {signs}' if (signs := sign_words(sign_names(entry), table)) else ''}. "
        "It came no further."
        for place, entry in held
    )


def short_of(run: Run, inside: float, runs: Iterable[Run], study: Study) -> str | None:
    """The first opening that opens on the way on of a push held so far in: no new one is needed before it."""
    network, start = study.network, way_in(run, study.network)
    used, found = {each.opening for each in runs}, list[tuple[float, str]]()
    for piece in network.openings() if start is not None else ():
        assert start is not None
        assert piece.hole is not None
        down, up = piece.id in network.downstream(start.id), start.id in network.downstream(piece.id)
        opens = piece.name in used or (piece.hole.opens is True and piece.hole.there == 1)
        if opens and down != up and run.told_to("down" if down else "up"):
            at = network.positions(piece.line)[piece.id]
            length = path_length(network, study.tables, start, piece.line, at)
            found += [(length, piece.name)] if length is not None and inside < length else []
    return min(found)[1] if found else None


def _may_scale(run: Run | None, entry: Entry, study: Study) -> bool:
    """Whether scale may grow on the pipe that the head was held in; so where nobody knows which it was."""
    now = at_entry(run, entry, study) if run is not None else None
    here = pieces_here(now) if now is not None and not now.off_map else ()
    return not here or any(may_scale(piece.wall, study.tables) for piece in here)
