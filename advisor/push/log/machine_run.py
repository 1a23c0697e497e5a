"""A machine run that was told in a push: by which opening and which way, and whether the rod was out.

What nobody told of it settles nothing: a stop that a cutter may never have come to is no softer for it, and
one that went in beside a rod winds it into its cable rather than cut what holds it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from advisor.push.log.kinds import MACHINE, UNKNOWN
from advisor.push.log.log import Entry, entry_number, entry_text
from advisor.push.log.went_in import read_off
from advisor.quantity.parse import Stated
from advisor.site.history import MachineRun
from advisor.tables.where import WhereFile


def ran_past(entry: Entry, began: Entry, inside: float, where: WhereFile) -> bool:
    """Whether a machine went in as the push that `began` so, all of the rod out, and came past what
    was read `inside` m in.

    Its cable counts from the opening, as the rod does. One that ended where that may be, by how far its
    reading may be off, has stopped at it and is not known to have come past.
    """
    to, way = entry_number(entry, "to"), entry.data.get("direction", UNKNOWN)
    alike = way != UNKNOWN and way == began.data.get("direction")
    if not ran_from(entry, str(began.data["opening"])) or not alike or entry.data.get("outside") is not True:
        return False
    return to is not None and to >= inside + read_off(inside, where)


def ran_beside(entries: Iterable[Entry]) -> bool:
    """Whether one ran while rod may have been in the pipe: a push is over for it."""
    return any(entry.kind == MACHINE and entry.data.get("outside") is False for entry in entries)


def last_run(standing: Sequence[Entry]) -> MachineRun | None:
    """The last one that a log tells, as a sheet would: for the plans of the job."""
    run = next((entry for entry in reversed(standing) if entry.kind == MACHINE), None)
    if run is None:
        return None
    to = entry_number(run, "to")
    return MachineRun.model_construct(
        on=run.happened_at.date().isoformat(),
        to=None if to is None else Stated(to, to, to),
        in_at=entry_text(run, "opening"),
    )


def ran_from(entry: Entry, opening: str) -> bool:
    """Whether a machine was told to have gone in by that opening."""
    return entry.kind == MACHINE and entry.data.get("opening") == opening
