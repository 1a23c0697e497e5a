"""The end of a push: the rod is still in there. A job is done once it is out and clean, the opening shut."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from advisor.outcome.attempts import STRING
from advisor.push.before.end_reached import Hardly
from advisor.push.before.stops import stops_told
from advisor.push.held.freeing import harmful
from advisor.push.held.way_out import rim_step, way_out
from advisor.push.held_now import held_now, may_be_at, plight_of, roots_met
from advisor.push.log.kinds import STOPPED, TRY
from advisor.push.log.log import entry_text
from advisor.push.log.sighting import NOT_BACK, signs_at
from advisor.push.log.sign_words import sign_words
from advisor.push.now.known_drains import Known, watched_at
from advisor.push.now.now import Now
from advisor.push.now.plight import over_for
from advisor.push.now.watched import afterwards
from advisor.quantity import Dimension, show, show_counter
from advisor.terminal.choose import BACK, Choice, choose, type_in, yes_no
from advisor.terminal.page import Page
from advisor.terminal.push.asks import Asks, Data
from advisor.terminal.push.words import Words

_OUT = (
    Choice("y", "yes, head and rod"),
    Choice("s", "no: it is held on the way"),
    Choice("n", "no, and it stays in the pipe"),
)
_FREE = (
    Choice("y", "yes, it comes back again"),
    Choice("n", "no, or not known: it is still held"),
    Choice("t", "a slip, let me type it again"),
)


def how_it_ends(
    now: Now,
    asks: Asks,
    page: Page,
    held: Callable[[Now], object],
    hardly: Callable[[], Hardly | None],
) -> tuple[float, Data] | None:
    """The counter at the end and what its entry says; None where it does not end now.

    The way home is part of the push: what holds the head there is told by `held`, as any other stop. Where
    head and rod stay in there, whoever digs goes by that counter. `hardly` is what counter and sheet hold
    against the end of what was to be seen.
    """
    says = yes_no("yes, all of it seen")
    # What it went for may be no more than a part of what is to be seen: then that is named.
    went_for, wanted = entry_text(now.push.began, "target"), now.push.study.wanted.words
    target = "the target" if went_for in (None, wanted) else f"the target ({went_for})"
    reached = choose(page, f"Was {target} reached?", says, (BACK,))
    if reached == "y" and (against := hardly()) is not None:
        told, words = now.push.study.tables.in_pipe.hardly_reached, Words(now)
        lines = [told.told.format(chance=words.say(against.chance))]
        if against.short is not None:
            lines.append(told.short.format(length=show(against.short, Dimension.LENGTH, asks.units)))
        page.line(" ".join(lines))
        reached = choose(page, told.ask, says, (BACK,))
    if reached == BACK.key:
        return None
    why = None if reached == "y" else type_in(page, "Why not?", lambda _: None, "not told") or None
    show_coming_home(now, page)
    out = choose(page, "Is all of it out?", _OUT, (BACK,))
    if out == "s":
        held(now)
        return None
    counter: float | None = now.counter
    if out == "n":
        shown = show_counter(now.counter, asks.units)
        counter = asks.counter(f"Counter where it stays? Empty: as before, {shown}", now.counter)
    if out == BACK.key or counter is None:
        return None
    return counter, {"reached": reached == "y", "why": why, "out": out == "y"}


def show_coming_home(now: Now, page: Page) -> None:
    """What it takes to draw the rod back from here, and what comes after that."""
    words, study = Words(now), now.push.study
    # A line that was just stopped in, or that backs up, is first to be seen to drain.
    water = now.water_allowed and (None if now.doubtful else True)
    plight = replace(plight_of(now), roots=roots_met(now, -now.push.tracker.chart.cell))
    held_in = may_be_at(now) if now.held_at[1] else ()
    barred = harmful((), both_ways=False, plight=plight, study=study, spots=held_in)
    way = way_out(now.push.course, None, now.belief.rod, water, barred, kinked=now.kinked)
    units, told = study.units, study.tables.card
    table, in_pipe = study.tables.stuck, study.tables.in_pipe
    pull, most, ask = (show(force, Dimension.FORCE, units) for force in (way.pull, way.limit, way.ask_from))
    held = held_now(now)
    if held is not None and held.no_push:
        steps = [*filter(None, [held.stop]), *held.out.steps]
    else:
        steps = [*over_for(plight, in_pipe), *([in_pipe.kinked.pull] if now.kinked else [])]
        if any(entry.kind == TRY and entry.data.get("technique") == STRING for entry in now.entries):
            steps.append(table.way_out.string[-1].do if STRING in barred else told.after_string)
        even = f"Draw the rod back by hand, evenly. It should take about {pull}; never pull more than {most}."
        steps += [even, *(rim_step(name, at, barred, now.push.course) for name, at in way.rims)]
    by_roots = {
        reading: in_pipe.rod_in_roots.home.format(reading=words.length(reading), ask=ask)
        for reading in plight.roots
    }
    behind = (stop for stop in stops_told(now) if stop.rod < now.belief.rod)
    row = in_pipe.held_on_way_in
    met_again = {
        stop.reading(now): (row.earlier if stop.earlier else row.back if stop.back else row.home).format(
            reading=words.length(stop.reading(now)),
            back=" when drawn back" if stop.back else "",
            signs=f" ({sign_words(stop.signs, table)})" if stop.signs else "",
        )
        for stop in behind
    }
    steps += [told_there for _, told_there in sorted((met_again | by_roots).items(), reverse=True)]
    steps += told.after_push(water, _watched_at_home(now, water))
    steps += [in_pipe.kinked.home] if now.kinked else []
    steps += [in_pipe.machine_run.home] if plight.beside else []
    steps += [table.free_first.home] if _held_both_ways(now) else []
    page.heading("Coming home")
    page.steps(steps)


def _watched_at_home(now: Now, water: bool | None) -> str:
    """How water is run afterwards, as the report has it, where anything was known to back up or to be slow.
    Only once it ran away in this push need it not be seen to first."""
    row, study = now.push.study.tables.in_pipe.drained_before, now.push.study
    places = watched_at(study.circumstances) or now.line.backed
    if not places:
        return ""
    first = row.home_first if water is None or now.line.known < Known.RAN else ""
    return " ".join(filter(None, (first, afterwards(study, places), row.home_last)))


def came_back(before: Now, page: Page) -> None:
    """What to look for where rod came back of a head that was held both ways: the head may not have."""
    if before.held_at[1] and NOT_BACK in before.signs:
        page.line(before.push.study.tables.stuck.free_first.back)


def came_free(before: Now, read: float, asks: Asks) -> bool | None:
    """Whether a head that was told to come neither way, and reads so now, is free; None: a slip."""
    words, page = Words(before), asks.page
    asked = (
        f"At {words.length(before.counter)} it came neither way. At {words.length(read)}, drawn a little: "
        "does it come back?"
    )
    key = choose(page, asked, _FREE)
    if key == "y":
        came_back(before, page)
    return {"y": True, "n": False}.get(key)


def _held_both_ways(now: Now) -> bool:
    """Whether the head was wedged in this push, or told not to come back either."""
    stops = (place for place, entry in enumerate(now.entries) if entry.kind == STOPPED)
    return any(NOT_BACK in signs_at(now.entries, place) for place in stops)
