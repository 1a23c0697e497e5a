"""What was told to back up, and whether this push has shown otherwise."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.push.log.kinds import LOOKED, WATER
from advisor.push.log.log import Entry, entry_text
from advisor.push.now.drains import last_seen

# As it stands in the logs, by which it is known again.
CLEARED_NOW = "it backed up, is cleared now, and water that was run just now ran away"


def backs_up_still(
    backs_up: tuple[str, ...], entries: Sequence[Entry], drains: bool | None
) -> tuple[str, ...]:
    """What of that backs up for all that is known now; `drains` is what the entries show of the line.

    It comes up as water is run. A look with nobody running any, as a push begins, tells of a pipe that lets
    a trickle by as of an open one. Only water that ran away shows otherwise, or that it was cleared.
    """
    last = last_seen(entries) if drains else None
    return () if last is not None and water_was_run(entries[last[0]]) else backs_up


def water_was_run(seen: Entry) -> bool:
    """Whether what was told of the line is by water that was run, and no look at it as it stood."""
    return seen.kind in (LOOKED, WATER) or CLEARED_NOW in (entry_text(seen, "told") or "")


def ran_away(entry: Entry) -> bool:
    """Whether water was run, and ran away."""
    return entry.data.get("drains") is True and water_was_run(entry)
