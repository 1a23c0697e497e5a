"""Light from above that was told and is no chamber of the map: the sky in a vent, or a tank's riser."""

from __future__ import annotations

from advisor.push.log.sighting import CHAMBER, Back, Seen
from advisor.push.now.now import Now
from advisor.push.track.fix import called


def light_above(now: Now) -> float | None:
    """How much rod was in at the last one, m; None where the head was drawn back from it since, or a look at
    something settled it."""
    for count in range(len(now.sightings), 0, -1):
        told = now.sightings[count - 1]
        if not isinstance(told, Seen):
            continue
        if called(now.push.tracker, now.after(count), told) is not None:
            return None
        if told.kind == CHAMBER:
            rod = now.after(count).rod
            since = (i for i, each in enumerate(now.sightings, 1) if i > count and isinstance(each, Back))
            return None if any(now.after(i).rod < rod for i in since) else rod
    return None
