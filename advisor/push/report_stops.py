"""Stops that told what holds the head: a find of the push, whether or not anybody logged one."""

from __future__ import annotations

from collections.abc import Iterable

from advisor.push.advice import Advice, StopRow
from advisor.push.kinds import STOPPED
from advisor.push.log import Entry
from advisor.push.marks import Spot
from advisor.push.sighting import sign_names


def told_stops(
    standing: Iterable[Entry], found: Iterable[Spot], advice: Advice
) -> tuple[tuple[Entry, StopRow], ...]:
    """Each stop with a sign that has to be looked after, and what is advised for it.

    A find that was logged at the same reading says it already.
    """
    finds = [spot.counter for spot in found if spot.kind == "find" and spot.counter is not None]
    told = []
    for entry in standing:
        if entry.kind != STOPPED or entry.counter is None:
            continue
        names = sign_names(entry)
        row = next((row for row in advice.finds.held if row.sign in names), None)
        logged = any(abs(entry.counter - at) <= advice.same_place for at in finds)
        if row is not None and not logged:
            told.append((entry, row))
    return tuple(told)
