"""Finds and marks where all that their push showed has them: the log keeps what was known as they were told.

Report, log, tables and plan place them by this; what else an entry says stays as it was told.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace

from advisor.errors import BadInput
from advisor.push.log.kinds import DOUBT, FIND, MARK
from advisor.push.log.log import Entry, entry_number
from advisor.push.log.redrawn import redrawn
from advisor.push.log.sighting import Seen, sighting_of
from advisor.push.log.went_in import SAME_READING
from advisor.push.now.looked_back import came_past, last_past, looked_back
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.now.seen import pushes_told
from advisor.push.now.since import since_at
from advisor.push.report.doubt import counts_from, doubt_at, place_at
from advisor.push.track.fix import fix_of
from advisor.result.study import Study

_PLACE = ("line", "distance", *DOUBT)


def placed_anew(standing: Sequence[Entry], study: Study) -> tuple[Entry, ...]:
    """The entries that stand, each find and mark with its place by all that its push showed.

    As it was told stays what the operator placed himself, what was told by another sheet, and what nothing
    was told after.
    """
    anew: dict[int, Entry] = {}
    for told in pushes_told(standing):
        if may_move(told) and not redrawn(told[0], study.network):
            with suppress(BadInput):  # the sheet has that opening no more
                now = Now(Push(study, told[0]), tuple(told[1:]))
                anew |= {each.number: each for each in _placed(now)}
    return tuple(anew.get(entry.number, entry) for entry in standing)


def may_move(standing: Sequence[Entry]) -> bool:
    """Whether any may have another place by what was told after it: for that it takes a plan to know."""
    return any(
        _may_be(entry) and any(sighting_of(later) is not None for later in told[place + 1 :])
        for told in pushes_told(standing)
        for place, entry in enumerate(told)
    )


def _may_be(entry: Entry) -> bool:
    """Whether it is a find or mark that the tracker placed."""
    return entry.kind in (FIND, MARK) and entry_number(entry, "sure") is not None


def _placed(now: Now) -> list[Entry]:
    """Those of one push of which something was told since."""
    found, count = [], 0
    for entry, belief in now.told:
        count += sighting_of(entry) is not None
        if not _may_be(entry):
            continue
        at_head = entry.counter is None or abs(entry.counter - belief.counter) < SAME_READING
        rod = belief.rod if at_head else (entry.counter or 0.0) + belief.shift
        came = came_past(now, count, rod)
        if came is not None and last_past(now, came, rod) > count:
            found.append(_by_all(now, entry, (came, rod)))
    return found


def _by_all(now: Now, entry: Entry, told: tuple[int, float]) -> Entry:
    # What was told until the head was drawn back behind it: from then on it may have gone another way.
    now = Now(now.push, now.entries[: _entries_until(now, last_past(now, *told))])
    seen = {
        number: (number, now.after(number).rod)
        for number, each in enumerate(now.sightings, start=1)
        if isinstance(each, Seen)
    }
    known = looked_back(now, (told, *seen.values()))
    was = known[told]
    fix = fix_of(now.push.tracker, was, now.fix.most)  # no surer than the head itself was in the end
    anchor = since_at(now, was, {number: known[each] for number, each in seen.items()}, counts_from(now))
    kept = {name: value for name, value in entry.data.items() if name not in _PLACE}
    return replace(entry, data={**kept, **place_at(now, fix), **doubt_at(now, fix, anchor)})


def _entries_until(now: Now, count: int) -> int:
    """How many entries hold so many sightings."""
    so_far = 0
    for place, entry in enumerate(now.entries, start=1):
        so_far += sighting_of(entry) is not None
        if so_far == count:
            return place
    return 0
