"""Whether what was told of a place, a stop or a find, was cut or cleaned since."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from advisor.outcome.attempts import CLEANED
from advisor.push.log.kinds import PASSED, START, STOPPED
from advisor.push.log.log import Entry
from advisor.push.log.machine_run import ran_past
from advisor.push.log.went_in import readings_of
from advisor.tables.stuck import StuckFile
from advisor.tables.where import WhereFile, number


def cleared_since(standing: Sequence[Entry], place: int, where: WhereFile) -> bool:
    """Whether a machine was told to have run past that entry since, from the same opening the same way, or
    the pipe to have been cleaned there, with all of the rod out."""
    return cleared_at(standing, place, where) is not None


def cleared_at(standing: Sequence[Entry], place: int, where: WhereFile) -> int | None:
    """The place of the entry that tells so; None where none does."""
    readings, near = readings_of(standing), number(where.travel.cell)
    there, began = readings.get(standing[place].number), _start(standing[: place + 1])
    if there is None or began is None:
        return None  # no machine is known to have come past a place without a reading
    opening = began.data["opening"]
    for at, entry in enumerate(standing[place + 1 :], place + 1):
        opening = entry.data["opening"] if entry.kind == START else opening
        if ran_past(entry, began, there.inside, where):
            return at
        read = readings.get(entry.number)
        if read is None or opening != began.data["opening"] or abs(read.inside - there.inside) >= near:
            continue
        if entry.kind == STOPPED:
            return None  # it is told anew
        cleaned = entry.data.get("technique") == CLEANED and entry.data.get("outside") is True
        if cleaned and entry.data.get("outcome") == PASSED:
            return at
    return None


def may_be_cut(signs: Collection[str], table: StuckFile) -> bool:
    """Whether a machine may take away what held the head.

    Not where all that was seen of it, if anything was, holds no water back: a wall, a rim, how the head lies.
    """
    eye = {name: row for name, row in table.signs.items() if name in signs and row.by == "eye"}
    return not eye or any(table.signs[row.of or name].water == "held" for name, row in eye.items())


def _start(standing: Sequence[Entry]) -> Entry | None:
    return next((entry for entry in reversed(standing) if entry.kind == START), None)
