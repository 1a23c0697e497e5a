"""Where a machine that was run from here came no further, on the screen."""

from __future__ import annotations

from advisor.push.before.machine_ahead import machine_end
from advisor.push.now.now import Now
from advisor.terminal.page import Page
from advisor.terminal.push.words import Words


def show_machine_end(now: Now, page: Page, words: Words) -> None:
    """Where a machine that was run from here came no further: in a line while far, in a box near it."""
    end = machine_end(now)
    if end is None:
        return
    row = now.push.study.tables.where.machine_end
    low, high = words.length(end.low), words.length(end.high)
    told = {
        "at": low if low == high else f"{low} to {high}",
        "when": f" ({end.when})" if end.when else "",
        "slow": words.length(end.slow_from),
    }
    if words.far(end.slow_from):
        page.line(row.far.format(**told))
    else:
        page.boxed("machine ended here", [row.near.format(**told)])
