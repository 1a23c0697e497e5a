"""The report of a job as plain sections: task, pushes, what was seen, found and marked, advice, limits."""

from __future__ import annotations

from functools import cached_property, partial
from pathlib import Path

from advisor.errors import printable
from advisor.plan import Case, work_through
from advisor.push.before.end_reached import as_reached
from advisor.push.before.goal import went_for
from advisor.push.before.left_in import left_in
from advisor.push.before.tasks import gone_for, not_gone_for, shown
from advisor.push.before.turns_seen import undrawn_told
from advisor.push.before.way_taken import as_gone
from advisor.push.log.kinds import (
    FIND,
    KINKED,
    RESET,
    START,
    TRY,
)
from advisor.push.log.log import Entry
from advisor.push.log.redrawn import redrawn
from advisor.push.log.went_in import readings_of
from advisor.push.now.counted import apart, ran_across_in
from advisor.push.now.datum import datum_of
from advisor.push.now.seen import Run, runs_of
from advisor.push.now.way_gone import doubt_words
from advisor.push.report.advice import Advice, read_advice
from advisor.push.report.advised import recommended_section
from advisor.push.report.barred import barred_by
from advisor.push.report.beside import with_depths_beside
from advisor.push.report.finds import finds_section, logged_words
from advisor.push.report.marked import digging_section, marks_section
from advisor.push.report.marks import Spot, spots
from advisor.push.report.order import order_section, photos_section
from advisor.push.report.parts import Report, Section, clean
from advisor.push.report.placed_anew import placed_anew
from advisor.push.report.pushes import pushes_section
from advisor.push.report.stops import (
    Told,
    held_for_good,
    held_words,
    short_of,
    still_words,
    stop_lines,
    stop_places,
    told_stops,
)
from advisor.push.report.told import drained_words, next_words, told_words
from advisor.push.report.tools import before_tools
from advisor.push.report.water import hidden_words, pools, under_water
from advisor.push.report.words import (
    MAPS,
    apart_words,
    entry_words,
    redrawn_words,
    when,
    why_words,
    zone,
)
from advisor.push.track.way_back import held_on_way_back
from advisor.quantity import Units, show_counter
from advisor.result.study import Study
from advisor.rulebase.load import RuleBase
from advisor.tables.finds import WATCH, Advised
from advisor.tables.load import Tables
from advisor.tables.where import number

NOTHING_EXAMINED = (
    "Nothing was examined: no push is in the log. This report says nothing of the state of the drain."
)
NO_FINDS = (
    "No find was logged. That is a statement on what passed the lens, as far as it could be seen, "
    "and on nothing else."
)
NO_FINDS_BUT = "No other find was logged."
_GROUND = (
    "Told by the operator and worked out from the sheet; predicted, not surveyed. Codes differ by place and "
    "year: the local code and the licensed person decide."
)


def report_of(
    name: str, standing: tuple[Entry, ...], case: Case, tables: Tables, base: RuleBase, rules: Path
) -> Report:
    """Everything that the log and the sheet say of one job."""
    study = work_through(case, tables, base)
    advice = read_advice(rules, tables)
    standing = placed_anew(standing, study)
    runs = as_reached([as_gone(run, study) for run in runs_of(standing)], study)
    told = spots(standing, study.network, case.sheet.model, advice, tables)
    found = with_depths_beside(told, advice)
    builder = _Builder(study, gone_for(runs, study), case, advice, runs, found, standing)
    dates = "no push logged"
    if standing:
        first, last = (when(entry.happened_at) for entry in (standing[0], standing[-1]))
        dates = f"{first} to {last}, {zone(standing[-1])}"
    sections = tuple(clean(section) for section in builder.sections())
    return Report(printable(f"{study.network.site}"), printable(f"Job {name}; {dates}"), sections)


