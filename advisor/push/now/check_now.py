"""The fixture worth running now, where it is not sure enough where the head is."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from advisor.push.log.sighting import Sighting
from advisor.push.now.across import open_which
from advisor.push.now.known_drains import Line
from advisor.push.now.one_push import Push
from advisor.push.track.checks import Check, checks, run_here, worth_making
from advisor.push.track.fix import Fix, warned
from advisor.push.track.track import Belief
from advisor.tables.where import number


def check_now(
    push: Push,
    belief: Belief,
    fix: Fix,
    sightings: Sequence[Sighting],
    not_to_run: Collection[str],
    line: Line,
) -> Check | None:
    """The check worth making; None where it is sure enough. The smallest flow first where water may come up,
    and of no fixture that was told to, or to run slow, till the `line` is surely cleared."""
    sure = push.tracker.chart.where.sure
    unsure = fix.best.chance < number(sure.check_below) or warned(push.tracker, fix)
    if not (unsure or open_which(push.tracker, belief)):
        return None
    without = {*run_here(sightings), *not_to_run, *push.laundry, *line.not_yet, push.opening.name}
    found = checks(push.tracker, belief, frozenset(without))
    return worth_making(found, number(sure.must_pass), push.faced, push.smallest if line.ordered else None)
