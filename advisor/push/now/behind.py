"""The hard spots that the head has come past for certain: none of them can be what holds it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator

from advisor.push.log.kinds import PASSED, TRY
from advisor.push.log.log import Entry
from advisor.push.log.sighting import sighting_of
from advisor.push.now.course import Met
from advisor.push.track.track import Belief, Tracker
from advisor.tables.where import number
from advisor.worlds.spread import middle

_FAR = 4.0  # deviations of where a stop is told, beyond which it is not there


def behind(
    spots: Collection[Met],
    entries: Iterable[Entry],
    tracker: Tracker,
    belief: Belief,
    after: Callable[[int], Belief],
) -> frozenset[str]:
    """By name: what a try passed, where more rod is in than then; what belongs to the opening, far behind.

    How far the entry is from the hand the rod itself tells, whatever is known of the pipes beyond. `after`
    gives the belief after so many of the sightings among the `entries`.
    """
    near = _FAR * number(tracker.chart.where.stopped.spread)
    entry_steps = (met for met in spots if met.hard.passage.step is not None)
    left = {met.name for met in entry_steps if belief.rod - middle(met.hard.spot.station.at) > near}
    # Past one joint of a run with roots the next may hold it.
    single = {met.name for met in spots if not met.run}
    passed = {
        name
        for name, told in _passed(entries)
        if name in single and belief.rod - after(told).rod >= tracker.chart.cell
    }
    return frozenset(left | passed)


def _passed(entries: Iterable[Entry]) -> Iterator[tuple[str, int]]:
    """Each spot that a try passed, and how many sightings were told up to then."""
    told = 0
    for entry in entries:
        told += sighting_of(entry) is not None
        if entry.kind == TRY and entry.data.get("outcome") == PASSED and entry.data.get("spot"):
            yield str(entry.data["spot"]), told
