"""The stops of a push that were told so far: where, what was seen there, whether the head came past."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from advisor.push.kinds import PASSED, STOPPED, TRY
from advisor.push.now import Now
from advisor.push.sighting import sighting_of, signs_at


@dataclass(frozen=True)
class Stop:
    """A stop by the places, among the entries, at which it was told; `rod` m of it were out."""

    places: tuple[int, ...]
    rod: float
    signs: frozenset[str]
    passed: bool

    def reading(self, now: Now) -> float:
        """What the counter shows there as it counts now, m."""
        return self.rod + now.belief.slack - now.belief.shift


def stops_told(now: Now) -> Iterator[Stop]:
    """Every place of a stop of this push, the same place once, with all that was told there."""
    cell, rods = now.push.tracker.chart.cell, _rods(now)
    found: dict[int, Stop] = {}
    for place, entry in enumerate(now.entries):
        if entry.kind != STOPPED:
            continue
        told = found.pop(
            next((i for i, stop in found.items() if abs(stop.rod - rods[place]) < cell), -1), None
        )
        places = (*(told.places if told else ()), place)
        signs = signs_at(now.entries, place) | (told.signs if told else frozenset())
        found[place] = Stop(places, rods[place], signs, _passed(now, place, rods))
    yield from found.values()


def _rods(now: Now) -> tuple[float, ...]:
    """How much rod the head was out by after each entry, m."""
    found, told = [], 0
    for entry in now.entries:
        told += sighting_of(entry) is not None
        found.append(now.after(told).rod)
    return tuple(found)


def _passed(now: Now, place: int, rods: tuple[float, ...]) -> bool:
    """Whether a try passed there before the head was stopped again, or the head was further in since."""
    further = max(rods[place:]) - rods[place] >= now.push.tracker.chart.cell
    after = (entry for entry in now.entries[place + 1 :] if entry.kind in (STOPPED, TRY))
    for entry in after:
        if entry.kind == STOPPED:
            break
        if entry.data.get("outcome") == PASSED:
            return True
    return further
