"""What pushes of a job met on a way, as rows of its plan: what they saw, and stops that end it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import shorten

from advisor.outcome.attempts import GUIDE
from advisor.push.before.found_before import found_before
from advisor.push.before.left_stops import (
    left_stops,
    may_lie_there,
    next_push,
    pushes_by_way,
    stop_words,
    toward_words,
)
from advisor.push.before.opening_leads import opening_leads
from advisor.push.before.stops import Stop, by_words, stops_told
from advisor.push.before.to_look_at import look_at_words
from advisor.push.before.turns_seen import turns_seen
from advisor.push.log.cleared import may_be_cut
from advisor.push.log.found import LONGEST
from advisor.push.log.kinds import MARK, PORTS, STOPPED, UNKNOWN
from advisor.push.log.log import Entry, entry_text
from advisor.push.log.sign_words import sign_words
from advisor.push.log.went_in import read_off, readings_of
from advisor.push.now.seen import pushes_told
from advisor.push.stop_ahead import told_of
from advisor.quantity import show_counter
from advisor.result.model import Plan
from advisor.result.study import Study
from advisor.result.told import few
from advisor.result.way_model import FoundNote
from advisor.tables.where import number

CUT = " ..."  # behind what was longer


def met_before(study: Study, standing: Sequence[Entry]) -> tuple[FoundNote, ...]:
    """Each by its reading, the nearest first, as the next push from there that goes its way comes to it."""
    leads = opening_leads(study, standing)
    seen, cell = found_before(study, standing), number(study.tables.where.travel.cell)
    # Only what stops any gear: else what was seen is gone with other gear.
    at_stop = {
        stop: [each for each in seen if stop.gear is None and not stop.counted and _is_at(each, stop, cell)]
        for stop in _stops_met(study, standing)
    }
    alone = (each for each in seen if not any(each in here for here in at_stop.values()))
    rows = (_as_one(stop, here, study) for stop, here in at_stop.items())
    met = (*alone, *leads, *rows, *turns_seen(study, standing))
    return tuple(sorted(dict.fromkeys(met), key=lambda note: note.at_m))


def _is_at(find: FoundNote, stop: FoundNote, cell: float) -> bool:
    ways = (find.opening, find.ports, find.mouth) == (stop.opening, stop.ports, stop.mouth)
    return ways and abs(find.at_m - stop.at_m) < cell


def _as_one(stop: FoundNote, finds: Sequence[FoundNote], study: Study) -> FoundNote:
    """What stopped a push and what was seen there is one row, the stricter: two at one reading say opposite
    things, and who reads one acts on it."""
    words = study.tables.in_pipe.found_before
    for find in finds:
        base, other = (find, stop) if find.not_past and not stop.not_past else (stop, find)
        does = [find.do] if find.not_past or find.do != words.do or not stop.not_past else []
        does += [stop.do] if stop.not_past or words.cleared not in find.do else []
        more = {"see": f"{base.see}; {other.see}", "do": " ".join(does)}
        # In a sentence, too, the stricter is the last word on it.
        strict = stop.not_past and not find.not_past
        left = find.left.removesuffix(find.do) + more["do"] if strict else find.left
        stop = base.model_copy(
            update={
                **more,
                "said": stop.said,
                "left": " ".join(filter(None, (stop.left, left))),
                "not_into": find.not_into or stop.not_into,
            }
        )
    return stop


def told_of_pushes(study: Study, standing: Sequence[Entry]) -> tuple[str, ...]:
    """What stopped them, and which gear of theirs is to be looked at: before all else of a plan."""
    return (*left_stops(study, standing), *look_at_words(study, standing))


def counted_of_pushes(plan: Plan, study: Study, standing: Sequence[Entry]) -> str:
    """What the chances of a plan know of what pushes met; nothing where none is told."""
    if not (plan.camera_now and (plan.found or left_stops(study, standing))):
        return ""
    words = study.tables.in_pipe
    met = dict.fromkeys(each.told for way in plan.routes for each in way.stops)
    known = words.stopped_before.known.format(readings=" and at ".join(met))
    through = dict.fromkeys(way.opening for way in plan.routes if any(each.elsewhere for each in way.stops))
    if through:
        known += " " + words.stopped_before.through.format(openings=few(through))
    counted = [known if met else words.found_before.untold]
    return " ".join((*counted, *((words.found_before.pointed,) if plan.suspects else ())))


def _stops_met(study: Study, standing: Sequence[Entry]) -> Iterator[FoundNote]:
    """Stops of which more push does harm or wins nothing, and those that were passed or cleared, where what
    held the head may lie there still."""
    if not any(entry.kind == STOPPED for entry in standing):
        return
    for (opening, way, mouth), runs in pushes_by_way(study, standing).items():
        ports = PORTS.get(way, PORTS[UNKNOWN])
        # What was tried there counts for the gear that it was tried with.
        for began in {run[0].data.get("loadout"): run[0] for run in runs}.values():
            now = next_push(study, began, (way, mouth), runs)
            for stop in stops_told(now):
                if not stop.same_gear or stop.back:
                    continue
                left = stop_words(stop, opening, toward_words(way, mouth), study)
                note = _note(stop, opening, ports, study)
                whole = () if note.see.endswith(CUT) else (left,)
                note = note.model_copy(update={"mouth": mouth, "said": whole})
                if may_lie_there(stop, study):
                    yield note.model_copy(update={"left": left})
                elif told_of(now, stop).not_past:
                    gear = None if told_of(now, stop, ()).not_past else str(began.data.get("loadout"))
                    yield _end(note, stop, study, gear, marked_at(stop.rod, opening, standing, study))
                else:
                    yield _counted(note, stop, study)


def _note(stop: Stop, opening: str, ports: tuple[str, ...], study: Study) -> FoundNote:
    """A place to come to gently, and to look at."""
    words, signs = study.tables.stuck.met_again, sign_words(stop.signs, study.tables.stuck)
    cut = stop.cleared and may_be_cut(stop.signs, study.tables.stuck)
    again = words.cleared if cut else words.passed if stop.passed else words.gently
    reading, by = show_counter(stop.rod, study.units), by_words(stop, study)
    no_guide = stop.by == GUIDE and not cut
    return FoundNote(
        opening=opening,
        ports=ports,
        at_m=stop.rod,
        at_low_m=max(stop.rod - read_off(stop.rod, study.tables.where), 0.0),
        what=words.what,
        see=shorten(words.see.format(signs=f": {signs}" if signs else ""), LONGEST, placeholder=CUT),
        do=again.format(reading=reading, by=by),
        bare=again.format(reading=reading, by=by + study.tables.in_pipe.tried_before.bare)
        if no_guide
        else "",
        missed=study.tables.in_pipe.found_before.missed,
        not_past=False,
        left="",
    )


def _counted(note: FoundNote, stop: Stop, study: Study) -> FoundNote:
    """The same for a way that the stop counts on: what came past it, besides what is done there again."""
    look = study.tables.stuck.met_again.gently.format(reading=show_counter(stop.rod, study.units))
    does = {key: f"{look} {told}" for key in ("do", "bare") if (told := getattr(note, key)) not in ("", look)}
    return note.model_copy(update={**does, "counted": True})


def marked_at(rod: float, opening: str, standing: Sequence[Entry], study: Study) -> str | None:
    """By what it was marked above ground, the head so far in from that opening; None: it was not."""
    near = number(study.tables.where.travel.cell)
    for told in pushes_told(standing):
        if told[0].data["opening"] != opening:
            continue
        readings = readings_of(told)
        for entry in told:
            read = readings.get(entry.number)
            if entry.kind == MARK and read is not None and abs(read.inside - rod) < near:
                return entry_text(entry, "name") or "mark"
    return None


def _end(note: FoundNote, stop: Stop, study: Study, gear: str | None, mark: str | None) -> FoundNote:
    """The same, where no head goes past it, with that `gear` or with any; `mark` is told above it."""
    words = study.tables.stuck.met_again
    instead = study.tables.in_pipe.seen_whole.instead.format(mark=mark) if mark else words.instead
    do = words.stop.format(reading=show_counter(stop.rod, study.units))
    ends = {"do": do, "missed": words.missed, "not_past": True, "instead": instead, "gear": gear}
    return note.model_copy(update=ends)
