"""The last that was told is taken back: with it goes what the program offered upon it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from advisor.push.kinds import ANEW, OFFERED
from advisor.push.log import Entry, Log
from advisor.push.now import Now
from advisor.terminal.choose import choose, yes_no
from advisor.terminal.page import Page
from advisor.terminal.push.short import short

Clock = Callable[[], datetime]


def take_back(now: Now, log: Log, page: Page, clock: Clock) -> Entry | None:
    """The entry that is taken back; None where that would be the whole push, which is asked about.

    What was asked anew stays: nobody who takes a slip back means that.
    """
    entries = [entry for entry in now.entries if entry.kind != ANEW]
    if not entries:
        if choose(page, "Take the whole push back?", yes_no()) == "y":
            log.undo(now.push.began.number, clock())
        return None
    for entry in sorted(entries, key=lambda entry: -entry.number):
        log.undo(entry.number, clock())
        if entry.kind != OFFERED:
            break
    page.line(f"Taken back: {short(entry, now)}")
    return entry
