"""What a push makes of the plan: what came otherwise, what going on promises, where to go after it."""

from __future__ import annotations

from advisor.outcome.assess import RouteOutcome
from advisor.push.before.elsewhere import elsewhere
from advisor.push.before.found_ahead import found_ahead, to_be_cleaned
from advisor.push.before.limit import limit_of
from advisor.push.disagree import disagree
from advisor.push.held.throat import wanted_throat
from advisor.push.held_now import held_now
from advisor.push.now.now import Now
from advisor.push.onward import Onward
from advisor.push.stop_ahead import StopAhead, stop_ahead, stop_here
from advisor.result.out import out_words
from advisor.result.stopped_before import counted_in
from advisor.result.study import Study
from advisor.result.told import few
from advisor.tables.where import number
from advisor.terminal.page import Page
from advisor.terminal.push.hard import go_on, no_push, uncut_roots
from advisor.terminal.push.throat import show_throat
from advisor.terminal.push.water import contrary_words
from advisor.terminal.push.words import Words

Attempts = tuple[tuple[RouteOutcome, float], ...]


def show_plan_anew(now: Now, made: Study, ahead: Onward | None, page: Page) -> None:
    """What came otherwise, what going on from here promises, and the order of attempts after it."""
    words = Words(now)
    order = tuple(zip(made.settled.attempts, made.settled.order.step_chances, strict=True))
    page.heading("Not as planned" if (parted := disagree(now)) else "As planned so far")
    for line in parted:
        page.line(line)
    for other in (each for each in elsewhere(now) if not each.counted_in(made, now.push)):
        page.line(now.push.study.tables.in_pipe.from_elsewhere.untold.format(what=other.what))
    if (held := no_push(now)) is not None:
        page.strong(held)
        _only_out(made, order, now, page, words)
    elif (against := contrary_words(now)) is not None:
        page.steps(list(against[1:]))
    else:
        cleaned = _cleaned_first(now, page, words)
        if not _ends_before(order, ahead, now, page, words):
            _going_on(order, ahead, cleaned, now, page, words)


def _cleaned_first(now: Now, page: Page, words: Words) -> bool:
    """What is cleaned out before a camera goes on, told by this push or another; whether there is any."""
    here = [
        (each.heed.first, f"{each.heed.what}, at {words.length(each.reading)}") for each in to_be_cleaned(now)
    ]
    there = ((each.first, each.what) for each in elsewhere(now) if each.first)
    first = now.push.study.tables.in_pipe.found_before.first_words((*here, *there))
    if first:
        page.strong(f"First {first}.")
        return True
    told, where = (now.push.began, *now.entries), now.push.study.tables.where
    cut = dict.fromkeys(each.words for each in now.held_back if each.cut(told, where))
    if cut:  # it is no reason to be cleaned any more, but shows no drain
        page.strong(now.push.study.tables.in_pipe.found_before.drain_here.format(met="; ".join(cut)))
    return False


def _only_out(made: Study, order: Attempts, now: Now, page: Page, words: Words) -> None:
    """What comes after a head that is not to be pushed."""
    if (out := out_words(made)) is not None:
        page.strong(out)
        if not made.usable:
            return
    if (uncut := uncut_roots(now, words)) is not None:
        page.strong(uncut)
        order = _elsewhere(order, now)
    first = "Once the line is seen to drain:" if now.drains is False else "If it is out:"
    _attempts(first, "If it is out, leave it.", order, page, words)
    if held_now(now) is not None and now.held_at[0] is None:
        _untold(order, now.counter, now, page, words)


def _ends_before(order: Attempts, ahead: Onward | None, now: Now, page: Page, words: Words) -> bool:
    """What keeps the head from going on as planned; False where nothing does."""
    tables, again = now.push.study.tables, stop_ahead(now, unpassed=True)
    if (here := stop_here(now)) is not None and here.not_past:
        again = here
    rest = _elsewhere(order, now) if ahead is None else ahead.after
    if (throat := wanted_throat(now)) is not None:
        show_throat(throat, tables.stuck.other_throat, now.counter, page, words)
        if throat.tries or throat.mouth:
            _attempts("If that fails:", "If that fails, leave it.", order, page, words)
            return True
    if limit_of(now).only_back and not (ahead is not None and ahead.arrived):
        page.strong(tables.where.not_past.next)
    elif (bar := next((each for each in found_ahead(now) if each.heed.not_past), None)) is not None:
        told = {"reading": words.length(bar.reading), "what": bar.heed.what}
        page.strong(tables.in_pipe.found_before.plan.format(**told))
        page.line(" ".join(filter(None, (bar.heed.do, bar.heed.clears))))
        if bar.heed.clears:
            _attempts("Before that:", "Before that, leave it.", rest, page, words)
            return True
    else:
        return again is not None and _before_stop(again, rest, ahead, now, page, words)
    _attempts("Then:", "Then leave it.", rest, page, words)
    return True


