"""Whether the line has been seen to drain in a push, and which fixtures nobody should be told to run.

Water that is run above a stoppage comes up at the lowest fixture. So nothing is proposed that was told to
back up, that runs into the way of what does, or whose water must pass a place where the head stopped, or
where a plug, a wad or the like was seen, until the line has since been seen to drain.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence

from advisor.outcome.facts import Circumstances
from advisor.push.log.found import may_hold_water
from advisor.push.log.kinds import ANEW, FIND, LOOKED, PASSED, START, STOPPED, TRY, WATER
from advisor.push.log.log import Entry
from advisor.push.log.pools import ends_of_pools, is_pool
from advisor.push.log.sighting import sign_names
from advisor.push.track.checks import passes
from advisor.push.track.track import Belief, Tracker
from advisor.result.study import Study
from advisor.site.network import Network
from advisor.site.used import laundries
from advisor.tables.load import Tables
from advisor.tables.stuck import StuckFile
from advisor.tables.where import number

_SEES = (START, ANEW, LOOKED, WATER)  # what tells whether it was seen to


def seen_to_drain(entries: Sequence[Entry], tables: Tables, astray: Collection[int] = ()) -> bool | None:
    """What was told last: it runs away, it stands; None where nothing was, or it has been stopped since and
    has not passed what stopped it.

    `astray` are the tries, by their entries, that passed nothing though they were told so.
    """
    last = last_seen(entries)
    if last is None:
        return None
    place, runs = last
    return None if runs and stops_of(entries[place + 1 :], tables, astray) else runs


def last_seen(entries: Sequence[Entry]) -> tuple[int, bool] | None:
    """Where among the entries it was told last, and whether it ran away; None where it never was."""
    told = (
        (place, entry.data["drains"] is True)
        for place, entry in reversed([*enumerate(entries)])
        if entry.kind in _SEES and isinstance(entry.data.get("drains"), bool)
    )
    return next(told, None)


def drained_before(entries: Sequence[Entry], drains: bool | None) -> bool:
    """Whether it was seen to run away, and that counts no more: it has been stopped since.

    `drains` is what is known of it now.
    """
    seen = any(e.kind in _SEES and e.data.get("drains") is True for e in entries)
    return seen and drains is None


def water_allowed(given: Circumstances, drains: bool | None) -> bool | None:
    """Whether water may be run, as `Circumstances` has it, once this push has shown how it `drains`."""
    if drains is False:
        return False
    unsaid = given.holding is None or given.drains_at_door
    if unsaid and given.chemicals is False:
        return True if drains else None  # what was seen at the door counts until it is stopped
    return given.water_allowed


def stops_of(entries: Sequence[Entry], tables: Tables, astray: Collection[int] = ()) -> tuple[int, ...]:
    """Which entries tell what may hold water back, stops and finds, by their place among the entries.

    One that was passed since is none, however often it was told, unless what was seen there holds water;
    none is, once the line was seen to drain. Standing water of which the end was seen since is a sag in a
    pipe that runs. `astray` as for that.
    """
    found: list[int] = []
    ends = ends_of_pools(entries)
    for place, entry in enumerate(entries):
        found = [each for each in found if each not in ends.get(place, ())]
        if _may_hold(entry, tables):
            found.append(place)
        elif entry.kind in _SEES and entry.data.get("drains") is True:
            found.clear()
        elif found and entry.number not in astray:
            at = entries[found[-1]].counter
            while found and entries[found[-1]].counter == at and _passed(entries[found[-1]], entry, tables):
                found.pop()
    return tuple(found)


def _may_hold(entry: Entry, tables: Tables) -> bool:
    """Whether it tells of something that may: a stop, standing water, or a find that no head goes past or
    little water."""
    if is_pool(entry):
        return True
    if entry.kind == FIND:
        return may_hold_water(entry, tables.finds)
    return entry.kind == STOPPED and not shows_open(sign_names(entry), tables.stuck)


def _passed(stop: Entry, entry: Entry, tables: Tables) -> bool:
    """Whether an entry shows that a stop was only the head's, which has passed it."""
    passed = entry.kind == TRY and entry.data.get("outcome") == PASSED
    return passed and stop.kind == STOPPED and not holds_water(sign_names(stop), tables.stuck)


def not_to_run(
    tracker: Tracker, backs_up: Collection[str], stops: Sequence[int], belief_at: Callable[[int], Belief]
) -> frozenset[str]:
    """The fixtures not to be run; `belief_at` tells where the head may have been at one of the `stops`."""
    chart = tracker.chart
    least = number(chart.where.sure.above_stop)
    stopped = [belief_at(stop) for stop in stops]
    troubled = _below(chart.network, backs_up)
    return frozenset(
        fixture
        for fixture, piece in chart.fixtures.items()
        if not troubled.isdisjoint((piece, *chart.network.downstream(piece)))
        or any(passes(tracker, belief, fixture) >= least for belief in stopped)
    )


def laundry_that_comes_up(study: Study) -> frozenset[str]:
    """The laundry where it is worse on laundry days: a line that takes a tap may not take that,
    so that it was seen to drain gives no leave for them."""
    if "laundry days" not in study.circumstances.worse_on:
        return frozenset()
    return frozenset(piece.name for piece in laundries(study.network, study.tables))


def holds_water(signs: Collection[str], table: StuckFile) -> bool:
    """Whether something that was seen may hold water back."""
    return any(table.signs[sign].water == "held" for sign in signs if sign in table.signs)


def shows_open(signs: Collection[str], table: StuckFile) -> bool:
    """Whether the pipe was seen to be open for water, though the head went no further."""
    free = any(table.signs[sign].water == "free" for sign in signs if sign in table.signs)
    return free and not holds_water(signs, table)


def _below(network: Network, names: Collection[str]) -> frozenset[str]:
    """Every piece that water of what bears one of these names runs through."""
    return frozenset(
        each
        for piece in network.pieces.values()
        if piece.name in names and piece.kind in ("opening", "cap")
        for each in (piece.id, *network.downstream(piece.id))
    )
