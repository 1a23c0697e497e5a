"""Where the head was when something was told, by all that its push told after that as well.

What comes later places what came before: the end of a pipe is so many metres of counter past a find. It
counts until the head was drawn back behind the place: pushed on anew it may have gone another way.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from advisor.push.now import Now
from advisor.push.track import Belief

Told = tuple[int, float]  # after so many sightings, with so much rod in, m
_SAME = 0.005  # m; layout: half of the last digit that a counter is told with


def looked_back(now: Now, asked: Iterable[Told]) -> Mapping[Told, Belief]:
    """It for each that is asked, the head having been there or further in once so much was told."""
    found: dict[Told, Belief] = {}
    by_last: dict[int, set[Told]] = {}
    for each in asked:
        by_last.setdefault(last_past(now, *each), set()).add(each)
    for last, alike in by_last.items():
        belief = now.after(last)
        for each in sorted(alike, key=lambda one: -one[1]):  # each pass back goes on from the one before
            belief = found[each] = now.push.tracker.was_at(belief, each[1])
    return found


def last_past(now: Now, count: int, rod: float) -> int:
    """How many sightings were told until the head, that had come past `rod` m after `count`, was drawn back
    behind it."""
    last = count
    while last < len(now.sightings) and now.after(last + 1).rod >= rod - _SAME:
        last += 1
    return last


def came_past(now: Now, count: int, rod: float) -> int | None:
    """After how many of the first `count` sightings the head was last at `rod` m or further in."""
    return next((each for each in range(count, -1, -1) if now.after(each).rod >= rod - _SAME), None)
