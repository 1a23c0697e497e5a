"""A head that is held while it is drawn back: what holds it then is no stop of the way in."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from advisor.push.log.kinds import START, STOPPED
from advisor.push.log.log import Entry, entry_text
from advisor.push.log.machine_run import ran_past
from advisor.push.log.went_in import readings_of
from advisor.tables.where import WhereFile, number


def on_way_back(rods: Sequence[float], place: int, apart: float) -> bool:
    """Whether it came to that place from further in; `rods` are m out, `apart` m long is one place.

    Less than half of that is no way: whoever draws back a foot and pushes on half of it goes in again.
    """
    here = rods[place]
    return next((rod for rod in reversed(rods[:place]) if abs(rod - here) >= apart / 2), 0.0) > here


def seen_on_way_in(
    began: Entry, entries: Sequence[Entry], rods: Sequence[float], place: int, where: WhereFile
) -> frozenset[str]:
    """What the lens showed on the way in at stops near that place; `rods` after each entry.

    What was there before a machine was run past it may be there no more.
    """
    before, near = enumerate(entries[:place]), number(where.sure.near)
    run = max((i for i, entry in before if ran_past(entry, began, rods[place], where)), default=-1)
    return frozenset(
        sign
        for i, entry in enumerate(entries[:place])
        if i > run
        and entry.kind == STOPPED
        and abs(rods[i] - rods[place]) <= near
        and not on_way_back(rods, i, near)
        for sign in (entry_text(entry, "sign") or "").split(", ")
        if sign
    )


def held_on_way_back(standing: Iterable[Entry], apart: float) -> frozenset[int]:
    """The stops of a log that were told on the way back, by the numbers of their entries."""
    found: set[int] = set()
    rods: list[float] = []
    standing = tuple(standing)
    readings = readings_of(standing)
    for entry in standing:
        if entry.kind == START:
            rods = []
        if entry.number in readings:
            rods.append(readings[entry.number].inside)
            if entry.kind == STOPPED and on_way_back(rods, len(rods) - 1, apart):
                found.add(entry.number)
    return frozenset(found)
