"""What was told is taken back: the last, and with it what the program offered upon it; or that it is out."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from advisor.push.kinds import ANEW, HAD_OUT, OFFERED
from advisor.push.log import Entry, Log
from advisor.push.now import Now
from advisor.terminal.choose import BACK, Choice, choose, yes_no
from advisor.terminal.page import Page
from advisor.terminal.push.short import short

Clock = Callable[[], datetime]
_LAST = Choice("l", "the last that was told here")


def take_back(now: Now, log: Log, page: Page, clock: Clock) -> Entry | None:
    """The entry that is taken back; None where that would be the whole push, which is asked about.

    What was asked anew stays: nobody who takes a slip back means that. That head and rod are out can be taken
    back alone, whatever was told since.
    """
    out = {str(i): e for i, e in enumerate((e for e in log.standing() if e.kind == HAD_OUT), 1)}
    told_out = [Choice(key, f"head and rod are out, in from {e.data['opening']}") for key, e in out.items()]
    key = choose(page, "What is taken back?", (_LAST, *told_out), (BACK,)) if out else _LAST.key
    if key in out:
        log.undo(out[key].number, clock())
        return out[key]
    entries = [entry for entry in now.entries if entry.kind != ANEW]
    if key == BACK.key:
        return None
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
