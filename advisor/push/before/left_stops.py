"""What stopped pushes of a job, whether or not it was passed, and what wedged a head, in words for a plan.

What most likely lies there still and was passed or cut has a row of its own on its way.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace

from advisor.errors import BadInput
from advisor.outcome.attempts import STEADY, called
from advisor.push.before.stops import Stop, by_words, stops_told
from advisor.push.log.cleared import may_be_cut
from advisor.push.log.kinds import DOWN, STOPPED, UP
from advisor.push.log.log import Entry, entry_text
from advisor.push.log.sighting import NOT_BACK, wedged
from advisor.push.log.sign_words import sign_words
from advisor.push.log.went_in import readings_of
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.now.seen import pushes_told
from advisor.push.now.way_gone import mouth_gone, way_gone
from advisor.quantity import show_counter
from advisor.result.study import Study


def left_stops(study: Study, standing: Sequence[Entry]) -> tuple[str, ...]:
    """Each in a sentence, as the next push from there that goes its way would meet it."""
    if not any(entry.kind == STOPPED or wedged(entry) for entry in standing):
        return ()
    readings = readings_of(standing)
    found: dict[str, None] = {}
    for (opening, way, mouth), runs in pushes_by_way(study, standing).items():
        toward = toward_words(way, mouth)
        rows = study.tables.in_pipe.wedged_before
        for entry in filter(wedged, (entry for run in runs for entry in run)):
            name, read = entry_text(entry, "spot"), readings.get(entry.number)
            says = rows.left.format(
                opening=opening,
                way=toward,
                reading="an unknown reading" if read is None else show_counter(read.inside, study.units),
                spot=f", {name}," if name else "",
                technique=called(str(entry.data["technique"])),
                again=rows.gently if entry.data["technique"] == STEADY else rows.again,
            )
            found[says] = None
        for stop in stops_told(next_push(study, runs[-1][0], (way, mouth), runs)):
            if not (stop.cleared and stop.back) and not may_lie_there(stop, study):
                found[stop_words(stop, opening, toward, study)] = None
    return tuple(found)


def may_lie_there(stop: Stop, study: Study) -> bool:
    """Whether what held the head lies in the pipe, or wedged it, and it was passed or cut since; not where no
    push goes past it again."""
    lies = NOT_BACK in stop.signs or any(row.sign in stop.signs for row in study.tables.finds.held)
    return lies and (stop.passed or stop.cleared) and not (stop.fast or stop.back)


def toward_words(way: str, mouth: str | None) -> str:
    """Which way a push went, and of a channel into which mouth, behind its opening; nothing where unknown."""
    return f", {way}{f' into {mouth}' if mouth else ''}," if way in (DOWN, UP) else ""


def stop_words(stop: Stop, opening: str, toward: str, study: Study) -> str:
    """A stop of a push from that opening, which went that way, in a sentence."""
    row = study.tables.stuck.met_again
    cut = stop.cleared and may_be_cut(stop.signs, study.tables.stuck)
    says = row.left_cleared if cut else row.left_passed if stop.passed else row.left
    says = study.tables.in_pipe.wedged_before.passed if stop.passed and stop.fast else says
    says = study.tables.in_pipe.held_on_way_in.left if stop.back else says
    signs = f" ({sign_words(stop.signs, study.tables.stuck)})" if stop.signs else ""
    at = show_counter(stop.rod, study.units)
    return says.format(opening=opening, way=toward, reading=at, signs=signs, by=by_words(stop, study))


def next_push(study: Study, like: Entry, led: tuple[str, str | None], runs: Sequence[Sequence[Entry]]) -> Now:
    """One that begins as `like` did and was `led` that way, after these; it is none of the log's."""
    data = {**like.data, "direction": led[0], "mouth": led[1], "found": None}
    push = Push(study, replace(like, number=0, counter=0.0, data=data))
    return Now(push, (), tuple(Now(push.begun(run[0]), tuple(run[1:])) for run in runs))


def pushes_by_way(
    study: Study, standing: Sequence[Entry]
) -> dict[tuple[str, str, str | None], list[list[Entry]]]:
    """The pushes of a log by their opening, the way that they went, and where known the mouth."""
    ways: dict[tuple[str, str, str | None], list[list[Entry]]] = {}
    for run in pushes_told(standing):
        with suppress(BadInput):  # the sheet has that opening no more
            tracker = Push(study, run[0]).tracker
            way = way_gone(tracker, run).way
            mouth = mouth_gone(tracker, run) if way == UP else None
            ways.setdefault((str(run[0].data["opening"]), way, mouth), []).append(run)
    return ways
