"""Water beside the opening: what to run next, why nothing, and what came as it cannot come there."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.push.log.found import find_in_few
from advisor.push.log.kinds import STOPPED
from advisor.push.log.pools import is_pool
from advisor.push.log.sighting import AHEAD
from advisor.push.now.drains import drained_before
from advisor.push.now.known_drains import Known
from advisor.push.now.now import Now
from advisor.push.now.watched import and_words, watched_words
from advisor.quantity import Dimension, show
from advisor.tables.where import number
from advisor.terminal.choose import BACK, Choice, choose
from advisor.terminal.page import Page
from advisor.terminal.push.look_first import to_be_seen
from advisor.terminal.push.words import Words

_ONLY_IF = "Only if the line is seen to drain and no cleaner was poured in: "


def contrary_words(now: Now) -> tuple[str, ...] | None:
    """What does not agree, what settles it, and what not to do until then; None where all agrees.

    Nobody is told to run what may come up indoors.
    """
    against = now.contrary
    if against is None:
        return None
    row, water = now.push.study.tables.where.contrary, against.water
    name = f"{'Dye' if water.dye else 'Water'} of the {water.fixture}"
    # An opening at the top of its line leads one way only.
    leads = {way.port for way in now.push.tracker.chart.ways}
    opening = row.opening if len(leads) > 1 else ""
    if against.passes:
        side, there = ("from ahead", "behind") if water.side == AHEAD else ("from behind", "ahead of")
        says = row.side.format(water=name, side=side, there=there, opening=opening)
    else:
        says = row.path.format(water=name, opening=opening)
    may_run = now.water_allowed and water.fixture not in now.not_to_run | now.push.laundry | now.line.not_yet
    again = (" ".join((row.again, *_splash(water.fixture, now))),) if may_run else ()
    return says, *again, row.look if opening else row.back, row.until


def warn_before_any(now: Now, page: Page) -> None:
    """What to know before any fixture is run, whoever chooses it."""
    if now.water_allowed is False:
        says = "No water may be run in this line now. Tell only what came by itself."
    elif now.not_to_run:
        why = why_doubtful(now, Words(now))
        says = (
            f"Run nothing until the line is seen to drain: {why}.{_no_more(now)} Water may come up indoors."
        )
    elif now.water_allowed is None:
        says = f"{_ONLY_IF}run water. Else it may come up indoors, or out of the opening.{_no_more(now)}"
    else:
        says = watched_words(now)
    laundry = "" if now.water_allowed is False else _laundry(now)
    row = now.push.study.tables.in_pipe.drained_before
    how = (row.how_first if now.line.none_left else row.how) if to_be_seen(now) else ""
    if told := [each for each in (says, laundry, how) if each]:
        page.boxed("warning", told)


@dataclass(frozen=True)
class Instead:
    """What is told where none of the list may be run: that water `ran`, or what a `look` shows."""

    ran: bool
    look: bool


def ask_instead(now: Now, page: Page) -> Instead | None:
    """It, asked before the list, which alone reads as leave to run one. None where some may be run."""
    if not now.line.none_left:
        return None
    row = now.push.study.tables.in_pipe.drained_before
    look = (Choice("s", row.first_see),) if to_be_seen(now) else ()
    key = choose(page, row.none_to_run, (*look, Choice("t", row.told_all_the_same)), (BACK,))
    return Instead(ran=key == "t", look=key == "s")


def _laundry(now: Now) -> str:
    """That it comes up by the laundry, where it was told to."""
    names = " and ".join(sorted(now.push.laundry))
    return f"Not the {names}, whatever was seen to drain: it comes up on laundry days." if names else ""


def _no_more(now: Now) -> str:
    """That what was seen before the stop does not count, where it was seen."""
    seen = drained_before((now.push.began, *now.entries), now.drains)
    return f" {now.push.study.tables.in_pipe.drained_before.no_more}" if seen else ""


def warn_before(fixture: str, now: Now, page: Page) -> None:
    """The same of the fixture that was chosen: of one that backs up or is slow, not before it is cleared."""
    if fixture in now.line.not_yet:
        row = now.push.study.tables.in_pipe.drained_before
        page.boxed("warning", [row.not_that.format(fixture=fixture)])
    for says in _splash(fixture, now):
        page.boxed("warning", [f"Water of the {fixture}: {says[0].lower()}{says[1:]}"])


def _splash(fixture: str, now: Now) -> tuple[str, ...]:
    """That water of a fixture may come straight across out of the opening in use, where it may."""
    if fixture not in now.push.faced:
        return ()
    return (now.push.study.tables.where.across.splash.format(opening=now.push.opening.name),)


def show_check(now: Now, page: Page, words: Words, sure: bool) -> None:
    """The fixture that tells most, or why none is to be run; `sure` is whether one line is told alone.

    What was seen just now and may hold water is told either way: the next thought is to run some at it.
    """
    check, where = now.check, now.push.tracker.chart.where
    if now.contrary is not None:
        return  # what to run, or that nothing may be, is told where the water is
    if check is None:
        if not sure and now.water_allowed is False:
            page.line("No water test: no water may be run in this line now.")
        elif now.not_to_run and (not sure or _seen_just_now(now)):
            how = now.push.study.tables.in_pipe.drained_before.key
            page.line(f"No water test until the line is seen to drain: {why_doubtful(now, words)}. {how}")
        return
    wait = number(where.water.dye_wait if check.dye else where.water.wait)
    run = f"un the {check.fixture}{' with dye' if check.dye else ''}"
    first = "R" if now.water_allowed else f"{_ONLY_IF}r"
    until = show(wait, Dimension.TIME, words.units)
    says = f"{first}{run}: it tells most. Count the seconds, up to {until}."
    page.line(" ".join((says, *_splash(check.fixture, now))))


def show_watched(now: Now, page: Page) -> None:
    """How water is run where the line was known to back up: all through till it is surely cleared, and then
    wherever some is to be run."""
    to_run = now.check is not None or now.contrary is not None
    if (says := watched_words(now)) and (to_run or now.line.known < Known.CLEARED):
        page.boxed("caution", [says])


def _seen_just_now(now: Now) -> bool:
    """Whether the last that was told is a find that may hold water, or standing water."""
    last = len(now.entries) - 1
    return last in now.stops and now.entries[last].kind != STOPPED


def why_doubtful(now: Now, words: Words) -> str:
    """Why water may come up that is run now."""
    if now.backs_up:
        verb = "backs" if len(now.backs_up) == 1 else "back"
        up = f"{and_words(now.backs_up)} {verb} up"
        return f"{up}. {now.push.study.tables.in_pipe.drained_before.still_look}" if now.drains else up
    if not now.stops:
        return now.held_back[-1].words if now.held_back else "it has not been seen to"
    last = now.stops[-1]
    entry = now.entries[last]
    if entry.kind != STOPPED:
        rod = (entry.counter or 0.0) + now.told[last][1].shift
        row = now.push.study.tables.in_pipe.drained_before
        what = row.pool if is_pool(entry) else find_in_few(entry)
        return f"at {words.length(now.counted(rod))} was seen: {what}"
    return f"it was stopped at {words.length(now.counted(now.rods[last]))}"
