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
    # An opening at the top of its line leads one way only.
    leads = {way.legs[0].leaves for way in now.push.tracker.chart.ways}
    opening = row.opening if len(leads) > 1 else ""
    if against.passes:
        side, there = ("from ahead", "behind") if water.side == AHEAD else ("from behind", "ahead of")
        says = row.side.format(water=name, side=side, there=there, opening=opening)
    else:
        says = row.path.format(water=name, opening=opening)
    may_run = now.water_allowed and water.fixture not in now.not_to_run
    again = (_with_splash(row.again, water.fixture, now),) if may_run else ()
    return says, *again, row.look if opening else row.back, row.until


def _with_splash(run: str, fixture: str, now: Now) -> str:
    """What says to run a fixture, and that its water may come straight across out of the opening in use."""
    if fixture not in now.push.faced:
        return run
    splash = now.push.study.tables.where.across.splash.format(opening=now.push.opening.name)
    return f"{run} {splash}"


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
    says = f"{first}{run}: it tells most. Count the seconds, up to {until}."
    page.line(_with_splash(says, check.fixture, now))


def why_doubtful(now: Now, words: Words) -> str:
    """Why water may come up that is run now."""
    if now.backs_up:
        verb = "backs" if len(now.backs_up) == 1 else "back"
        return f"{' and '.join(now.backs_up)} {verb} up"
    if not now.stops:
        return "it has not been seen to"
    return f"it was stopped at {words.length(now.counted(now.rods[now.stops[-1]]))}"
