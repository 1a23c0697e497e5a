"""Water beside the opening: what to run next, why nothing, and what came as it cannot come there."""

from __future__ import annotations

from advisor.push.now import Now
from advisor.push.sighting import AHEAD
from advisor.quantity import Dimension, show
from advisor.tables.where import number
from advisor.terminal.page import Page
from advisor.terminal.push.words import Words


def contrary_words(now: Now) -> tuple[str, ...] | None:
    """What does not agree, what settles it, and what not to do until then; None where all agrees.

    Nobody is told to run what may come up indoors.
    """
    against = now.contrary
    if against is None:
        return None
    row, water = now.push.study.tables.where.contrary, against.water
    name = f"{'Dye' if water.dye else 'Water'} of the {water.fixture}"
    if against.passes:
        side, there = ("from ahead", "behind") if water.side == AHEAD else ("from behind", "ahead of")
        says = row.side.format(water=name, side=side, there=there)
    else:
        says = row.path.format(water=name)
    may_run = now.water_allowed and water.fixture not in now.not_to_run
    return says, *((row.again,) if may_run else ()), row.look, row.until


def show_check(now: Now, page: Page, words: Words, sure: bool) -> None:
    """The fixture that tells most, or why none is to be run; `sure` is whether one line is told alone."""
    check, where = now.check, now.push.tracker.chart.where
    if now.contrary is not None:
        return  # what to run, or that nothing may be, is told where the water is
    if check is None:
        if not sure and now.water_allowed is False:
            page.line("No water test: no water may be run in this line now.")
        elif not sure and now.not_to_run:
            page.line(f"No water test until the line is seen to drain: {why_doubtful(now, words)}.")
        return
    wait = number(where.water.dye_wait if check.dye else where.water.wait)
    run = f"un the {check.fixture}{' with dye' if check.dye else ''}"
    first = "R" if now.water_allowed else "Only if the line is seen to drain and no cleaner was poured in: r"
    until = show(wait, Dimension.TIME, words.units)
    page.line(f"{first}{run}: it tells most. Count the seconds, up to {until}.")


def why_doubtful(now: Now, words: Words) -> str:
    """Why water may come up that is run now."""
    if now.backs_up:
        verb = "backs" if len(now.backs_up) == 1 else "back"
        return f"{' and '.join(now.backs_up)} {verb} up"
    if not now.stops:
        return "it has not been seen to"
    return f"it was stopped at {words.length(now.counted(now.rods[now.stops[-1]]))}"
