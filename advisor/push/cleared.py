"""Whether what was told of a place, a stop or a find, was cut or cleaned since."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.outcome.attempts import CLEANED
from advisor.push.kinds import MACHINE, PASSED, START, STOPPED
from advisor.push.log import Entry, entry_number
from advisor.push.went_in import readings_of


def cleared_since(standing: Sequence[Entry], place: int, near: float) -> bool:
    """Whether a machine was told to have run past that entry since, from the same opening, or the pipe to
    have been cleaned there, within `near` m."""
    readings = readings_of(standing)
    told = readings.get(standing[place].number)
    if told is None:
        return False  # no machine is known to have come past a place without a reading
    starts = [entry for entry in standing[: place + 1] if entry.kind == START]
    own = opening = starts[-1].data["opening"] if starts else None
    for entry in standing[place + 1 :]:
        opening = entry.data["opening"] if entry.kind == START else opening
        if opening != own:
            continue
        if entry.kind == MACHINE and (entry_number(entry, "to") or 0.0) >= told.inside:
            return True
        read = readings.get(entry.number)
        there = read is not None and abs(read.inside - told.inside) < near
        if there and entry.kind == STOPPED:
            return False  # it is told anew
        if there and entry.data.get("technique") == CLEANED and entry.data.get("outcome") == PASSED:
            return True
    return False
