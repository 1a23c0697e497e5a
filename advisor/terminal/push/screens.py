"""What is shown beside the opening: where the head is, what comes next, what to do when it is held."""

from __future__ import annotations

from advisor.outcome.assess import RouteOutcome
from advisor.push.ahead import next_landmarks, on_run
from advisor.push.disagree import disagree
from advisor.push.elsewhere import elsewhere, held_by
from advisor.push.fix import Place
from advisor.push.found_ahead import found_ahead
from advisor.push.held_now import held_now
from advisor.push.here import likely_here
from advisor.push.limit import limit_of
from advisor.push.now import Now
from advisor.push.onward import Onward
from advisor.push.since import read_twice
from advisor.push.stop_ahead import StopAhead, stop_ahead, stop_here
from advisor.push.stuck import Stuck
from advisor.push.throat import wanted_throat
from advisor.push.tries import NextTry
from advisor.quantity import never_certain
from advisor.result.out import out_words
from advisor.result.study import Study
from advisor.tables.where import number
from advisor.terminal.page import Page
from advisor.terminal.push.across import show_across
from advisor.terminal.push.beside_card import show_beside_card
from advisor.terminal.push.coming import show_next, show_seen
from advisor.terminal.push.found import show_found
from advisor.terminal.push.hard import go_on, held_words, no_push, show_hard, told_there, uncut_roots
from advisor.terminal.push.held_here import show_held
from advisor.terminal.push.material import held_of
from advisor.terminal.push.not_past import show_not_past
from advisor.terminal.push.throat import show_throat
from advisor.terminal.push.water import contrary_words, show_check
from advisor.terminal.push.words import Words

Attempts = tuple[tuple[RouteOutcome, float], ...]


def show_now(now: Now, page: Page) -> None:
    """Where the head is and what comes next, shortly."""
    words = Words(now)
    page.heading(f"Counter {words.length(now.counter)}")
    if now.belief.slack > number(now.push.tracker.chart.where.sure.loose):
        page.strong(f"{words.length(now.belief.slack)} of rod lie loose in the pipe: draw them out first.")
    if not now.entries:
        show_beside_card(now, page)
    _where(now, page, words)
    limit = limit_of(now)
    show_seen(limit, now, page, words)
    here = stop_here(now)
    show_held(here, now, page, words)
    nothing_next = no_push(now) is not None or (here is not None and here.not_past)
    if (_sure(now) or limit.only_back) and not nothing_next:
        show_next(limit, now, page, words)
    show_not_past(limit, now, page, words)
    show_found(limit, now, page, words)
    show_hard(limit, now, page, words)
    show_check(now, page, words, _sure(now))


def _where(now: Now, page: Page, words: Words) -> None:
    fix = now.fix
    best, second = fix.best, fix.second
    if now.off_map:
        page.strong(f"It may be a pipe that is not on your map: {words.say(fix.off_map)}.")
    if (against := contrary_words(now)) is not None:
        page.boxed("not sure where", list(against))
        page.line(f"Where, by all else that was told: {words.place(best)}.")
        return
    if second is None or _sure(now):
        page.strong(f"Where: {words.place(best)}. {_cap(words.say(words.chance(best)))}.")
    else:
        page.strong("Where: not sure. Either")
        places = [
            f"{words.place(place)}, looking {'downstream' if place.with_flow else 'upstream'}: "
            f"{words.say(place.alone)}. {_apart(now, place, words)}"
            for place in sorted((best, second), key=lambda each: -each.alone)
        ]
        page.steps(places)
    page.line(words.way(fix, now.off_map))
    show_across(now, page, words)
    if (twice := read_twice(now)) is not None:
        page.line(words.twice(twice))
        show_ground(now, page)


def show_ground(now: Now, page: Page) -> None:
    """Where to stand above ground for the head, if that is not what the counter shows."""
    if now.ground is None:
        page.line("In which pipe it is is not sure: locate it before anybody digs.")
        return
    above = now.ground.words(now.push.study.units)
    if above:
        page.line(f"{_cap(above)}.")


