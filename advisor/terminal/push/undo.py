"""What was told is taken back: the last, and with it what the program offered upon it; that it is out; or
what bars the way, in whichever push it was told."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime

from advisor.push.barring import barring
from advisor.push.log.kinds import ANEW, HAD_OUT, OFFERED
from advisor.push.log.log import Entry, Log
from advisor.push.now.led_anew import end_before
from advisor.push.now.now import Now
from advisor.terminal.choose import BACK, Choice, choose, yes_no
from advisor.terminal.page import Page
from advisor.terminal.push.asks import KEYS
from advisor.terminal.push.short import short

Clock = Callable[[], datetime]
_KEYS = KEYS.replace("l", "")  # that is the last
_LAST = Choice("l", "the last that was told here")


def take_back(now: Now, log: Log, page: Page, clock: Clock) -> Entry | None:
    """The entry that is taken back; None where that would be the whole push, which is asked about: one that
    was led in anew is then that before it again.

    What was asked anew stays: nobody who takes a slip back means that. That head and rod are out, and what no
    head goes past, can be taken back alone, whatever was told since.
    """
    entries = [entry for entry in now.entries if entry.kind != ANEW]
    alone = _alone(now, log.standing(), max((entry.number for entry in entries), default=0))
    told = [Choice(key, words) for key, (_, words) in alone.items()]
    key = choose(page, "What is taken back?", (_LAST, *told), (BACK,)) if alone else _LAST.key
    if key == BACK.key:
        return None
    if key in alone:
        entry, words = alone[key]
        sure = now.push.study.tables.in_pipe.found_before.sure
        seen = yes_no("yes, it was seen", "no, or nobody knows")
        if entry.kind != HAD_OUT and choose(page, sure, seen) != "y":
            page.line("Nothing is taken back.")
            return None
        log.undo(entry.number, clock())
        page.line(f"Taken back: {words}")
        return entry
    if not entries:
        end = end_before(now.push.began, log.standing())
        asked = "Take the whole push back?" if end is None else "Take back that it was led in anew?"
        if choose(page, asked, yes_no()) == "y":
            for entry in filter(None, (now.push.began, end)):
                log.undo(entry.number, clock())
        return None
    for entry in sorted(entries, key=lambda entry: -entry.number):
        log.undo(entry.number, clock())
        if entry.kind != OFFERED:
            break
    page.line(f"Taken back: {short(entry, now)}")
    return entry


def _alone(now: Now, standing: Sequence[Entry], last: int) -> dict[str, tuple[Entry, str]]:
    """What can be taken back whatever was told since, in words, by its key; the `last` is that already."""
    out = [(e, f"head and rod are out, in from {e.data['opening']}") for e in standing if e.kind == HAD_OUT]
    bars = [each for each in barring(now.push.study, standing) if each[0].number != last]
    return dict(zip(_KEYS, (*out, *bars), strict=False))
