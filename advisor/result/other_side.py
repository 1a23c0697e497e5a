"""Where a way ends at what no head goes past, one that comes from the other side goes before it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.ranking.settle import settle
from advisor.result.study import Study
from advisor.result.way_model import FoundNote
from advisor.routes.passage import Passage
from advisor.site.mouths import line_by, port_of
from advisor.tables.load import Tables
from advisor.worlds.draws import Array
from advisor.worlds.spread import below, middle


def other_side_first(study: Study, found: Sequence[FoundNote]) -> Study:
    """The study with the ways that come to it on that side last, where another is worth its minutes."""
    bars = [note for note in found if note.not_past and not note.at_opening]
    wrong = [note for note in found if note.at_opening]
    barred = {each for outcome in study.usable if bars for each in _barred(outcome, bars, study.tables)}
    free = [
        each
        for each in study.usable
        if not _meets(each, barred) and not any(_lies_on(note, each, study.tables) for note in wrong)
    ]
    free = free if len(free) < len(study.usable) else []
    settled = settle(free, study.drawn) if free else study.settled
    if not free or not settled.attempts:
        return study
    names = {each.outcome.route.id for each in settled.ranked}
    ended = (replace(each, leads=0.0) for each in study.ranked if each.outcome.route.id not in names)
    return replace(study, settled=replace(settled, ranked=(*settled.ranked, *ended)))


def from_elsewhere(study: Study, found: Sequence[FoundNote]) -> tuple[FoundNote, ...]:
    """What no head goes past, as ways from other openings come to it: in the same pipe, from the same side.
    So are bends and tie-ins that no sheet draws, from either side.

    Where it is on them hangs on lengths of the sheet besides: what bars may begin twice as far before it, and
    such a bend has the span of those lengths, as all that the sheet draws there.
    """
    notes: dict[FoundNote, None] = {}
    for note in (each for each in found if (each.not_past and not each.at_opening) or each.undrawn):
        on_it = [each for each in study.usable if _lies_on(note, each, study.tables)]
        there = {
            (passage.piece.id, side): along
            for outcome in on_it
            for passage, begins, ends in _runs(outcome)
            if middle(begins) <= note.at_m <= middle(ends) and note.undrawn in ("", passage.piece.line)
            for side, along in _from_both(passage, note, begins, ends)
        }
        for outcome in (each for each in study.usable if not _lies_on(note, each, study.tables)):
            for passage, begins, ends in _runs(outcome):
                along = there.get((passage.piece.id, passage.enters))
                if along is not None and (not note.undrawn or middle(along) <= middle(ends) - middle(begins)):
                    # A bend is looked for no finer than the sheet's lengths tell.
                    at = middle(begins) + middle(along)
                    at = round(at, 1) if note.undrawn else at
                    low = max(at - 2 * (note.at_m - note.at_low_m), 0.0)
                    alike = (each for each in found if each.undrawn and each.turns_on == note.turns_on)
                    own = [each for each in alike if _lies_on(each, outcome, study.tables)]
                    if note.undrawn and any(abs(each.at_m - at) <= at - low for each in own):
                        continue  # seen from there too, where its reading tells better
                    lies = begins + np.clip(along, 0.0, ends - begins)
                    way = {
                        "opening": outcome.route.opening.name,
                        "ports": (port_of(outcome.route.passages, study.tables),),
                        "mouth": line_by(outcome.route.passages, study.tables) if note.undrawn else None,
                        "see": note.elsewhere or note.see,
                        "span_m": _span(lies) if note.undrawn else None,
                    }
                    notes[note.model_copy(update={**way, "at_m": at, "at_low_m": low, "left": ""})] = None
    return tuple(notes)


def _span(at: Array) -> tuple[float, float]:
    """From where to where it may lie, m, as rows of what is drawn have it."""
    return below(at, 0.1), below(at, 0.9)


def _from_both(passage: Passage, note: FoundNote, begins: Array, ends: Array) -> Iterator[tuple[str, Array]]:
    """How far into its pipe it lies, m, by the port that a way comes in by: of what no sheet draws from
    either end."""
    yield passage.enters, note.at_m - begins
    other = {"up": "down", "down": "up"}.get(passage.enters)
    if note.undrawn and other is not None:
        yield other, ends - note.at_m


def _lies_on(note: FoundNote, outcome: RouteOutcome, tables: Tables) -> bool:
    return note.lies_on(*_led(outcome, tables), note.gear or outcome.loadout.name)


def _led(outcome: RouteOutcome, tables: Tables) -> tuple[str, str, str]:
    """By which opening, port and mouth of it a way goes in."""
    passages = outcome.route.passages
    return outcome.route.opening.name, port_of(passages, tables), line_by(passages, tables)


def _runs(outcome: RouteOutcome) -> Iterator[tuple[Passage, Array, Array]]:
    """Each passage of a way with where it begins and ends, m, in each world."""
    at = [each.at for each in (*outcome.march.stations, outcome.march.end)]
    for passage, (begins, ends) in zip(outcome.route.passages, pairwise(at), strict=True):
        yield passage, begins, ends


def _barred(
    outcome: RouteOutcome, bars: Sequence[FoundNote], tables: Tables
) -> Iterator[tuple[str, str, str | None]]:
    """Where one of them may lie on a way: the piece, from where it is entered, and with which gear alone."""
    gear = outcome.loadout.name
    for note in bars:
        on_it = note.lies_on(*_led(outcome, tables), gear)
        if on_it and note.bars(middle(outcome.march.end.at)):
            low, high = note.at_low_m, 2 * note.at_m - note.at_low_m
            for passage, begins, ends in _runs(outcome):
                if middle(begins) <= high and middle(ends) >= low:
                    yield passage.piece.id, passage.enters, note.gear


def _meets(outcome: RouteOutcome, barred: Collection[tuple[str, str, str | None]]) -> bool:
    gear = outcome.loadout.name
    return any(
        (passage.piece.id, passage.enters, each) in barred
        for passage in outcome.route.passages
        for each in (None, gear)
    )
