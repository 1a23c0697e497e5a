"""Water that is run in a line that was known to back up: watched still, until it is surely cleared.

That it ran away once gives leave for one fixture at a time. What backed it up may stand there still.
"""

from __future__ import annotations

from advisor.outcome.attempts import CLEANED
from advisor.push.log.cleared import cleared_since
from advisor.push.log.found import may_hold_water
from advisor.push.log.kinds import FIND, LOOKED, MACHINE, PASSED, STOPPED, TRY, WATER
from advisor.push.log.log import Entry, entry_text
from advisor.push.log.sighting import sign_names
from advisor.push.now.backs_up import CLEARED_NOW
from advisor.push.now.drains import holds_water
from advisor.push.now.now import Now
from advisor.tables.load import Tables


def still_watched(now: Now) -> str | None:
    """What of the job backs up, or may; None where nothing did, or it was surely cleared in this push."""
    entries, study = (now.push.began, *now.entries), now.push.study
    since = entries[_cleared(entries) :]
    given = study.circumstances.backs_up if len(since) == len(entries) else ()
    if given:
        return " and ".join(filter(None, (", ".join(given[:-1]), given[-1])))
    stood = any(each.data.get("drains") is False for each in since)
    met = any(_may_hold(each, study.tables) for each in since)
    where = study.tables.where
    before = any(not cleared_since((*t.standing, *entries), t.place, where) for t in now.told_back)
    return "the line" if stood or met or (before and len(since) == len(entries)) else None


def _cleared(entries: tuple[Entry, ...]) -> int:
    """From which of the entries on nothing of before counts: it was told as cleared, or a cutter or a
    cleaning came through with all of the rod out, and water that was run then ran away."""
    found, through = 0, False
    for place, entry in enumerate(entries):
        clean = entry.kind == TRY and entry.data.get("technique") == CLEANED
        clean = (clean and entry.data.get("outcome") == PASSED) or entry.kind == MACHINE
        through = through or (clean and entry.data.get("outside") is True)
        ran = entry.kind in (LOOKED, WATER) and entry.data.get("drains") is True
        told = CLEARED_NOW in (entry_text(entry, "told") or "")
        if (through and ran) or told:
            found, through = place + 1, False
    return found


def _may_hold(entry: Entry, tables: Tables) -> bool:
    """Whether it tells of what holds water, seen: a stop that only held the head is none."""
    if entry.kind == FIND:
        return may_hold_water(entry, tables.finds)
    return entry.kind == STOPPED and holds_water(sign_names(entry), tables.stuck)
