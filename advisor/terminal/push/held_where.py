"""Where a head is held, in the words that head its screen."""

from __future__ import annotations

from advisor.push.before.stops import stops_told
from advisor.push.held.stuck import Stuck
from advisor.push.now.here import likely_here, may_be_in
from advisor.push.now.now import Now
from advisor.tables.where import number
from advisor.terminal.push.words import Words


def held_words(found: Stuck, now: Now) -> str:
    """Where it is held, by the plan; on the way out by what was told there on the way in."""
    rim = now.push.study.tables.in_pipe.rim_seen
    if found.spot:
        share = max((each for met, each in now.spots_told if met.name == found.spot), default=0.0)
        certain = share >= number(now.push.tracker.chart.where.sure.check_below) and not now.off_map
        return f"Held at the {found.spot}" if certain else f"Held, perhaps at the {found.spot}"
    if now.rooted is not None:
        run = now.rooted.name
        return _cap(rim.held.format(name=run)) if found.by_rim else f"Held where the plan has {run}"
    if now.on_way_out:
        near = number(now.push.tracker.chart.where.sure.near)
        stops = (each for each in stops_told(now) if not each.back and not each.earlier)
        there = next((each for each in stops if abs(each.rod - now.belief.rod) <= near), None)
        at = "" if there is None else f", where it was stopped at {Words(now).length(there.reading(now))}"
        return f"Held on the way back{at}"
    if (maybe := may_be_in(now)) is not None:
        told = rim.held_perhaps if found.by_rim else "held, perhaps where the plan has {name}"
        return _cap(told.format(name=maybe.name))
    where = ", at which place is not sure" if likely_here(now).spots else " where the plan has no hard place"
    return f"Held{where}"


def _cap(words: str) -> str:
    return words[:1].upper() + words[1:]
