"""What pushes before this one met that may hold water back, wherever they went in: no water above it yet.

A sheet that says the line drains was made before that, or by somebody who did not know of it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial

from advisor.push.before.left_stops import toward_words
from advisor.push.log.found import find_in_few, may_hold_water
from advisor.push.log.kinds import FIND, STOPPED
from advisor.push.log.log import Entry, entry_text
from advisor.push.log.pools import is_pool, open_pools
from advisor.push.log.sighting import signs_at
from advisor.push.log.sign_words import sign_words
from advisor.push.now.drains import holds_water, not_to_run
from advisor.push.now.held_back import HeldBack
from advisor.push.now.now import Now
from advisor.push.now.then import at_reading
from advisor.push.track.track import Belief
from advisor.quantity import show_counter


def held_back(pushes: Iterable[Now], standing: Sequence[Entry]) -> tuple[HeldBack, ...]:
    """Each of these pushes, all of them in `standing`, that water of some fixture must pass; the last last.

    That a head went past one, or water ran away then, says nothing of what hangs on it today.
    """
    place = {entry.number: index for index, entry in enumerate(standing)}
    found = []
    for push in pushes:
        for index in _holding(push):
            above = not_to_run(push.push.tracker, (), (index,), partial(_belief_at, push))
            if above:
                at = place[push.entries[index].number]
                found.append(HeldBack(_words(push, index), above, tuple(standing), at))
    return tuple(sorted(found, key=lambda each: each.place))


def _holding(push: Now) -> Iterator[int]:
    """The entries that tell of it, by their place: finds, standing water whose end nobody saw, and stops by
    what holds water, be they passed."""
    tables, water = push.push.study.tables, open_pools(push.entries)
    for index, entry in enumerate(push.entries):
        find = entry.kind == FIND and may_hold_water(entry, tables.finds)
        stop = entry.kind == STOPPED and holds_water(signs_at(push.entries, index), tables.stuck)
        if find or stop or index in water:
            yield index


def _belief_at(push: Now, index: int) -> Belief:
    """Where the head may have been there: of a find where it was seen, however far on it was told."""
    then, counter = replace(push, entries=push.entries[: index + 1]), push.entries[index].counter
    there = None if counter is None else at_reading(then, counter)
    return (there or then).belief


def _words(push: Now, index: int) -> str:
    entry, study = push.entries[index], push.push.study
    row = study.tables.in_pipe.drained_before
    rod = (entry.counter or 0.0) + push.told[index][1].shift
    told = {
        "opening": push.push.opening.name,
        "way": toward_words(push.push.direction, entry_text(push.push.began, "mouth")),
        "reading": show_counter(rod, study.units),
    }
    if entry.kind != STOPPED:
        what = row.pool if is_pool(entry) else find_in_few(entry)
        return row.seen_earlier.format(**told, what=what)
    signs = sign_words(signs_at(push.entries, index), study.tables.stuck)
    return row.stopped_earlier.format(**told, signs=signs)
