"""A stop that was told in this push and lies before the lens again: at which reading, and what to do there.

Its reading is known from this push, better than any length of the sheet tells where a hard place is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from advisor.push.here import pieces_here
from advisor.push.kinds import MACHINE, PASSED, STOPPED, TRY
from advisor.push.log import entry_number
from advisor.push.now import Now
from advisor.push.sighting import sighting_of, sign_names
from advisor.push.stuck import Stuck, stuck
from advisor.tables.where import number


@dataclass(frozen=True)
class StopAhead:
    """The next place ahead at which the head was held, and what was found of it then.

    `reading` is what the counter will show there, m; `slow_from` so far before it that one goes slowly.
    `passed` is whether the head came past it afterwards, `cleared` whether a machine did; `not_past`, that
    more push does harm there or wins nothing, more likely than not.
    """

    reading: float
    slow_from: float
    signs: frozenset[str]
    found: Stuck
    passed: bool
    cleared: bool
    not_past: bool


@dataclass(frozen=True)
class _Stop:
    """A stop by the places, among the entries, at which it was told; `rod` m of it were out."""

    places: tuple[int, ...]
    rod: float
    signs: frozenset[str]
    passed: bool


def stop_ahead(now: Now) -> StopAhead | None:
    """The nearest stop to which the head comes if it is pushed on; None where it is held now."""
    if now.held_at[1]:
        return None
    cell = now.push.tracker.chart.cell
    # At a stop that was never passed the head is still before it, at one that was passed behind it.
    ahead = [
        stop
        for stop in _stops(now)
        if stop.rod - now.belief.rod >= cell or (not stop.passed and stop.rod - now.belief.rod > -cell)
    ]
    for nearest in sorted(ahead, key=lambda stop: stop.rod):
        then = Now(now.push, now.entries[: nearest.places[-1] + 1])
        if _leads_there(now, then):
            return _told(now, then, nearest)
    return None


def _told(now: Now, then: Now, nearest: _Stop) -> StopAhead:
    """A stop with what is known of it; `then` is the push as it stood when it was told."""
    met, _ = then.held_at
    study = now.push.study
    where, course = pieces_here(then), now.push.course
    found = stuck(course, met, nearest.signs, now.tries, nearest.rod, where, now.drains)
    # A machine's cable counts from the opening, as the rod does.
    since = (entry for entry in now.entries[nearest.places[-1] :] if entry.kind == MACHINE)
    cleared = any((entry_number(entry, "to") or 0.0) >= nearest.rod for entry in since)
    reading = nearest.rod + now.belief.slack - now.belief.shift
    return StopAhead(
        reading,
        reading - number(study.tables.where.sure.warn_before),
        nearest.signs,
        found,
        nearest.passed,
        cleared,
        not (nearest.passed or cleared) and _not_past(found, now),
    )


def _leads_there(now: Now, then: Now) -> bool:
    """Whether the head may still be on a way that leads to where it was then: it may have turned off."""
    least = number(now.push.tracker.chart.where.sure.tell_next)
    before, here = (each.belief.mass.sum(axis=(0, 2)) for each in (then, now))
    likely = before >= least * float(before.max())
    return float(here[likely].sum()) >= least * float(here.sum())


def _stops(now: Now) -> Iterator[_Stop]:
    """Every place of a stop of this push, the same place once, with all that was told there."""
    cell, rods = now.push.tracker.chart.cell, _rods(now)
    found: dict[int, _Stop] = {}
    for place, entry in enumerate(now.entries):
        if entry.kind != STOPPED:
            continue
        told = found.pop(
            next((i for i, stop in found.items() if abs(stop.rod - rods[place]) < cell), -1), None
        )
        places = (*(told.places if told else ()), place)
        signs = sign_names(entry) | (told.signs if told else frozenset())
        found[place] = _Stop(places, rods[place], signs, _passed(now, place, rods))
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


def _not_past(found: Stuck, now: Now) -> bool:
    """Whether more push does harm or wins nothing there, by what most likely held the head."""
    table = now.push.study.tables.stuck
    bad = (*table.nothing_won, *table.met_again.not_past)
    harms = sum(cause.chance for cause in found.causes if cause.name in bad)
    return found.both_ways or found.stop is not None or harms >= number(table.tell.likely)