class _Builder:
    def __init__(
        self,
        study: Study,
        studies: tuple[Study, ...],
        case: Case,
        advice: Advice,
        runs: tuple[Run, ...],
        found: tuple[Spot, ...],
        standing: tuple[Entry, ...],
    ) -> None:
        self.study, self.case, self.advice, self.runs = studies[0], case, advice, runs
        self._passed_over, self._came_by = not_gone_for(studies, study, runs)
        parted = [(run, off) for run in runs if (off := apart(run, went_for(run, study))) is not None]
        anew = redrawn_words([run for run in runs if redrawn(run.started, study.network)])
        self._apart = tuple(dict.fromkeys((*anew, *(apart_words(off, case.units) for _, off in parted))))
        unsure = {entry.number for run, _ in parted for entry in run.entries if entry.kind == FIND}
        self.found = tuple(spot.unlocated() if spot.entry in unsure else spot for spot in found)
        self.standing = standing
        self.numbers = {spot.entry: spot.number for spot in found}
        self.units: Units = case.units
        self.seen = [shown(runs, each) for each in studies]
        self.stops, self.held_fast = told_stops(standing, found, advice, runs, study)
        self.readings = readings_of(standing)
        places = stop_places(standing, case.units)
        several = len({run.opening for run in runs}) > 1
        # A reading alone tells no place where pushes went in from more openings than one.
        self.origin = {e.number: f" from {run.opening}" for run in runs if several for e in run.entries}
        self.places = {number: f"{place}{self.origin.get(number, '')}" for number, place in places.items()}
        self.cell = number(study.tables.where.travel.cell)
        self.back = held_on_way_back(standing, self.cell)
        self._lies_in, self._undrawn = left_in(runs), undrawn_told(self.study, standing)
        self.datum = partial(datum_of, runs=runs, network=self.study.network)
        self.across = {number: arm for run in runs for number, arm in ran_across_in(run, study).items()}

    def sections(self) -> list[Section]:
        summary = self.summary()
        if not self.runs:
            freed = [self.recommended()] if self._shut else []
            return [summary, self.task(), *freed, self.not_seen()]
        made: list[Section | None] = [
            summary,
            self.task(),
            pushes_section(self.runs, self.study),
            order_section(self.runs, partial(self._read, why=False), self._words, self._undrawn),
            self.finds(),
            self.recommended(),
        ]
        model = self.case.sheet.model
        met = frozenset(piece for each in self.seen for piece in each.cover.met)
        made.append(marks_section(self.found, self.study, model, self.advice, self.datum, met))
        if self.found or self._unlogged or self._held:  # whatever is told of a place may lead to a spade
            made.append(digging_section(self.study))
        made.append(photos_section(self.standing, self.numbers))
        return [*filter(None, made), self.not_seen()]

    def summary(self) -> Section:
        if not self.runs:
            return Section("In short", (NOTHING_EXAMINED,), strong=True)
        told = logged_words(self.found) or self._no_finds
        stops = tuple(f"{where}. Nobody logged it as a find." for where, *_ in self._unlogged)
        stops += tuple(f"{where}." for where, *_ in self._lines(self.held_fast))
        stops += held_words([(self._place(entry), entry) for _, entry in self._held], self.study.tables.stuck)
        wet = under_water(self.standing, self._read_from)
        seen = (*self._covered, *self._unseen(), *self._came_by, *wet, *self._apart)
        return Section("In short", (*self._left_in(), *seen, *self._kinked(), *stops, told), strong=True)

    def task(self) -> Section:
        lines = [*(line for each in self.seen for line in each.task()), *self._passed_over]
        lines += told_words(self.case.sheet.model.task, self.study)
        return Section("Task", (*lines, *drained_words(self.runs)))

    def finds(self) -> Section:
        finds = [spot for spot in self.found if spot.kind == FIND]
        return finds_section(
            finds, (*(f"{where}." for where, *_ in self._unlogged), self._no_finds), self.units, self.datum
        )

    def _kinked(self) -> list[str]:
        """The tries that kinked rod or spring: who works on must not take that gear."""
        says = self.study.tables.in_pipe.kinked.report
        return [
            says.format(place=self._place(entry))
            for entry in self.standing
            if entry.kind == TRY and entry.data.get("outcome") == KINKED
        ]

    def _left_in(self) -> list[str]:
        """The pushes whose head is still in there, before all else."""
        words, found = self.study.tables.in_pipe, []
        for run, entry in self._lies_in:
            way, locate = doubt_words(run.way, run.opening, words)
            place = self._place(entry).removesuffix(self.origin.get(entry.number, ""))
            says = words.left_in.report.format(opening=f"{run.opening}{way}", place=place)
            found.append(f"{says} {locate}".rstrip())
        return found

    def _place(self, entry: Entry) -> str:
        """Where the head was at an entry; the start of a push tells nothing of that."""
        if entry.kind == START:
            return "at an unknown reading"
        return self.places.get(entry.number, f"at {self._read_from(entry)}")

    def _words(self, entry: Entry) -> str:
        back = entry.number in self.back
        arm = self.across.get(entry.number)
        over = None if arm is None else self.study.tables.where.across.report.format(arm=arm)
        return entry_words(entry, self.units, self.numbers, self.study.tables.stuck, back, over)

    @property
    def _no_finds(self) -> str:
        return NO_FINDS if not self._unlogged else NO_FINDS_BUT

    @cached_property
    def _unlogged(self) -> list[tuple[str, Advised, Entry]]:
        """What is as good as a find and what is advised for it: stops that told what held, standing water."""
        return [*self._lines(self.stops), *pools(self.standing, self.found, self.advice, self._read_from)]

    def _lines(self, stops: tuple[Told, ...]) -> list[tuple[str, Advised, Entry]]:
        return stop_lines(stops, self.places, self.back, self.study.tables.stuck)

    def recommended(self) -> Section:
        held = [
            (
                self._place(entry),
                short_of(run, self.readings[entry.number].inside, self.runs, self.study),
                entry,
            )
            for run, entry in self._held
        ]
        stops = [*self._unlogged, *self._lines(self.held_fast)]
        barred = barred_by(self.found, self.runs, self.readings, self.advice)
        before = before_tools(bool(self._lies_in), self.runs, self.study, self.advice, barred)
        rows = [row for _, row, _ in stops]
        rows += [row for each in self.found if each.kind == FIND for row in each.advised]
        dealt = any(row.advice != WATCH for row in rows)
        dealt |= any(each.own_advice for each in self.found)
        then: tuple[str, ...] = ()
        if self.runs and not self._lies_in:  # what is left in there comes before all else
            after = self.advice.finds.after
            then = next_words(self.seen, self.runs, bool(held) or dealt, after)
        return recommended_section(self.found, self._shut, stops, held, self.advice, self.units, before, then)

    def not_seen(self) -> Section:
        lines = [*self._covered, *self._apart] if self.runs else [NOTHING_EXAMINED]
        lines += self._unseen(why_words(self.runs))
        lines += still_words(self.standing, self.places, self.units)
        lines += hidden_words(self.standing, self.advice, self._read_from, self._words, " ".join(lines))
        if any(entry.kind == RESET for entry in self.standing):
            lines.append(
                "The counter was set anew on the way: what was seen behind that is counted on from there."
            )
        lines.append("Of other lines, of the outside of the pipe and of the soil nothing was seen.")
        lines.append(f"Lengths come from the counter and from {MAPS[self.study.network.map_quality]}.")
        return Section("What was not seen", (*lines, _GROUND))

    @cached_property
    def _covered(self) -> tuple[str, ...]:
        return tuple(line for each in self.seen for line in each.told(self.numbers))

    def _unseen(self, why: str = "") -> tuple[str, ...]:
        return tuple(line for each in self.seen for line in each.missed(why, self.numbers))

    def _read(self, entry: Entry, why: bool = True) -> str:
        """How far in an entry was, from the opening on."""
        reading = self.readings.get(entry.number)
        if reading is not None:
            return reading.words(self.units, why)
        return "" if entry.counter is None else show_counter(entry.counter, self.units)

    def _read_from(self, entry: Entry) -> str:
        """The same, and from which opening where there are several."""
        return f"{self._read(entry)}{self.origin.get(entry.number, '')}"

    @property
    def _shut(self) -> tuple[tuple[str, str], ...]:
        """The openings that were told not to open, each with its kind."""
        holes = ((each.name, each.hole) for each in self.study.network.openings())
        return tuple((name, hole.kind) for name, hole in holes if hole is not None and hole.opens is False)

    def _has_advice(self, stop: Entry) -> bool:
        """Whether what held the head there has advice of its own: that comes before a new opening, unless
        what is there stays."""
        told = [entry.counter for entry, _, row in self.stops if row.advice != WATCH]
        finds = (spot for spot in self.found if spot.kind == FIND)
        told += [spot.counter for spot in finds if any(row.advice != WATCH for row in spot.advised)]
        near = self.advice.same_place
        return any(at is not None and abs(at - (stop.counter or 0.0)) <= near for at in told)

    @cached_property
    def _held(self) -> list[tuple[Run, Entry]]:
        """Where pushes were held for good, and nothing is told yet of what held them."""
        held = held_for_good(self.runs, self.readings, self.back)
        return [(run, entry) for run, entry in held if not self._has_advice(entry)]
