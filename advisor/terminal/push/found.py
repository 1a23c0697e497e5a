"""What was told on this way before, on the screen: far off in a line, near it in a box, past it as well."""

from __future__ import annotations

from advisor.push.before.elsewhere import elsewhere
from advisor.push.before.found_ahead import Found, found_ahead
from advisor.push.before.limit import Limit
from advisor.push.log.sighting import TRAP
from advisor.push.now.now import Now
from advisor.push.stop_ahead import StopAhead, at_stop, bar_ahead
from advisor.terminal.page import Page
from advisor.terminal.push.hard import no_push
from advisor.terminal.push.words import Words


def show_found(limit: Limit, now: Now, page: Page, words: Words) -> None:
    """Each that is told; where only the way back is next, nothing of what lies ahead."""
    back = limit.only_back or no_push(now) is not None
    bar = None if now.contrary else bar_ahead(now)  # no stop is told where it is not sure where the head is
    for each in found_ahead(now):
        if _covered(each, limit) or (back and not each.behind) or (bar and _at_or_behind(each, bar, now)):
            continue
        tables, reading = now.push.study.tables, words.length(each.reading)
        row, do = tables.in_pipe.found_before, each.heed.with_way_back(each.heed.do, tables)
        title = "not past here" if each.heed.not_past else "seen before"
        if each.behind:  # told as a place that is not to be passed, it would say that the lens is before it
            page.boxed("only back", [row.behind.format(reading=reading, what=each.heed.told), do])
        elif words.far(each.slow_from):
            slow = words.length(each.slow_from)
            told = {"reading": reading, "what": each.heed.told, "slow": slow, "do": do}
            page.line(row.ahead.format(**told))
        else:
            page.boxed(title, [row.near.format(reading=reading, what=each.heed.told), do])
    if not back:
        _show_elsewhere(now, page, words)


def _at_or_behind(found: Found, bar: StopAhead, now: Now) -> bool:
    """Whether it is told with a stop that is not to be passed, or nobody comes to it: never what has
    a heed of its own."""
    if found.rod in {each.rod for each in at_stop(now, bar)}:
        return True
    plain = found.heed.do == now.push.study.tables.in_pipe.found_before.do
    return plain and found.reading > bar.reading


def _show_elsewhere(now: Now, page: Page, words: Words) -> None:
    """What another way in told of this pipe."""
    row, near = now.push.study.tables.in_pipe.from_elsewhere, dict[str, list[str]]()
    for each in elsewhere(now):
        span = {"low": words.length(each.low), "high": words.length(each.high)}
        if words.far(each.slow_from):
            slow = words.length(each.slow_from)
            page.line(row.ahead.format(**span, what=each.what, slow=slow, do=each.do))
        else:
            title = "stop ahead" if each.stop else "perhaps ahead"
            near.setdefault(title, []).append(row.near.format(**span, what=each.what, do=each.do))
    for title, told in near.items():
        page.boxed(title, told)


def _covered(found: Found, limit: Limit) -> bool:
    """Whether it is a trap of which what must not be passed tells already."""
    if found.heed.kind != TRAP:
        return False
    return limit.seen or (limit.stop is not None and limit.stop.low <= found.reading)
