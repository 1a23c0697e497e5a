"""The head goes no further: the likely cause, what to try next, when to stop, and how to get out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import inf, isnan, nan

from advisor.outcome.attempts import NO_TRY, STEADY, TURN
from advisor.outcome.walk import HardSpot
from advisor.push.held.barred_here import barred_here, no_cure, notes_of
from advisor.push.held.cured import cured, planned_chance
from advisor.push.held.freeing import WATER, harmful
from advisor.push.held.gently import blows_last, first_steps, held_both_ways, in_the_pipe
from advisor.push.held.not_wet import barred_wet, drain_first
from advisor.push.held.told_by_signs import CROSSED, ToldBySigns, told_by_signs
from advisor.push.held.unforeseen import firings_there, steps_anywhere, usual_tries
from advisor.push.held.way_out import WayOut, way_out
from advisor.push.now.after_signs import after_signs
from advisor.push.now.causes import Cause
from advisor.push.now.course import Course, Met
from advisor.push.now.drains import water_allowed
from advisor.push.now.evidence import Tried
from advisor.push.now.plight import NOTHING, Plight, over_for
from advisor.push.now.tries import NextTry, steps_with_rod_in
from advisor.push.now.warned import site_cautions
from advisor.result.model import CautionNote
from advisor.result.spots import steps_of
from advisor.site.network import Piece
from advisor.tables.in_the_pipe import InPipeFile
from advisor.tables.stuck import StuckFile


@dataclass(frozen=True)
class Stuck:
    """Everything to say of a head that is held."""

    spot: str
    causes: tuple[Cause, ...]
    named: tuple[Cause, ...]  # those that are told: the one that is likely, else the first few
    first: tuple[str, ...]
    tries: tuple[NextTry, ...]
    not_now: tuple[tuple[str, str], ...]  # technique, why it makes the likely cause worse
    stop: str | None
    out: WayOut
    cautions: tuple[CautionNote, ...]  # what an object before the lens may be
    both_ways: bool  # held both ways: how to get it out comes first
    over: bool  # the push is: rod or spring kinked, a machine ran beside it, or the line stands
    by_rim: bool  # a rim was seen and likely holds it, and no roots were seen there
    first_is_tried: bool  # what comes first is more than to draw back and look: a stop comes after it

    @property
    def no_push(self) -> bool:
        """Whether no push onward and no try is to be made, whatever holds it."""
        return self.both_ways or self.over

    @property
    def stop_in_turn(self) -> str | None:
        """The stop as it is told after what comes first: not in one breath with a gentle try."""
        return f"Still held after that? {self.stop}" if self.stop and self.first_is_tried else self.stop

    @property
    def told(self) -> Cause:
        """The likeliest cause of those that are told."""
        return self.named[0]


def stuck(
    course: Course,
    met: Met | None,
    signs: frozenset[str],
    tries: Sequence[Tried],
    at: float,
    where: Sequence[Piece],
    plight: Plight = NOTHING,
    may_be: Sequence[Met] = (),
) -> Stuck:
    """What to say where the head stands at a hard spot (or where none was foreseen), `at` m from the hand.

    `signs` are names of rules/signs/stuck.yaml that are seen or felt; what is not among them counts for
    little, for nobody tells everything. The causes' chances before the signs are the planner's at that
    spot, over the worlds that the tries so far leave. `where` are the pipes in which the head may be.
    `plight` is what this push has shown of line and rod. `may_be` are hard spots, where it is open which of
    them or none holds the head: what one of them forbids is not tried.
    """
    table, in_pipe = course.study.tables.stuck, course.study.tables.in_pipe
    told = told_by_signs(course, met, signs, tries, at, plight, may_be)
    sure = told.sure
    seen = after_signs(met.hard, told.chances, course.study) if met else None
    firings = () if met else firings_there(course, where, told.chances, at)
    wet = barred_wet(signs, plight, course.study)
    spot = (met, seen) if met and seen else None
    barred = barred_here(course, spot, firings, signs, told, plight, may_be, wet)
    # What a rule forbids is told before what would only do no good.
    against = {**barred}
    for technique, why in no_cure(course, [cause.trouble for cause in sure]).items():
        against.setdefault(technique, why)
    both_ways = plight.out or held_both_ways(table, signs)
    eased = plight.out and not signs.isdisjoint(table.eased_in.signs)
    eased = eased and bool(sure) and all(cause.name in table.eased_in.causes for cause in sure)
    spots = (met, replace(met, hard=seen)) if met and seen else may_be
    harm = harmful(told.named, both_ways and not eased, plight, course.study, spots)
    if WATER in harm:  # the way out of this very stop forbids it
        against.setdefault(WATER, harm[WATER])
    open_now = frozenset(course.study.base.matrix.techniques).difference(against)
    if met and seen:
        next_tries = _planned(course, met, _tried_here(seen, met, tries), told, open_now, bool(signs))
    else:
        next_tries = usual_tries(course, told.here, open_now, told.named[0].trouble, firings)
    next_tries = blows_last(
        table,
        signs,
        drain_first(_curled(next_tries, told, in_pipe), wet, in_pipe, plight.still_look, plight.watched),
    )
    ends = _ends(course, signs, plight)
    nothing = both_ways or plight.over or bool(ends)
    water = water_allowed(course.study.circumstances, plight.drains)
    water = None if (wet or plight.still_look) and water else water
    folded = any(cause.name == "folded back" for cause in sure)
    # Where it is given up, what failed here is no first step any more.
    failed = () if next_tries else (tried.technique for tried in told.here)
    never = {*harm, *against, *_not_across(sure), *failed}
    # Nor is what is offered no more because it failed here; a gentle lean is part of every try.
    spent = {tried.technique for tried in told.here if not tried.passed}
    spent -= {STEADY, *(each.technique for each in next_tries)}
    causes = [cause.name for cause in sure]
    first = () if nothing else first_steps(table, signs, causes, never, spent)
    return Stuck(
        met.name if met else "",
        told.causes,
        told.named,
        tuple(in_the_pipe(step, at) for step in first),
        () if nothing else next_tries,
        tuple(against.items()),
        _no_push(table, in_pipe, both_ways, plight, eased and STEADY not in harm)
        or ends
        or _when_to_stop(table, next_tries, sure, told.here),
        way_out(course, met, at, water, harm, folded, plight.kinked, plight.watched),
        _warned(course, met, signs),
        both_ways,
        plight.over,
        told.by_rim,
        any(step.technique is not None for step in first),
    )


def _curled(tries: Sequence[NextTry], told: ToldBySigns, in_pipe: InPipeFile) -> tuple[NextTry, ...]:
    """The tries; at a clean rim how the curl of the rod lifts the nose is told with turning it."""
    if not told.clean:
        return tuple(tries)
    row = in_pipe.rim_seen
    said = (*((row.look,) if told.turned else ()), row.curl)
    return tuple(
        replace(each, steps=(*said, *each.steps)) if each.technique == TURN else each for each in tries
    )


def _ends(course: Course, signs: frozenset[str], plight: Plight) -> str | None:
    """Why the way ends here, where what holds the head may be what must not be passed; None elsewhere."""
    table = course.study.tables.stuck.may_be_stopper
    if plight.found:
        return course.study.tables.in_pipe.found_before.stop
    if plight.stopper and signs.isdisjoint(table.other):
        return table.stop.format(name=course.study.reader.call(plight.stopper))
    return None


def _not_across(sure: Sequence[Cause]) -> tuple[str, ...]:
    """What is not to be done before the head is out of the arm opposite, where it most likely is."""
    return (TURN, STEADY) if any(cause.name == CROSSED for cause in sure) else ()


def _no_push(
    table: StuckFile, in_pipe: InPipeFile, both_ways: bool, plight: Plight, eased: bool
) -> str | None:
    """Why nothing is to be tried before the head is out or free again; None where something may be."""
    free = table.eased_in.stop if eased else table.free_first.stop
    said = (*over_for(plight, in_pipe), *((free,) if both_ways else ()))
    return " ".join(said) or None


def _warned(course: Course, met: Met | None, signs: frozenset[str]) -> tuple[CautionNote, ...]:
    """The cautions of the site that the signs call for, in its own words."""
    rows = (row for name, row in course.study.tables.stuck.signs.items() if name in signs)
    ids = {each for row in rows if row.warns_at == "anywhere" or met is None for each in row.warns}
    return site_cautions(course.study, ids)


def _planned(
    course: Course, met: Met, seen: HardSpot, told: ToldBySigns, open_now: frozenset[str], signed: bool
) -> tuple[NextTry, ...]:
    """The planner's techniques for this spot that are left: what passed here first, what failed before last,
    most chance for the minutes first. Its chance is by the causes where signs were told (`signed`) or
    something may hold it that another push told of; elsewhere the plan's own.

    The reasons are those of the spot as its rules read it after the signs; its steps are those of before as
    well, so that no caution among them goes.
    """
    drawn, hard = course.study.drawn, met.hard
    notes, before = notes_of(course, met, seen), notes_of(course, met, hard)
    said = [firing for ruling in seen.rulings for firing in ruling.firings]
    found = []
    for technique, attempt in hard.tries.items():
        if technique in NO_TRY or technique == STEADY or technique not in open_now:
            continue
        made = sum(tried.technique == technique for tried in told.here)
        left = max(round(drawn.likely(f"tries, {technique}")) - made, 0)
        note, planned = notes[technique], planned_chance(met, technique, told.weights)
        if "rejected" in (note.verdict, before[technique].verdict):
            continue  # though the signs may point to the few cases of which no rule speaks
        weigh = signed or told.elsewhere
        chance = cured(course, met, technique, told.causes, told.weights) if weigh else planned
        did = technique in seen.passed and planned > 0
        if chance < drawn.likely("worth_trying") and not did:
            if note.verdict != "required" or before[technique].verdict == "required":
                continue
            chance = nan  # only the signs ask for it, of which the plan's chance knows nothing
        if not left:
            continue
        came = seen.came_of(technique)
        # A technique that was rigged for its first try is rigged for the next.
        minutes = attempt.minutes + (0.0 if made else attempt.set_up_minutes)
        # Beside the opening the head is held here: what the plan thought of going elsewhere is no reason.
        because = "" if note.verdict in ("not worth it", "useless") else note.because
        # The plan may not have thought it worth its minutes: how to do it is to be told all the same.
        steps = steps_of(technique, hard, seen) or steps_anywhere(course, technique, said)
        steps = steps_with_rod_in(technique, steps, course.study.tables.stuck)
        # The plan's chance knows nothing of what came of it in a push before this one.
        claimed = nan if came else chance
        weighed = not isnan(chance) and round(100 * chance) != round(100 * planned)
        found.append(
            NextTry(technique, claimed, left, minutes, steps, because, came, bool(told.here), weighed)
        )
    return tuple(sorted(found, key=lambda each: (seen.rank(each.technique), _for_chance(each))))


def _for_chance(each: NextTry) -> float:
    return inf if isnan(each.chance) else each.minutes / each.chance


def _tried_here(seen: HardSpot, met: Met, tries: Sequence[Tried]) -> HardSpot:
    """The spot with what tries at it passed; once something has, what failed there comes last."""
    tries = [tried for tried in tries if tried.spot == met.name]
    passed = seen.passed | {tried.technique for tried in tries if tried.passed}
    failed = seen.failed | ({tried.technique for tried in tries if not tried.passed} if passed else set())
    return replace(seen, passed=frozenset(passed), failed=frozenset(failed - passed))


def _when_to_stop(
    table: StuckFile, tries: Sequence[NextTry], sure: Sequence[Cause], here: Sequence[Tried]
) -> str | None:
    """Why to give this spot up now; None while something is worth a try."""
    if any(cause.name in table.nothing_won for cause in sure):
        return f"Stop here: {sure[0].words}. Nothing is won by pushing."
    if tries:
        return None
    failed = "one try has" if len(here) == 1 else f"{len(here)} tries have"
    done = f"{failed} failed here and n" if here else "N"
    return f"Stop here: {done}othing that may be tried is worth its minutes. Draw back."
