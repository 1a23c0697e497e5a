"""What the head must not go past, on the screen: far off in a line, near it in a box of its own."""

from __future__ import annotations

from advisor.push.ahead import NotPast, next_not_past
from advisor.push.now import Now
from advisor.terminal.page import Page
from advisor.terminal.push.words import Words


def _stop_of(now: Now) -> NotPast | None:
    """The nearest trap, valve or tank ahead, or where the drain ends."""
    return next_not_past(now.push.tracker, now.belief, now.push.study)


def show_not_past(now: Now, page: Page, words: Words) -> None:
    """Which it is and at which readings; what it does to the head and what to do instead."""
    stop = _stop_of(now)
    if stop is None:
        return
    at = f"counter {words.length(stop.low)} to {words.length(stop.high)}"
    name = words.call(stop.holds or stop.piece.name)
    if now.counter < stop.slow_from:
        if stop.holds is not None:
            page.line(f"Not past: {name}, {at}. It holds the head. Slow from {words.length(stop.slow_from)}.")
        return
    texts = [f"Slow. {name[:1].upper()}{name[1:]}, {at}.", "Stop short of it."]
    if stop.holds is not None:
        kind = now.push.study.tables.stoppers[stop.holds]
        instead = kind.told_instead(stop.piece.shut_beside)
        texts += ["It holds the head.", kind.why, *filter(None, (instead,))]
    page.boxed("not past here", texts)


def or_stop(now: Now, high: float, words: Words) -> str:
    """What stands with `it was missed`, where past that reading such a thing may be ahead."""
    stop = _stop_of(now)
    if stop is None or stop.low > high:
        return ""
    return f" Stop: ahead may be {words.call(stop.holds or stop.piece.name)}."