def _going_on(
    order: Attempts, ahead: Onward | None, cleaned: bool, now: Now, page: Page, words: Words
) -> None:
    """What going on from here promises; once it is `cleaned` where that comes first."""
    if ahead is None:
        _attempts("The plan from here:", "The plan from here: leave it.", order, page, words)
    elif ahead.arrived:
        _at_end(ahead, now, page, words)
    elif ahead.astray and ahead.goes_on:
        page.strong(
            f"Draw back to the way planned, then go on. To see it all then: {words.say(ahead.chance)}."
        )
        page.line("The head is rather not on that way.")
        _attempts("If that fails:", "If that fails, leave it.", ahead.after, page, words)
    elif ahead.surprised and not ahead.astray:
        page.strong(f"Only if it comes free here: to see it all then, {words.say(ahead.chance)}.")
        _attempts("If it does not:", "If it does not, leave it.", ahead.after, page, words)
        _untold(ahead.after, now.counter, now, page, words)
    elif ahead.goes_on:
        page.strong(go_on(ahead.chance, cleaned, now, words))
        _attempts("If that fails:", "If that fails, leave it.", ahead.after, page, words)
    else:
        page.strong(f"Leave this way now. To see it all from here: {words.say(ahead.chance)}.")
        page.line("Going on costs more minutes than it is worth.")
        _attempts("Then:", "Then leave it.", ahead.after, page, words)


def _at_end(ahead: Onward, now: Now, page: Page, words: Words) -> None:
    """That the head is at the end of what is to be seen; where that is not sure, how to make sure of it; and
    past the end of a part what is left of the whole."""
    end = "the end of what is to be seen" if ahead.rest is None else "the end of the part planned"
    sure = ahead.further is None or ahead.further <= 0
    if sure:
        page.strong(f"The head is at {end}." + (" Draw back slowly and look." if ahead.rest is None else ""))
    else:
        page.strong(f"At {end}, or past it: {words.say(ahead.at_end)}, no more.")
    if limit_of(now).only_back or (now.stops and _here(now, now.stops[-1])):
        if not sure or ahead.rest is not None:
            page.line("Draw back slowly and look. What was met here comes first." + _then(ahead))
        return
    if ahead.further is not None and ahead.further > 0:
        furthest = words.length(_not_past(now, now.counter + ahead.further))
        said = "Slowly on until that end comes into view"
        if ahead.unmarked:
            said = "Nothing shows that end. To be sure of it: slowly on"
        then = " Then draw back and look." if ahead.rest is None else ""
        page.line(f"{said}, no further than {furthest}.{then}")
    if ahead.rest is not None:
        page.line(
            "The rest of what is to be seen lies ahead. Nothing seen yet that explains the trouble? Slowly "
            "on while the lens shows open pipe and it goes gently, no further than "
            f"{words.length(now.counted(ahead.rest))}. Else draw back slowly and look."
        )


def _then(ahead: Onward) -> str:
    """What comes after what was met there."""
    if ahead.rest is not None:
        return " The rest of what is to be seen lies ahead."
    return "" if ahead.unmarked else " Then look again whether it is the end."


def _not_past(now: Now, furthest: float) -> float:
    """So far by the counter, but not past where something that must not be passed may begin."""
    stop = limit_of(now).stop
    return furthest if stop is None else min(furthest, max(stop.low, now.counter))


def _here(now: Now, entry: int) -> bool:
    """Whether the head is where it was as that was told."""
    return abs(now.rods[entry] - now.belief.rod) < now.push.tracker.chart.cell


def _before_stop(
    again: StopAhead, rest: Attempts, ahead: Onward | None, now: Now, page: Page, words: Words
) -> bool:
    """What a stop ahead, which was never passed, makes of the plan; False where the worlds tell of it all."""
    row, reading = now.push.study.tables.stuck.met_again, words.length(again.reading)
    astray = ahead is not None and ahead.astray
    if not again.not_past and (astray or again.found.spot):
        return False
    if again.not_past:
        uncut = uncut_roots(now, words)
        page.strong(" ".join(filter(None, (row.plan_stop.replace("{reading}", reading), uncut))))
    else:
        chance = "" if ahead is None else f" To see it all then: {words.say(ahead.chance)}."
        page.strong(row.plan_gently.replace("{reading}", reading) + chance)
    _attempts("Then:" if again.not_past else "If it does not:", "Then leave it.", rest, page, words)
    if not again.found.spot:
        _untold(rest, again.reading, now, page, words)
    return True


def _untold(order: Attempts, reading: float, now: Now, page: Page, words: Words) -> None:
    """Which of these chances know of a stop where the plan has nothing hard: of the ways that come to it the
    same way; what holds from one side may from the other."""
    tables, at = now.push.study.tables, words.length(reading)
    rod, near = reading - now.counted(0.0), number(tables.where.travel.cell)
    met = [each for each, _ in order if counted_in(each, now.push.opening.name, rod, near)]
    if met:
        row, openings = tables.in_pipe.stopped_before, dict.fromkeys(each.route.opening.name for each in met)
        rest = "" if len(met) == len(order) else row.unmet
        page.line(" ".join(filter(None, (row.met.format(openings=few(openings), reading=at), rest))))
    elif order:
        page.line(tables.stuck.met_again.untold.replace("{reading}", at))


def _elsewhere(order: Attempts, now: Now) -> Attempts:
    return tuple(each for each in order if each[0].route.opening != now.push.opening)


def _attempts(first: str, none: str, order: Attempts, page: Page, words: Words) -> None:
    """The openings to try in their order, each with its chance given that it comes to it."""
    if not order:
        page.strong(f"{none} No other opening is worth the minutes now.")
        return
    page.strong(first)
    page.steps(
        [f"{each.route.opening.name}, {each.loadout.name}: {words.say(chance)}" for each, chance in order]
    )
