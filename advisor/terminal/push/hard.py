"""The next hard place on the screen: what to try where it is new, what is left where it has held the head."""

from __future__ import annotations

from collections.abc import Collection

from advisor.outcome.attempts import STEADY
from advisor.push.before.elsewhere import Elsewhere, elsewhere
from advisor.push.before.limit import Limit
from advisor.push.held.freeing import barred_behind, free_to_turn
from advisor.push.held.not_wet import RUN_WATER, before_water_ahead
from advisor.push.held.stuck import Stuck
from advisor.push.held_now import found_of, held_now, plight_of, roots_met
from advisor.push.log.kinds import FIND, PORTS, UNKNOWN
from advisor.push.log.sign_words import sign_words
from advisor.push.now.ahead import Hard
from advisor.push.now.course import Met
from advisor.push.now.hard_ahead import hard_ahead
from advisor.push.now.now import Now
from advisor.push.now.plight import over_for
from advisor.push.now.roots_span import RootsSpan, roots_span
from advisor.push.now.tries import steps_with_rod_in
from advisor.push.stop_ahead import StopAhead, at_stop, bar_ahead, stop_ahead
from advisor.result.model import PassageNote, TechniqueNote
from advisor.result.spots import passage_note
from advisor.rulebase.rule import GRAVE
from advisor.tables.where import number
from advisor.terminal.page import Page
from advisor.terminal.push.machine_end import show_machine_end
from advisor.terminal.push.material import heeded
from advisor.terminal.push.not_past import stop_name
from advisor.terminal.push.words import Words

_FORCE = ("turn the rod", "quick push")  # what a hand does by itself where it goes hard


def show_hard(limit: Limit, now: Now, page: Page, words: Words) -> None:
    """The next hard place, and the stop of this push that comes again: where to go slowly, what to do.

    Nothing of what lies ahead while the rod must not be pushed on: only that.
    """
    if (held := no_push(now)) is not None:
        page.boxed("stop", [held])
        return
    for reading in plight_of(now).roots[-1:]:
        told = now.push.study.tables.in_pipe.rod_in_roots.now
        page.boxed("rod in roots", [told.format(reading=words.length(reading))])
    if limit.nothing_ahead or now.contrary is not None:
        return
    show_machine_end(now, page, words)
    if now.push.study.circumstances.tool_lost:
        page.line(now.push.study.tables.where.tool_lost.ahead)
    again, bar = stop_ahead(now), bar_ahead(now)
    hard = hard_ahead(now, now.push.course.hard)
    warned = [] if hard is None else _warnings(_note(hard, now))
    same = again is not None and hard is not None and hard.met.name == again.found.spot
    behind = _behind(bar, hard)
    if again is not None:
        _show_again(again, warned if same or behind else [], limit, now, page, words)
    if bar is not None and again is not None and bar.reading != again.reading:
        _show_again(bar, [], limit, now, page, words)
    roots = hard_ahead(now, now.push.course.rooty)
    if (
        roots is not None
        and not _behind(bar, roots)
        and not (again is not None and roots.met.name == again.found.spot and not words.far(again.slow_from))
    ):
        _show_roots(roots, limit, now, page, words)
    # Nobody is told to push, however gently, at what must not be entered: it has a box of its own.
    if same or (hard is not None and hard.met.hard.passage.piece.stopper):
        return
    if hard is not None and not behind:
        _show_place(hard, limit, now, page, words)


def _behind(bar: StopAhead | None, hard: Hard | None) -> bool:
    """Whether the hard place rather lies behind a stop that is not to be passed: nobody comes to it."""
    return bar is not None and hard is not None and hard.likely >= bar.reading


def _show_roots(roots: Hard, limit: Limit, now: Now, page: Page, words: Words) -> None:
    """A run in which roots may stand: as any hard place before it, in a line while the head is in it.

    Held where it may be in it, too: what is done at this stop stands above, and none of it is for the next.
    """
    span, held = roots_span(now, roots.met), now.held_at[1]
    within = now.may_be_rooted if held else filter(None, (now.rooted,))
    if span is None or all(each.key != roots.met.key for each in within):
        _show_place(roots, limit, now, page, words)
        return
    rejected = [each.name for each in _note(roots, now).techniques if each.verdict == "rejected"]
    not_here = " and not ".join(name for name in _FORCE if name in rejected)
    free = free_to_turn((roots.met,), plight_of(now), now.push.study)
    page.line(
        f"{_may_stand(span, now, words)}. Go slowly, look before you are in one."
        + (f" Not {not_here}." if not_here else "")
        + (f" {now.push.study.tables.in_pipe.rim_seen.in_roots}" if free else "")
    )


