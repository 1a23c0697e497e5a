"""Whether what was told in a push may still be on the way of the head: it may have turned off since."""

from __future__ import annotations

from advisor.push.now.now import Now
from advisor.push.track.track import Belief
from advisor.tables.where import number


def leads_there(now: Now, then: Belief) -> bool:
    """Whether the head may still be on a way that leads to where it was by the belief of then."""
    least = number(now.push.tracker.chart.where.sure.tell_next)
    before, here = (each.mass.sum(axis=(0, 2)) for each in (then, now.belief))
    likely = before >= least * float(before.max())
    return float(here[likely].sum()) >= least * float(here.sum())
