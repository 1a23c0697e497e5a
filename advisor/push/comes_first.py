"""What comes before another look, where pushes saw all of what a plan goes for: what they found there, in a
sentence for plan and push, and in few words for a card."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from advisor.push.log.log import Entry
from advisor.push.log.machine_run import ran_past
from advisor.push.met_before import marked_at, met_before
from advisor.push.now.seen import Run
from advisor.quantity import show_counter
from advisor.result.study import Study
from advisor.result.way_model import FoundNote


def comes_first(
    run: Run, study: Study, standing: Sequence[Entry], *, looks_on: bool
) -> tuple[str, str] | None:
    """It, of what lies on the way of the last push that saw it; nothing where that met nothing of the kind.

    `looks_on` is whether more lies beyond that nobody has seen. Then only what bars the way there counts.
    """
    on_it = [note for note in met_before(study, standing) if _on_way(note, run)]
    bars = [note for note in on_it if note.first or note.not_past]
    if not looks_on:
        # At its end nothing bars what has been seen; what may hold water back is what the look was for.
        bars = [note for note in bars if not (note.trap or note.pipe_end)]
        bars = bars or [note for note in on_it if _holds_back(note, run, study, standing)]
    if not bars:
        return None
    note = min(bars, key=lambda each: each.at_m)
    words, reading = study.tables.in_pipe.seen_whole, show_counter(note.at_m, study.units)
    mark = marked_at(note.at_m, note.opening, standing, study)
    row = words.comes_first[_kind(note)]
    then = words.then_on if looks_on else words.then_there
    told = row.told.format(reading=reading, opening=note.opening, see=note.see, then=then)
    card = row.card.format(reading=reading)
    return (f"{told} {words.marked.format(mark=mark)}" if mark else told), card


def _kind(note: FoundNote) -> Literal["held", "cleaned", "found", "trap", "end"]:
    if note.trap or note.pipe_end:
        return "trap" if note.trap else "end"
    return "held" if note.not_past else "cleaned" if note.first else "found"


def _holds_back(note: FoundNote, run: Run, study: Study, standing: Sequence[Entry]) -> bool:
    """Whether it may, and no machine was told to have run past it since."""
    if note.turn or not study.tables.finds.may_hold_back(note.what, note.open_past):
        return False
    since = (entry for entry in standing if entry.number > run.started.number)
    return not any(ran_past(entry, run.started, note.at_m, study.tables.where) for entry in since)


def _on_way(note: FoundNote, run: Run) -> bool:
    """Whether whoever goes in as this push did comes to it."""
    return note.opening == run.opening and bool({*note.ports} & {*run.ports})
