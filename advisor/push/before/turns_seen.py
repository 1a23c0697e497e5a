"""Bends that pushes of a job saw: for the row of one that the sheet only assumes; and bends and tie-ins that
are on no sheet."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Sequence
from dataclasses import dataclass

from advisor.outcome.entry import entry_length
from advisor.push.before.left_stops import pushes_by_way, toward_words
from advisor.push.log.kinds import PORTS, SIGHTING, UNKNOWN
from advisor.push.log.log import Entry
from advisor.push.log.sighting import BEND, TIE_IN, Seen, sighting_of
from advisor.push.log.went_in import read_off, readings_of
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.track.fix import fix_of, on_no_sheet
from advisor.quantity import show_counter
from advisor.result.study import Study
from advisor.result.way_model import FoundNote
from advisor.tables.found_before import UndrawnRow
from advisor.tables.where import number


@dataclass(frozen=True)
class Turn:
    """A bend or tie-in, by its `kind`, that came into view `at` m in from its opening; `line`, the pipe in
    which it lies where the sheet draws it nowhere, `along` so far from the opening, m; `push`, by the number
    of its start."""

    kind: str
    opening: str
    way: str
    mouth: str | None
    at: float
    push: int
    line: str
    along: float


def turns_seen(study: Study, standing: Sequence[Entry]) -> Iterator[FoundNote]:
    """Each bend as a note of its way, and each tie-in that no sheet draws; those of one kind and way that are
    on none are told in one sentence."""
    for turns in _by_way(study, standing):
        new = _each_once(turns, study)
        for turn in turns:
            undrawn, words = turn in new, _words(turn, study)
            if not undrawn and (turn.line or turn.kind != BEND):
                continue  # the same, told again; a tie-in that is drawn has its row
            reading, along = (show_counter(each, study.units) for each in (turn.at, turn.along))
            yield FoundNote(
                opening=turn.opening,
                ports=PORTS.get(turn.way, PORTS[UNKNOWN]),
                mouth=turn.mouth,
                at_m=turn.at,
                at_low_m=max(turn.at - read_off(turn.at, study.tables.where), 0.0),
                what=words.what if undrawn else BEND,
                see=words.see if undrawn else "",
                do=words.do if undrawn else "",
                desk=words.desk.format(along=along, opening=turn.opening) if undrawn else "",
                missed=words.missed if undrawn else "",
                not_past=False,
                left=_left(turn, new, study) if undrawn else "",
                turn=not undrawn,
                mild=True,
                undrawn=turn.line,
                turns_on=undrawn and turn.kind == BEND,
                elsewhere=words.elsewhere.format(opening=turn.opening, reading=reading) if undrawn else "",
            )


def undrawn_told(study: Study, standing: Sequence[Entry]) -> tuple[str, ...]:
    """The bends and tie-ins that no sheet draws, for a report."""
    found = (turn for turns in _by_way(study, standing) for turn in _each_once(turns, study))
    return tuple(
        _words(turn, study).report.format(
            opening=turn.opening,
            reading=show_counter(turn.at, study.units),
            along=show_counter(turn.along, study.units),
        )
        for turn in found
    )


def _by_way(study: Study, standing: Sequence[Entry]) -> Iterator[list[Turn]]:
    """Those of the pushes that went one way, in the order in which they were told."""
    readings = readings_of(standing)
    seen = {
        entry.number: readings[entry.number].inside
        for entry in standing
        if entry.kind == SIGHTING and entry.data["what"] in (BEND, TIE_IN) and entry.number in readings
    }
    kinds = {entry.number: str(entry.data["what"]) for entry in standing if entry.number in seen}
    for (opening, way, mouth), runs in (pushes_by_way(study, standing) if seen else {}).items():
        start = next(each for each in study.network.openings() if each.name == opening)
        entered = entry_length(start, PORTS.get(way, PORTS[UNKNOWN])[0], study.tables)
        told = ((run[0].number, entry.number) for run in runs for entry in run if entry.number in seen)
        lines = {each: line for run in runs for each, line in _on_no_sheet(study, run, seen).items()}
        turns = [
            Turn(kinds[each], opening, way, mouth, seen[each], push, lines.get(each, ""), along)
            for push, each in told
            for along in (max(seen[each] - entered, 0.0),)
        ]
        if turns:
            yield turns


def _on_no_sheet(study: Study, run: Sequence[Entry], seen: Container[int]) -> dict[int, str]:
    """Of what was `seen`, what of a push is on no sheet, by its entries, each with its line."""
    if not any(entry.number in seen for entry in run):
        return {}
    now, found = Now(Push(study, run[0]), tuple(run[1:])), dict[int, str]()
    tracker, least = now.push.tracker, number(study.tables.where.sure.name_landmark)
    for entry, belief in now.told:
        told = sighting_of(entry) if entry.number in seen else None
        if isinstance(told, Seen) and on_no_sheet(tracker, belief, told) >= least:
            found[entry.number] = fix_of(tracker, belief).best.line
    return found


def _each_once(turns: Iterable[Turn], study: Study) -> list[Turn]:
    """Those on no sheet, the nearest first, each once.

    In another push it may be read as far off as counters are; in the same one it stands where it stood.
    """
    found: list[Turn] = []
    for turn in (each for each in turns if each.line):
        off = read_off(turn.at, study.tables.where)
        alike = [each for each in found if each.kind == turn.kind]
        same = (off / 2 if each.push == turn.push else off for each in alike)
        if all(abs(each.at - turn.at) >= near for each, near in zip(alike, same, strict=True)):
            found.append(turn)
    return sorted(found, key=lambda each: each.at)


def _words(turn: Turn, study: Study) -> UndrawnRow:
    in_pipe = study.tables.in_pipe
    return in_pipe.undrawn_bend if turn.kind == BEND else in_pipe.undrawn_tie_in


def _left(turn: Turn, new: Sequence[Turn], study: Study) -> str:
    """All of its kind in one sentence, told with the first of them."""
    turns = [each for each in new if each.kind == turn.kind]
    first, row = turns[0], _words(turn, study)
    if turn is not first:
        return ""
    at, along = (
        " and ".join(dict.fromkeys(show_counter(each, study.units) for each in values))
        for values in ([turn.at for turn in turns], [turn.along for turn in turns])
    )
    toward = toward_words(first.way, first.mouth)
    many = f"a {first.kind}" if len(turns) == 1 else f"{len(turns)} {first.kind}s"
    return row.left.format(many=many, opening=first.opening, way=toward, readings=at, alongs=along)
