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
    readings, opening, began = readings_of(standing), object(), None
    for number, entry in enumerate(standing):
        opening = entry.data["opening"] if entry.kind == START else opening
        read = readings.get(entry.number)
        if number == place:
            if read is None:
                return False  # no machine is known to have come past a place without a reading
            began, inside = opening, read.inside
        if number <= place or opening != began:
            continue
        if entry.kind == MACHINE and (entry_number(entry, "to") or 0.0) >= inside:
            return True
        there = read is not None and abs(read.inside - inside) < near
        if there and entry.kind == STOPPED:
            return False  # it is told anew
        if there and entry.data.get("technique") == CLEANED and entry.data.get("outcome") == PASSED:
            return True
    return False
