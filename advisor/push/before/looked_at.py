"""What pushes that have ended looked at, by the sheet: a plan made later goes on where nobody has looked.

On the safe side: as far as it is sure which way the rod went, where something of the map was recognized on
it. The place of whatever was found, held the head or hid the picture counts of every push, whatever it
recognized, so that no later look is told to have met nothing there: that is looked at again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from advisor.plan import Case, preview, work_through
from advisor.push.before.openings_seen import looked_for
from advisor.push.before.shown_so_far import shown_by
from advisor.push.before.stops_counted import came_through, on_their_lines
from advisor.push.before.way_taken import as_gone, way_taken
from advisor.push.log.cleared import may_be_cut
from advisor.push.log.found import open_past
from advisor.push.log.kinds import DOWN, FIND, PASSED, SIGHTING, STOPPED, TRY, UP
from advisor.push.log.log import Entry, entry_text
from advisor.push.log.sighting import POOL, TRAP, in_words, signs_at
from advisor.push.log.went_in import readings_of
from advisor.push.now.seen import Run, Taken, along, runs_of
from advisor.result.study import Study
from advisor.rulebase.load import RuleBase
from advisor.site.looked_at import LookedAt
from advisor.site.looked_for import LookedFor
from advisor.tables.load import Tables

_WORLDS = 100  # arithmetic: to follow a push by; the plan itself works through all of them


def as_pushes_show(case: Case, standing: Sequence[Entry], tables: Tables, base: RuleBase) -> Case:
    """The case that knows what the pushes of a log have shown and looked at. Raises BadInput."""
    case = shown_by(standing, case.kit, tables, case.sheet).known_to(case)
    return looks_of(case, standing, tables, base).known_to(case)


@dataclass(frozen=True)
class Looks:
    """Where pushes looked, what they told of openings that may not be there, and which way they went."""

    at: tuple[LookedAt, ...] = ()
    openings: tuple[LookedFor, ...] = ()
    ways: tuple[tuple[Run, Taken], ...] = ()
    tables: Tables | None = None  # none without a way

    def known_to(self, case: Case) -> Case:
        """The case that knows of it, and of what held pushes already."""
        stops = on_their_lines(case.stops, [(run.started.number, taken) for run, taken in self.ways])
        if self.tables is not None:
            stops = came_through(stops, self.ways, case.kit, self.tables.where)
        return replace(case, looked_at=self.at, looked_for=self.openings, stops=stops)


def looks_of(case: Case, standing: Sequence[Entry], tables: Tables, base: RuleBase) -> Looks:
    """It as the log stands; of a push that goes on only which way it went, for what held it.

    Raises BadInput where the sheet contradicts itself.
    """
    went = list(runs_of(standing))
    runs = [run for run in went if run.ended is not None]
    went = went if any(entry.kind == STOPPED for entry in standing) else runs
    if not went:
        return Looks()
    study = looked_for(work_through(preview(Looks().known_to(case), _WORLDS), tables, base), runs)
    gone = [as_gone(run, study) for run in went]
    ways = [(run, taken) for run in gone if (taken := way_taken(run, study)) is not None]
    over = ((run, taken) for run, taken in ways if run.ended is not None)
    at = tuple(each for run, taken in over for each in _of_run(run, taken, study))
    return Looks(at, study.looked_for, tuple(ways), tables)


def _of_run(run: Run, taken: Taken, study: Study) -> Iterator[LookedAt]:
    until = min(run.went_in or 0.0, taken.until, taken.came) if taken.by_passed else 0.0
    met = [entry for entry in run.entries if _is_met(entry, study)]
    # Where nobody knows the way, what was found may lie elsewhere: it makes no section the likelier.
    known = taken.by_passed or (run.direction in (DOWN, UP) and run.told_to(taken.port))
    found = [entry for entry in met if known and _is_found(entry, run, study)]
    for line in dict.fromkeys(leg.line for leg in taken.legs):
        places = (tuple(_places(told, run, taken, line)) for told in (met, found))
        looked = LookedAt(line, 0.0, 0.0, *places)
        seen = along(taken.legs, until, line) or [(0.0, 0.0)] * bool(looked.met)
        yield from (replace(looked, low=low, high=high) for low, high in seen)


def _is_met(entry: Entry, study: Study) -> bool:
    """Whether it tells of what may be the trouble, or of what the picture did not show."""
    if entry.kind in (FIND, STOPPED):
        return True
    if entry.kind == TRY:
        return entry.data.get("outcome") != PASSED
    wet = entry.kind == SIGHTING and entry.data["what"] in (POOL, TRAP)
    return wet or study.tables.finds.is_blind(in_words(entry))


def _is_found(entry: Entry, run: Run, study: Study) -> bool:
    """Whether it tells of some trouble: a find, standing water, or what a stop told that held the head.

    A step or a wall holds no water back.
    """
    finds = study.tables.finds
    if entry.kind == STOPPED:
        signs = signs_at(run.entries, run.entries.index(entry))
        return any(row.sign in signs for row in finds.held) and may_be_cut(signs, study.tables.stuck)
    if entry.kind == FIND:
        return finds.may_hold_back(entry_text(entry, "what") or "", open_past(entry))
    return entry.data.get("what") == POOL


def _places(entries: Iterable[Entry], run: Run, taken: Taken, line: str) -> Iterator[float]:
    """Where on the line they were, m down it; all along the way for one of which nobody told the reading."""
    readings = readings_of(run.entries)
    for entry in entries:
        reading = readings.get(entry.number)
        for leg in (leg for leg in taken.legs if leg.line == line):
            on = (0.0, leg.length) if reading is None else (reading.inside - leg.start,)
            yield from (leg.place + leg.fall * each for each in on if 0 <= each <= leg.length)
