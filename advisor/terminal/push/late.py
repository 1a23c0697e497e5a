"""A late entry: before which of those told it was, and between which readings it must lie."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from advisor.push.log.kinds import RESET
from advisor.push.log.log import Entry, entry_number
from advisor.terminal.choose import BACK, MORE, Choice, choose
from advisor.terminal.page import Page

_LAST = 5  # entries shown at once, the last of them first


def before_which(entries: Sequence[Entry], short: Callable[[Entry], str], page: Page) -> Entry | None:
    """The entry before which it was; None where it is left. `short` says an entry in a few words."""
    until = len(entries)
    while True:
        shown = entries[max(until - _LAST, 0) : until]
        choices = [Choice(str(i), short(entry)) for i, entry in enumerate(shown, start=1)]
        more = (MORE,) if len(entries) > _LAST else ()
        key = choose(page, "Before which of these was it?", choices, (*more, BACK))
        if key == BACK.key:
            return None
        if key != MORE.key:
            return shown[int(key) - 1]
        until = until - _LAST if until > _LAST else len(entries)


def between(began: Entry, entries: Sequence[Entry], late: Entry) -> tuple[float, float]:
    """The readings told just before and just after it, as the counter counted then, m, the less first."""
    place = list(entries).index(late)
    before = [
        entry_number(entry, "now") or 0.0 if entry.kind == RESET else entry.counter
        for entry in (began, *entries[:place])
        if entry.kind == RESET or entry.counter is not None
    ]
    after = [entry.counter for entry in entries[place:] if entry.counter is not None]
    told = [each for each in (*before[-1:], *after[:1]) if each is not None]
    return (min(told), max(told)) if told else (0.0, 0.0)
