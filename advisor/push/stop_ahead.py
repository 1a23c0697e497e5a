"""A stop that was told and lies before the lens again: at which reading, and what to do there.

Its reading is known from that push, better than any length of the sheet tells where a hard place is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from advisor.push.before.found_ahead import Found, found_on_way
from advisor.push.before.stops import Stop, by_words, stops_told
from advisor.push.held.stuck import Stuck
from advisor.push.held_now import found_of
from advisor.push.log.cleared import may_be_cut
from advisor.push.now.evidence import Tried
from advisor.push.now.leads import leads_there
from advisor.push.now.now import Now
from advisor.tables.where import number


@dataclass(frozen=True)
class StopAhead:
    """The next place ahead at which the head was held, and what was found of it then.

    `reading` is what the counter will show there, m; `slow_from` so far before it that one goes slowly.
    `passed` is whether the head came past it afterwards, `by` what in words, `cleared` whether a machine did,
    `cut` that it may have taken away what held it; `not_past`, that more push does harm there or wins
    nothing, more likely than not, or that it was felt to come neither way there. `earlier` tells that it was
    in an earlier push of the job, `same_gear` that it was with the gear of this one.
    """

    reading: float
    slow_from: float
    signs: frozenset[str]
    found: Stuck
    passed: bool
    by: str
    cleared: bool
    cut: bool
    not_past: bool
    earlier: bool
    same_gear: bool


def stop_ahead(now: Now, unpassed: bool = False) -> StopAhead | None:
    """The nearest stop, or the nearest `unpassed` one, to which the head comes if it is pushed on.

    None where it is held now.
    """
    for stop in _ahead(now):
        if not (unpassed and (stop.cleared or (stop.passed and not stop.fast))):
            return told_of(now, stop)
    return None


def bar_ahead(now: Now) -> StopAhead | None:
    """The nearest stop ahead that is not to be passed: nothing behind it is next."""
    return next((each for stop in _ahead(now) if (each := told_of(now, stop)).not_past), None)


def _ahead(now: Now) -> Iterator[Stop]:
    """The stops to which the head comes if it is pushed on, the nearest first."""
    if now.held_at[1]:
        return
    cell = now.push.tracker.chart.cell
    # At a stop that was never passed the head is still before it, at one that was passed behind it.
    ahead = [
        stop
        for stop in stops_told(now)
        if not stop.back
        and (stop.rod - now.belief.rod >= cell or (not stop.passed and stop.rod - now.belief.rod > -cell))
    ]
    for nearest in sorted(ahead, key=lambda stop: stop.rod):
        if leads_there(now, nearest.then.belief):
            yield nearest


def stop_here(now: Now) -> StopAhead | None:
    """The stop at which the head is held now on its way in, with what is known of it; else None."""
    if not now.held_at[1] or now.on_way_out:
        return None
    cell = now.push.tracker.chart.cell
    here = (each for each in stops_told(now) if not each.earlier and not each.back)
    held = next((each for each in here if abs(each.rod - now.belief.rod) < cell), None)
    return None if held is None else told_of(now, held)


def told_of(now: Now, nearest: Stop, tries: tuple[Tried, ...] | None = None) -> StopAhead:
    """A stop with what is known of it, with other `tries` than were made there where they are given."""
    met, _ = nearest.then.held_at
    if tries is None:
        tries = nearest.tries if nearest.earlier else now.tries
    found = found_of(now, nearest.then, met, nearest.signs, nearest.rod, tries)
    reading = nearest.reading(now)
    return StopAhead(
        reading,
        reading - number(now.push.study.tables.where.sure.warn_before),
        nearest.signs,
        found,
        nearest.passed,
        by_words(nearest, now.push.study),
        nearest.cleared,
        nearest.cleared and may_be_cut(nearest.signs, now.push.study.tables.stuck),
        nearest.fast or (not (nearest.passed or nearest.cleared) and _not_past(found, now)),
        nearest.earlier,
        nearest.same_gear,
    )


def at_stop(now: Now, bar: StopAhead) -> tuple[Found, ...]:
    """What was seen where the head was stopped and may be passed by itself: the stop is told with it, for two
    at one reading say opposite things."""
    cell = now.push.tracker.chart.cell
    seen = (each for each in found_on_way(now) if not each.heed.not_past)
    return tuple(each for each in seen if abs(each.reading - bar.reading) < cell)


def _not_past(found: Stuck, now: Now) -> bool:
    """Whether more push does harm or wins nothing there, by what most likely held the head."""
    table = now.push.study.tables.stuck
    bad = (*table.nothing_won, *table.met_again.not_past)
    harms = sum(cause.chance for cause in found.causes if cause.name in bad)
    return found.stop is not None or harms >= number(table.tell.likely)
