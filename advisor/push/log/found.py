"""What an entry tells of a find: what it is, and how much of the pipe is open past it."""

from __future__ import annotations

from textwrap import shorten

from advisor.push.log.kinds import FIND, STOPPED
from advisor.push.log.log import Entry, entry_text
from advisor.push.log.sighting import sign_names
from advisor.tables.conditions import ROOTS
from advisor.tables.finds import FindsFile
from advisor.tables.open_past import with_open

LONGEST = 120  # layout: letters of a row; log and report tell the rest


def open_past(entry: Entry) -> str | None:
    """How much of the pipe was told to be open past it; None where that was not asked."""
    return entry_text(entry, "open")


def find_in_few(entry: Entry) -> str:
    """It in the room of a row: how much it leaves open is always told."""
    what = shorten(entry_text(entry, "what") or "", LONGEST, placeholder=" ...")
    return with_open(what, open_past(entry))


def tells_roots(entry: Entry, finds: FindsFile) -> bool:
    """Whether roots were told: as what held a head, or as a find."""
    if entry.kind == STOPPED:
        return ROOTS in sign_names(entry)
    return entry.kind == FIND and finds.tells(ROOTS, entry_text(entry, "what") or "")


def may_hold_water(entry: Entry, finds: FindsFile) -> bool:
    """Whether water that is run above it may come up."""
    return finds.may_hold_water(entry_text(entry, "what") or "", open_past(entry))
