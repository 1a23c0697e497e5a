"""Whether the place that the sheet gives the head ran otherwise than the rod: then no one figure tells it."""

from __future__ import annotations

from collections.abc import Iterator

from advisor.push.log.sighting import Read
from advisor.push.now.now import Now
from advisor.push.now.since import Since
from advisor.push.track.fix import Fix, fix_of
from advisor.push.track.track import Belief
from advisor.tables.where import number

_SAME = 1e-6  # m: one reading


def ran_otherwise(now: Now, seen: Since | None = None) -> bool:
    """Whether the middle of where the head may be is behind that of a lesser reading, or was moved by what
    was told just now further than a place told counts as right.

    What is told shifts the weight between places far apart, as at a stop to the next chamber and, once the
    head goes on, back from it: each middle is right by what was known then, and no head ran from the one to
    the other. Readings before something was `seen` on the way count no more: from there it is known anew.
    """
    known_from = now.belief.rod - seen.run if seen is not None and seen.run > 0 else 0.0
    return _behind_one_before(now, known_from) or _moved_by_what_was_told(now)


def _behind_one_before(now: Now, known_from: float) -> bool:
    here, until = now.fix.best, now.belief.rod - _SAME
    lesser = (_fix(now, each).best for each in _backwards(now) if known_from - _SAME <= each.rod < until)
    return any(
        (each.line, each.with_flow) == (here.line, here.with_flow) and each.inside > here.inside + _SAME
        for each in lesser
    )


def _moved_by_what_was_told(now: Now) -> bool:
    before = next((each for each in _backwards(now) if each.rod < now.belief.rod - _SAME), None)
    if before is None:
        return False
    only_read = now.push.tracker.after(before, Read(now.belief.rod + before.slack - before.shift))
    moved = abs(_fix(now, only_read).best.inside - now.fix.best.inside)
    return moved > number(now.push.tracker.chart.where.sure.near)


def _backwards(now: Now) -> Iterator[Belief]:
    """Where it might be after each of the sightings before the last, the last first."""
    return (now.after(count) for count in reversed(range(len(now.sightings))))


def _fix(now: Now, belief: Belief) -> Fix:
    return fix_of(now.push.tracker, belief)