def _apart(now: Now, place: Place, words: Words) -> str:
    """What would come next there: the sighting that tells the two best apart."""
    tracker = now.push.tracker
    ahead = next_landmarks(tracker, on_run(tracker, now.belief, place.line, place.with_flow))
    if not ahead:
        return "Then nothing more comes to its end."
    return f"Then next: {words.landmark(ahead[0].landmark)}, {words.reading(ahead[0])}."


def _sure(now: Now) -> bool:
    """True where one line is told alone: it is likely, and so is the way that the lens looks along it."""
    fix, least = now.fix, number(now.push.tracker.chart.where.sure.name_two_below)
    other_way = fix.best.with_flow != (fix.downstream >= 0.5)
    return fix.best.chance >= least and not other_way


def show_stuck(found: Stuck, now: Now, page: Page) -> None:
    """The likely cause, what first, the next try, when to stop."""
    words = Words(now)
    page.heading(held_words(found, now))
    for note in found.cautions:
        page.boxed(note.word, [note.text])
    if found.no_push:
        page.strong(f"First get it {'out' if found.over else 'free'}, gently")
        page.steps(list(found.out.steps))
    for line in told_there(now):
        page.line(line)
    there = held_by(now)
    for told in there:
        page.strong(now.push.study.tables.in_pipe.from_elsewhere.held.format(what=told.what))
    if not found.spot:
        _here(now, page, bool(there))
    sure = len(found.named) == 1
    if not sure:
        page.line("It is not clear what holds it. It may be that")
    for cause in found.named:
        said = (
            f"{_cap(cause.words)}: {words.say(cause.chance)}."
            if sure
            else f"- {cause.words} ({cause.chance:.0%})."
        )
        page.strong(said)
        page.line(cause.why, indent=4)
    if found.first:
        page.strong("First")
        page.steps(list(found.first))
    if found.stop:
        page.boxed("stop", [found.stop])
        return
    for place, each in enumerate(found.tries[:2]):
        _try(each, "Next" if place == 0 else "Then", page, words)
    for technique, why in found.not_now[:3]:
        page.line(f"Not {technique}: {why}")


def _here(now: Now, page: Page, other: bool = False) -> None:
    """What is likely in this pipe all the same, by what the plan knows of it."""
    here, on_sheet = likely_here(now), number(now.push.tracker.chart.where.sure.on_sheet)
    if here.nothing:
        if not other:
            page.line("Nothing that the plan knows of this pipe makes a stop here likely.")
        return
    if here.conditions or here.sag or here.narrow:
        page.line(held_of(now))
    for words, share in here.conditions:
        told = "as the sheet has it" if share > on_sheet else f"{share:.0%}"
        page.line(f"- {words} ({told})")
    if here.sag:
        page.line(f"- a sag, where water may stand over the lens ({here.sag:.0%})")
    if here.narrow:
        page.line(f"- less room left than the head needs ({here.narrow:.0%})")
    if here.trouble:
        chance = 100 * never_certain(here.trouble)
        page.line(f"By the complaint the trouble lies in this section: {chance:.0f}%, no proof.")
    for name, share in here.spots:
        page.line(f"It may be held at the {name} ({share:.0%}).")


def _try(each: NextTry, when: str, page: Page, words: Words) -> None:
    left = {1: "one try left", 2: "two tries left"}.get(each.left, f"{each.left} tries left")
    told = ", ".join(filter(None, (each.told(words.say), left)))
    page.strong(f"{when}: {each.technique}. {_cap(told)}.")
    if each.because:
        page.line(each.because, indent=4)
    if each.steps and when == "Next":
        page.steps(list(each.steps), indent=4)


