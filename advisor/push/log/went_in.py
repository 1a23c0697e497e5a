"""How far in from its opening each entry was: the counter less what it showed there, resets followed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import hypot

from advisor.push.log.kinds import RESET, START
from advisor.push.log.log import Entry, entry_number
from advisor.push.log.sighting import lens_at
from advisor.quantity import Units, show_counter
from advisor.tables.where import WhereFile, number

SAME_READING = (
    0.005  # m; layout: half of the last digit that a counter is told with, so both would read alike
)


@dataclass(frozen=True)
class Reading:
    """What the counter showed at an entry, at the opening, and how far in that is, all in m.

    `anew` is true where the counter was set on the way, so that the first two do not give the third.
    """

    shown: float
    at_opening: float
    inside: float
    anew: bool

    @property
    def as_shown(self) -> bool:
        """Whether the counter alone tells how far in it is."""
        return abs(self.shown - self.inside) < SAME_READING

    def words(self, units: Units, why: bool = True) -> str:
        """How far in, and where that is not what the counter showed, what it showed and, if wanted, why."""
        if self.as_shown:
            return show_counter(self.inside, units)
        inside = (
            f"{show_counter(self.inside, units)} in" if self.inside > -SAME_READING else "out of the opening"
        )
        at_first = f"{show_counter(self.at_opening, units)} at the opening"
        reason = f", {'set anew on the way' if self.anew else at_first}" if why else ""
        return f"{inside} (counter {show_counter(self.shown, units)}{reason})"


def read_off(inside: float, where: WhereFile) -> float:
    """How far what was read `inside` m from an opening may be off in another push from there, m."""
    counter = number(where.travel.counter_off) * inside
    return hypot(number(where.seen["trap"].spread), counter)


def lens_in(standing: Iterable[Entry]) -> dict[int, float]:
    """How far in the lens was at each entry that tells it, m, by its number."""
    standing = tuple(standing)
    readings = readings_of(standing)
    return {
        entry.number: readings[entry.number].inside - (entry.counter - at)
        for entry in standing
        if entry.number in readings and entry.counter is not None and (at := lens_at(entry)) is not None
    }


def readings_of(standing: Iterable[Entry]) -> dict[int, Reading]:
    """The reading of each entry that has a counter, by its number; what belongs to no push has none."""
    found: dict[int, Reading] = {}
    began: float | None = None
    inside = off = 0.0  # m in at the last reading, and what the counter shows beyond that
    anew = False
    for entry in standing:
        if entry.kind == START:
            began = off = entry.counter or 0.0
            inside, anew = 0.0, False
        if began is None:
            continue
        if entry.counter is not None:
            inside = entry.counter - off
            found[entry.number] = Reading(entry.counter, began, inside, anew)
        if entry.kind == RESET:
            off, anew = (entry_number(entry, "now") or 0.0) - inside, True
    return found
