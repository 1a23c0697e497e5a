"""A bend that a push saw: one that the sheet only assumes is there, where it was read; one that it draws
nowhere is counted beside its turns."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.result.model import RouteNote
from advisor.result.way_model import FoundNote


def as_seen(way: RouteNote, found: Sequence[FoundNote]) -> RouteNote:
    """The way with each such bend as one that is there: not to see it tells of the wrong pipe or count.

    A hard one keeps the span of its hard spot, by which it is told throughout.
    """
    sights = list(way.sights)
    on_it = (note for note in found if note.turn and note.lies_on(*way.led, way.loadout.name))
    for note in on_it:
        low, high = note.at_low_m, 2 * note.at_m - note.at_low_m
        near = [at for at, each in enumerate(sights) if each.at_low_m <= high and each.at_high_m >= low]
        bends = [at for at in near if sights[at].sight == "bend"]
        nearest = min(bends, key=lambda at: abs(sights[at].at_m - note.at_m), default=None)
        if nearest is None or not (bend := sights[nearest]).assumed:
            continue
        moved = {
            "at_m": note.at_m,
            "at_low_m": low,
            "at_high_m": high,
            "along_m": max(bend.along_m + note.at_m - bend.at_m, 0.0),
        }
        update = {"assumed": False, **(moved if bend.hard is None else {})}
        sights[nearest] = bend.model_copy(update=update)
    undrawn = sum(note.turns_on for note in found if note.lies_on(*way.led, way.loadout.name))
    return way.model_copy(update={"sights": tuple(sights), "turns_undrawn": undrawn})