def show_plan_anew(now: Now, made: Study, ahead: Onward | None, page: Page) -> None:
    """What came otherwise, what going on from here promises, and the order of attempts after it."""
    words, throat, again = Words(now), wanted_throat(now), stop_ahead(now, unpassed=True)
    if (here := stop_here(now)) is not None and here.not_past:
        again = here
    order = tuple(zip(made.settled.attempts, made.settled.order.step_chances, strict=True))
    page.heading("Not as planned" if (parted := disagree(now)) else "As planned so far")
    for line in parted:
        page.line(line)
    for other in elsewhere(now):
        page.line(now.push.study.tables.in_pipe.from_elsewhere.untold.format(what=other.what))
    if (held := no_push(now)) is not None:
        page.strong(held)
        if (out := out_words(made)) is not None:
            page.strong(out)
            if not made.usable:
                return
        if (uncut := uncut_roots(now, words)) is not None:
            page.strong(uncut)
            order = _elsewhere(order, now)
        _attempts("If it is out:", "If it is out, leave it.", order, page, words)
        if order and held_now(now) is not None and now.held_at[0] is None:
            row = now.push.study.tables.stuck.met_again
            page.line(row.untold.replace("{reading}", words.length(now.counter)))
        return
    if (against := contrary_words(now)) is not None:
        page.steps(list(against[1:]))
        return
    if throat is not None:
        show_throat(throat, now.push.study.tables.stuck.other_throat, now.counter, page, words)
        if throat.tries:
            _attempts("If that fails:", "If that fails, leave it.", order, page, words)
            return
    if limit_of(now).only_back and not (ahead is not None and ahead.arrived):
        page.strong(now.push.study.tables.where.not_past.next)
        rest = _elsewhere(order, now) if ahead is None else ahead.after
        _attempts("Then:", "Then leave it.", rest, page, words)
        return
    if (bar := next((each for each in found_ahead(now) if each.heed.not_past), None)) is not None:
        told = {"reading": words.length(bar.reading), "what": bar.heed.what}
        page.strong(now.push.study.tables.in_pipe.found_before.plan.format(**told))
        page.line(bar.heed.do)
        _attempts(
            "Then:", "Then leave it.", _elsewhere(order, now) if ahead is None else ahead.after, page, words
        )
        return
    if again is not None and _before_stop(again, order, ahead, now, page, words):
        return
    if ahead is None:
        _attempts("The plan from here:", "The plan from here: leave it.", order, page, words)
        return
    if ahead.arrived:
        page.strong("The head is at the end of what is to be seen. Draw back slowly and look.")
        return
    if ahead.astray and ahead.goes_on:
        page.strong(
            f"Draw back to the way planned, then go on. To see it all then: {words.say(ahead.chance)}."
        )
        page.line("The head is rather not on that way.")
        _attempts("If that fails:", "If that fails, leave it.", ahead.after, page, words)
        return
    if ahead.surprised and not ahead.astray:
        page.strong(f"Only if it comes free here: to see it all then, {words.say(ahead.chance)}.")
        _attempts("If it does not:", "If it does not, leave it.", ahead.after, page, words)
        return
    if ahead.goes_on:
        page.strong(go_on(ahead.chance, now, words))
        _attempts("If that fails:", "If that fails, leave it.", ahead.after, page, words)
        return
    page.strong(f"Leave this way now. To see it all from here: {words.say(ahead.chance)}.")
    page.line("Going on costs more minutes than it is worth.")
    _attempts("Then:", "Then leave it.", ahead.after, page, words)


def _before_stop(
    again: StopAhead, order: Attempts, ahead: Onward | None, now: Now, page: Page, words: Words
) -> bool:
    """What a stop ahead, which was never passed, makes of the plan; False where the worlds tell of it all."""
    row, reading = now.push.study.tables.stuck.met_again, words.length(again.reading)
    astray = ahead is not None and ahead.astray
    if not again.not_past and (astray or again.found.spot):
        return False
    after = _elsewhere(order, now) if ahead is None else ahead.after
    if again.not_past:
        uncut = uncut_roots(now, words)
        page.strong(" ".join(filter(None, (row.plan_stop.replace("{reading}", reading), uncut))))
    else:
        chance = "" if ahead is None else f" To see it all then: {words.say(ahead.chance)}."
        page.strong(row.plan_gently.replace("{reading}", reading) + chance)
    _attempts("Then:" if again.not_past else "If it does not:", "Then leave it.", after, page, words)
    if after and not again.found.spot:
        page.line(row.untold.replace("{reading}", reading))
    return True


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


def _cap(words: str) -> str:
    return words[:1].upper() + words[1:]
