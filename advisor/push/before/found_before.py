"""What pushes of a job told of a way, as rows of its plan: finds, a trap, water that stood in the pipe."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from textwrap import shorten

from advisor.push.before.left_stops import pushes_by_way, toward_words
from advisor.push.log.cleared import cleared_since
from advisor.push.log.found import LONGEST, open_past
from advisor.push.log.kinds import FIND, PORTS, SIGHTING, UNKNOWN
from advisor.push.log.log import Entry, entry_text
from advisor.push.log.sighting import PIPE_END, POOL, TRAP
from advisor.push.log.went_in import read_off, readings_of
from advisor.push.now.ran_since_cleared import ran_since_cleared
from advisor.quantity import show_counter
from advisor.result.study import Study
from advisor.result.way_model import FoundNote
from advisor.tables.load import Tables
from advisor.tables.open_past import with_open


@dataclass(frozen=True)
class Heed:
    """What was told, what to heed of it whenever a head comes there again, and whether none goes past it.

    `clears` is what takes it away, for a plan that ends there, `cleared_by` how that is told;
    `first`, what is done with it before a camera goes in again, as "cleaned out".
    """

    what: str
    do: str
    not_past: bool = False
    kind: str = ""  # of a landmark
    clears: str = ""
    cleared_by: str = ""
    first: str = ""
    cleaned: bool = False  # as that is, and was so since
    not_into: bool = False  # it fills a good part of the bore, and lies there still
    mild: bool = False  # it asks for no more than the care that every find does
    open_past: str | None = None  # how much of the pipe, where that was asked

    @property
    def told(self) -> str:
        """What it is, with how much it leaves open."""
        return with_open(self.what, self.open_past)

    def with_way_back(self, says: str, tables: Tables) -> str:
        """What is said of it, and where it bars how that ends: told as cut, or taken back as a mistake."""
        ends = (self.cleared_by, tables.in_pipe.found_before.wrong) if self.not_past else ()
        return " ".join(filter(None, (says, *ends)))


def heeded(entry: Entry, tables: Tables, cleared: Callable[[], bool] = lambda: False) -> Heed | None:
    """It of an entry; None of all that is nothing to be met again.

    `cleared` is whether the place was since: asked of what a cutter or cleaning takes away.
    """
    words = tables.in_pipe.found_before
    if entry.kind == SIGHTING:
        return landmark_heeded(str(entry.data["what"]), tables)
    what = entry_text(entry, "what") if entry.kind == FIND else None
    if not what:
        return None
    past = open_past(entry)
    first, may_bar = tables.finds.for_find(what, past), tables.finds.that_bar(what, past)
    fill = () if may_bar else tables.finds.that_fill(what, past)  # what bars says so already
    rows = dict.fromkeys((*may_bar, *filter(None, (first,)), *fill))
    dirt = tables.finds.to_be_cleaned(what, past)
    gone = (dirt is not None or any(row.till_cleared for row in rows)) and cleared()
    bars = [row for row in may_bar if not (row.till_cleared and gone)][:1]
    # What bars comes first; what else is told of the find, as of a pipe that is broken, holds as well.
    told = [row.on_the_way for row in rows if row.on_the_way and (row in bars or row not in may_bar)]
    do = " ".join(told or (words.do,))
    fills = any(row.fills for row in rows) and not gone
    ahead = None if gone else (*bars, dirt)[0]
    return Heed(
        shorten(what, LONGEST, placeholder=" ..."),
        f"{do} {words.cleared}" if gone else do,
        bool(bars),
        clears=bars[0].clears if bars else "",
        cleared_by=ahead.cleared_by if ahead else "",
        first=ahead.first_have if ahead else "",
        cleaned=gone and dirt is not None,
        not_into=fills,
        mild=do == words.do and not any(row.fills or row.holds_a_head for row in rows),
        open_past=past,
    )


def landmark_heeded(kind: str, tables: Tables) -> Heed | None:
    """It of a kind of landmark: an end that was seen is one, wherever the sheet has the end."""
    words = tables.in_pipe.found_before
    told = {TRAP: (words.trap, words.at_trap), PIPE_END: (words.end, words.at_end), POOL: (POOL, words.do)}
    return Heed(*told[kind], not_past=kind != POOL, kind=kind, mild=kind == POOL) if kind in told else None


def found_before(study: Study, standing: Sequence[Entry]) -> tuple[FoundNote, ...]:
    """Each by its reading, the nearest first, as the next push from there that goes its way comes to it.

    What has no reading can be put nowhere.
    """
    readings, tables = readings_of(standing), study.tables
    if not any(heeded(entry, tables) and entry.number in readings for entry in standing):
        return ()
    words = tables.in_pipe.found_before
    place = {entry.number: index for index, entry in enumerate(standing)}
    found: dict[FoundNote, None] = {}
    for (opening, way, mouth), runs in pushes_by_way(study, standing).items():
        toward = toward_words(way, mouth)
        for entry in (entry for run in runs for entry in run):
            heed = heeded(entry, tables, partial(cleared_since, standing, place[entry.number], tables.where))
            if heed is not None and entry.number in readings:
                at = readings[entry.number].inside
                reading = show_counter(at, study.units)
                note = FoundNote(
                    opening=opening,
                    ports=PORTS.get(way, PORTS[UNKNOWN]),
                    mouth=mouth,
                    at_m=at,
                    at_low_m=max(at - read_off(at, tables.where), 0.0),
                    what=heed.what,
                    see=words.see.format(what=heed.told),
                    do=heed.do,
                    missed=tables.stuck.met_again.missed if heed.not_past else words.missed,
                    not_past=heed.not_past,
                    pipe_end=heed.kind == PIPE_END,
                    trap=heed.kind == TRAP,
                    instead=heed.clears,
                    till_cut=bool(heed.clears),
                    first=heed.first,
                    drain_first=heed.cleaned
                    and not ran_since_cleared(standing, place[entry.number], tables.where),
                    not_into=heed.not_into,
                    mild=heed.mild,
                    open_past=heed.open_past,
                    left=heed.with_way_back(
                        words.left.format(
                            opening=opening, way=toward, reading=reading, what=heed.told, do=heed.do
                        ),
                        tables,
                    )
                    + (f" {heed.cleared_by}" if heed.first and not heed.not_past else ""),
                )
                found[note] = None
    return tuple(sorted(found, key=lambda note: note.at_m))