def _may_stand(span: RootsSpan, now: Now, words: Words) -> str:
    """Where roots may stand yet, and how likely; where some were seen no chance is told of that."""
    end, clear = words.to_end(span.ends), span.clear_to
    chance = "" if span.seen else f": {words.say(span.there)}"
    if clear is None or clear - now.counter < number(now.push.tracker.chart.where.sure.near):
        return f"Roots may stand at any joint here, {end}{chance}"
    passed = f"Passed to {words.length(clear)} with nothing new"
    return f"{passed}. From there roots may stand at any joint, {end}{chance}"


def _show_place(hard: Hard, limit: Limit, now: Now, page: Page, words: Words) -> None:
    """A hard place in a line while it is far, with all that is to be done there once it is near.

    Nobody is told to push where it may as well be what must not be passed.
    """
    if words.far(hard.slow_from):
        page.line(f"Hard: {words.hard(hard)}. Slow from {words.length(hard.slow_from)}.")
        return
    note = _note(hard, now)
    heed = [heeded(each, now, words) for each in note.here if each.word == "notice"]
    texts = [f"Slow. {_cap(words.hard(hard))}.", *heed]
    if limit.before:
        texts.append(now.push.study.tables.in_pipe.found_before.no_push)
    elif limit.within or _may_be_past(hard, limit, now):
        texts.append(_no_push_there(limit, now, words))
    elif hard.met.name in now.was_held:
        texts += _held_before(now, hard.met, words)
    else:
        barred = {name for name, _ in barred_behind(plight_of(now), now.push.study)}
        lies = (each.do for each in elsewhere(now) if each.stop and _overlap(each, hard))
        texts += _first(note, hard, barred, now, words, next(lies, None))
    page.boxed("hard place", texts + _warnings(note))


def _may_be_past(hard: Hard, limit: Limit, now: Now) -> bool:
    """Whether the place may well be behind the head unseen where the drain may end: no stroke then."""
    sure = number(now.push.study.tables.where.sure.check_below)
    return limit.stop is not None and now.counter >= limit.stop.low and hard.chance < sure


def _no_push_there(limit: Limit, now: Now, words: Words) -> str:
    return now.push.study.tables.where.not_past.push.format(name=stop_name(limit, words))


def _note(hard: Hard, now: Now) -> PassageNote:
    return passage_note(hard.met.hard, hard.met.outcome, now.push.study.reader)


def _warnings(note: PassageNote) -> list[str]:
    return [f"{c.word.upper()}: {c.text}" for c in note.cautions if c.word in GRAVE]


def go_on(chance: float, cleaned: bool, now: Now, words: Words) -> str:
    """That going on is worth its minutes, or is once the line is `cleaned`, where that comes first; past
    roots what it hangs on: no chance knows of the way back."""
    for reading in plight_of(now).roots[-1:]:
        only = now.push.study.tables.in_pipe.rod_in_roots.plan.format(reading=words.length(reading))
        return f"{only} To see it all then: {words.say(chance)}."
    where = "To see it all then" if cleaned else "Go on here. To see it all from here"
    return f"{where}: {words.say(chance)}."


def no_push(now: Now) -> str | None:
    """Why the rod must not be pushed on now; None where it may."""
    if (found := held_now(now)) is not None and found.no_push:
        return found.stop
    study, ports = now.push.study, PORTS.get(now.push.direction, PORTS[UNKNOWN])
    if study.barred.leads_in(study.network, now.push.opening.name, ports):
        return study.tables.in_pipe.left_in.stop  # told as out when it began, and it is not
    return " ".join(over_for(plight_of(now), study.tables.in_pipe)) or None


def _show_again(
    again: StopAhead, warned: list[str], limit: Limit, now: Now, page: Page, words: Words
) -> None:
    """The stop ahead in a line while it is far, with all that is to be done there once it is near."""
    table = now.push.study.tables.stuck
    row, reading = table.met_again, words.length(again.reading)
    do = row.passed if again.passed else row.cleared if again.cut else row.gently
    do = (row.stop if again.not_past else do).format(reading=reading, by=again.by)
    found = now.push.study.tables.in_pipe.found_before
    for seen in at_stop(now, again) if again.not_past else ():
        own = "" if seen.heed.do == found.do else f" {seen.heed.do}"
        do += f" {_cap(found.see.format(what=seen.heed.told))}.{own}"
    told = f" ({sign_words(again.signs, table)})" if again.signs else ""
    at = f" at the {again.found.spot}" if again.found.spot else ""
    when = "in an earlier push " if again.earlier else ""
    stopped = f"{when}it was stopped at {reading}{at}{told}"
    if words.far(again.slow_from):
        page.line(f"Ahead: {stopped}. Slow from {words.length(again.slow_from)}. {do}")
        return
    texts = [f"Slow. {_cap(stopped)}.", do]
    cause = again.found.told
    if again.not_past:
        texts.append(f"{_cap(cause.words)}: {words.say(cause.chance)}. {cause.why}")
    elif limit.before:
        texts.append(found.no_push)
    elif limit.within:
        texts.append(_no_push_there(limit, now, words))
    elif again.found.tries:
        texts += _left(again.found, words, "If it holds, ")
    texts += [f"{note.word.upper()}: {note.text}" for note in again.found.cautions]
    page.boxed("stop ahead", [*texts, *(text for text in warned if text not in texts)])


