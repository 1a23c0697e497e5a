"""What stopped pushes of a job and was never passed, in words for a plan: its chances know nothing of it."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from advisor.errors import BadInput
from advisor.push.earlier import earlier
from advisor.push.kinds import START, STOPPED
from advisor.push.log import Entry, standing_in
from advisor.push.now import Now
from advisor.push.one_push import Push
from advisor.push.sign_words import sign_words
from advisor.push.stops import stops_told
from advisor.quantity import show_reading
from advisor.result.study import Study


def left_stops(study: Study, standing: Sequence[Entry]) -> tuple[str, ...]:
    """Each in a sentence, as the next push from there would meet it."""
    if not any(entry.kind == STOPPED for entry in standing):
        return ()
    says = study.tables.stuck.met_again.left
    starts = {
        (entry.data["opening"], entry.data.get("direction")): entry
        for entry in standing
        if entry.kind == START
    }
    found: dict[str, None] = {}
    for start in starts.values():
        with suppress(BadInput):  # the sheet has that opening no more
            push = Push(study, replace(start, number=0, counter=0.0))  # one that is none of the log's
            for stop in stops_told(Now(push, (), earlier(push, standing))):
                if not stop.passed and not stop.cleared:
                    signs = f" ({sign_words(stop.signs, study.tables.stuck)})" if stop.signs else ""
                    at = show_reading(stop.rod, study.units)
                    found[says.format(opening=push.opening.name, reading=at, signs=signs)] = None
    return tuple(found)


def left_stops_in(path: Path, study: Study) -> tuple[str, ...]:
    """Those of a log; nothing where there is none that can be read."""
    return left_stops(study, standing_in(path))
