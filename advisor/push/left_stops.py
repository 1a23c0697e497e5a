"""What stopped pushes of a job and was never passed, in words for a plan: its chances know nothing of it."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from advisor.errors import BadInput
from advisor.push.earlier import way_gone
from advisor.push.kinds import DOWN, STOPPED, UP
from advisor.push.log import Entry, standing_in
from advisor.push.now import Now
from advisor.push.one_push import Push
from advisor.push.seen import pushes_told
from advisor.push.sign_words import sign_words
from advisor.push.stops import stops_told
from advisor.quantity import show_reading
from advisor.result.study import Study


def left_stops(study: Study, standing: Sequence[Entry]) -> tuple[str, ...]:
    """Each in a sentence, as the next push from there that goes its way would meet it."""
    if not any(entry.kind == STOPPED for entry in standing):
        return ()
    table = study.tables.stuck
    ways: dict[tuple[str, str], list[list[Entry]]] = {}
    for run in pushes_told(standing):
        with suppress(BadInput):  # the sheet has that opening no more
            way = way_gone(Push(study, run[0]), run)
            ways.setdefault((str(run[0].data["opening"]), way), []).append(run)
    found: dict[str, None] = {}
    for (opening, way), runs in ways.items():
        last = runs[-1][0]  # the next one is none of the log's
        push = Push(study, replace(last, number=0, counter=0.0, data={**last.data, "direction": way}))
        for stop in stops_told(Now(push, (), tuple(Now(push.begun(run[0]), tuple(run[1:])) for run in runs))):
            if stop.cleared or (stop.passed and not stop.back):
                continue
            says = table.held_on_way_in.left if stop.back else table.met_again.left
            signs = f" ({sign_words(stop.signs, table)})" if stop.signs else ""
            at, toward = show_reading(stop.rod, study.units), f", {way}," if way in (DOWN, UP) else ""
            found[says.format(opening=opening, way=toward, reading=at, signs=signs)] = None
    return tuple(found)


def left_stops_in(path: Path, study: Study) -> tuple[str, ...]:
    """Those of a log; nothing where there is none that can be read."""
    return left_stops(study, standing_in(path))
