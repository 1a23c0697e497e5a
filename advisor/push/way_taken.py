"""Which way a push went from its opening, known by what it passed where nobody told it."""

from __future__ import annotations

import numpy as np

from advisor.push.counted import at_farthest
from advisor.push.fix import named
from advisor.push.leg import Leg
from advisor.push.now import Now
from advisor.push.seen import Run
from advisor.push.sighting import Seen, Water
from advisor.result.study import Study
from advisor.tables.where import number


def way_taken(run: Run, study: Study) -> tuple[Leg, ...]:
    """The pieces from the opening on, where the place of the head is so sure that no check is proposed.

    Nothing where it is less sure, or where nothing was passed that tells: that the sheet draws but one way
    does not show that the head is on it.
    """
    now = at_farthest(run, study)
    if now is None or now.off_map or not _told(now):
        return ()
    chart, best = now.push.tracker.chart, now.fix.best
    if best.chance < number(chart.where.sure.check_below):
        return ()
    here = chart.run == chart.runs.index((best.line, best.with_flow))
    by_way = np.where(here, now.belief.mass.sum(axis=0), 0.0).sum(axis=1)
    return chart.ways[int(np.argmax(by_way))].legs


def _told(now: Now) -> bool:
    """Whether a landmark was passed that is called by its name, or water came that tells the way."""
    tracker, least = now.push.tracker, number(now.push.tracker.chart.where.sure.name_landmark)
    for upto in range(1, len(now.entries) + 1):
        then = Now(now.push, now.entries[:upto])
        sighting = then.sightings[-1] if then.sightings else None
        if isinstance(sighting, Water) and sighting.seconds is not None:
            return True
        if isinstance(sighting, Seen):
            found = named(tracker, then.belief, sighting)
            if found and found[0].chance >= least:
                return True
    return False