def uncut_roots(now: Now, words: Words) -> str | None:
    """That roots that held the head in this push are cut before another goes in; None where none did."""
    met = roots_met(now, -now.push.tracker.chart.cell)
    row = now.push.study.tables.in_pipe.rod_in_roots
    return row.uncut.format(reading=words.length(met[0])) if met else None


def told_there(now: Now) -> list[str]:
    """What may hold it that was told: a lost tool; on the way out what was logged there on the way in."""
    lost = on_lost_tool(now)
    if not now.on_way_out:
        return lost
    words, near = Words(now), number(now.push.tracker.chart.where.sure.near)
    finds = [
        (now.counted(entry.counter + belief.shift), entry)
        for entry, belief in now.told
        if entry.kind == FIND and entry.counter is not None
    ]
    return lost + [
        f"Logged at {words.length(reading)}: {entry.data['what']}."
        for reading, entry in finds
        if abs(reading - now.counter) <= near
    ]


def on_lost_tool(now: Now) -> list[str]:
    """That a held head may hang on a tool that was told to be lost in there."""
    study = now.push.study
    return [study.tables.where.tool_lost.held] if study.circumstances.tool_lost else []


def show_way_out(found: Stuck, now: Now, page: Page) -> None:
    """How to get the head out again."""
    page.heading("Getting out")
    page.steps([*on_lost_tool(now), *found.out.steps])


def _overlap(other: Elsewhere, hard: Hard) -> bool:
    return other.low <= hard.high and hard.low <= other.high


def _first(
    note: PassageNote, hard: Hard, barred: Collection[str], now: Now, words: Words, lies: str | None = None
) -> list[str]:
    """What to try at a hard place to which the head comes for the first time; nothing `barred` behind it.

    Where what stopped another push `lies` there, only what is to be done of that, and how to go: no chance
    knows of it.
    """
    plain = float(hard.met.hard.spot.plain.passes.mean())
    texts = [lies or f"First a gentle push: {words.say(plain)}."]
    tries = [each for each in note.techniques if each.verdict in ("try", "required") and each.tries]
    # Where there is more to say of the gentle push itself, that comes first and the rest where it holds.
    gentle = [each for each in tries if each.name == STEADY]
    after = [each for each in tries if each.name != STEADY and each.name not in barred and not lies][:1]
    told = gentle or after
    study, does = now.push.study, list[str]()
    wet = any(each.name in RUN_WATER for each in told)
    first = before_water_ahead(plight_of(now), study) if wet else {}
    for each in told:
        does += filter(None, (first.get(each.name),))
        does += steps_with_rod_in(each.name, each.steps, study.tables.stuck)
    steps = [f"{number}. {step}" for number, step in enumerate(does, 1)]
    held = [f"If it holds: {_chance(each, words)}." for each in after]
    return [*texts, *steps, *held] if gentle else [*texts, *held, *steps]


def _chance(note: TechniqueNote, words: Words) -> str:
    """A technique with the chance of a try, where the plan works one out: an unlikely one is told as one."""
    told = note.before if note.chance is None else f"{words.say(note.chance)} a try"
    return ", ".join(filter(None, (note.name, told)))


def _held_before(now: Now, met: Met, words: Words) -> list[str]:
    """What is left to try at a hard place that has held the head in this push."""
    here, _ = now.held_at
    signs = now.signs if here is not None and here.name == met.name else frozenset[str]()
    found = found_of(now, now, met, signs, now.belief.rod)
    texts = ["It was held here: a gentle push did not do."]
    return [*texts, found.stop] if found.stop else texts + _left(found, words)


def _left(found: Stuck, words: Words, lead: str = "") -> list[str]:
    """The next try that is left, with its steps."""
    left = found.tries[0]
    first = ": ".join(filter(None, (_cap(lead + left.technique), left.told(words.say))))
    return [f"{first}.", *(f"{number}. {step}" for number, step in enumerate(left.steps, 1))]


def _cap(words: str) -> str:
    return words[:1].upper() + words[1:]
