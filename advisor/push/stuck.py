"""The head goes no further: the likely cause, what to try next, when to stop, and how to get out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import inf, isnan, nan

from advisor.outcome.attempts import CLEANED, NO_TRY, STEADY, TURN
from advisor.outcome.walk import HardSpot
from advisor.push.after_signs import after_signs
from advisor.push.causes import Cause, causes_of
from advisor.push.chart import Array
from advisor.push.course import Course, Met
from advisor.push.cured import cured, planned_chance
from advisor.push.drains import water_allowed
from advisor.push.evidence import Tried, weights_of
from advisor.push.freeing import WATER, barred_behind, forbidden_at, free_to_turn, harmful
from advisor.push.gently import blows_last, blows_that_harm, first_steps, held_both_ways
from advisor.push.not_wet import barred_wet, drain_first
from advisor.push.plight import NOTHING, Plight, over_for
from advisor.push.tries import NextTry, steps_with_rod_in
from advisor.push.unforeseen import firings_there, forbidden_there, steps_anywhere, usual_tries
from advisor.push.warned import site_cautions
from advisor.push.way_out import WayOut, way_out
from advisor.result.model import CautionNote, TechniqueNote
from advisor.result.spots import passage_note, steps_of
from advisor.site.network import Piece
from advisor.tables.in_the_pipe import InPipeFile
from advisor.tables.stuck import StuckFile
from advisor.tables.where import number

CROSSED, FAR_WALL, RIM = "crossed over", "far wall", "rim"  # causes of rules/signs/stuck.yaml
_NAMED = 3  # layout: how many causes are told where none is likely


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
    over: bool  # the push is, for its gear: rod or spring kinked, or a machine ran beside it
    by_rim: bool  # a rim was seen and likely holds it, and no roots were seen there

    @property
    def no_push(self) -> bool:
        """Whether no push onward and no try is to be made, whatever holds it."""
        return self.both_ways or self.over

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
    weights = weights_of(course, tries)
    lying = tuple((name, chance * (1 - plight.across)) for name, chance in plight.elsewhere)
    if plight.across:
        lying = (*lying, (CROSSED, plight.across))
    without = (FAR_WALL,) if plight.no_wall else ()
    here = [tried for tried in tries if not tried.passed and tried.spot == (met.name if met else "")]
    failed = () if plight.out else here
    causes = causes_of(course, met, signs, weights, plight.out, lying, plight.near, without, failed)
    sure = [cause for cause in causes if cause.chance >= number(table.tell.likely)]
    named = tuple(sure) or tuple(cause for cause in causes if cause.drawn)[:_NAMED]
    open_now, against = _allowed(course, [cause.trouble for cause in sure])
    chances = {cause.trouble: cause.chance for cause in causes}
    rim = in_pipe.rim_seen
    at_rim = not signs.isdisjoint(rim.signs)
    by_rim = at_rim and not plight.out and signs.isdisjoint(rim.cut)
    by_rim = by_rim and any(cause.name == RIM for cause in sure)
    clean = by_rim and signs.isdisjoint(rim.hides)
    turned = free_to_turn((*may_be, *plight.through), plight, course.study) if clean else ()
    if met:
        seen = after_signs(met.hard, chances, course.study)
        forbidden = _forbidden(course, met, seen)
    else:
        firings = firings_there(course, where, chances, at)
        forbidden = (
            *forbidden_there(course, firings, named[0].trouble),
            *forbidden_at(may_be, course.study, turned, table.causes[RIM].trouble if clean else None),
        )
        if not sure and signs.isdisjoint(table.cleaned.signs):
            forbidden = (*forbidden, (CLEANED, table.cleaned.why))
    if at_rim and signs.isdisjoint(rim.cut):
        forbidden = ((CLEANED, rim.no_machine), *forbidden)
    wedged = {tried.technique for tried in here if tried.wedged} | (met.hard.wedged if met else set())
    forbidden = (*forbidden, *((each, in_pipe.wedged_before.here) for each in sorted(wedged)))
    forbidden = (*forbidden, *barred_behind(plight, course.study, turned))
    forbidden = (*forbidden, *blows_that_harm(table, signs, chances, course.study.base.matrix))
    given = course.study.circumstances
    water = water_allowed(given, plight.drains)
    wet = barred_wet(signs, plight, course.study)
    if wet:
        forbidden, water = (*forbidden, *wet), None if water else water
    # What a rule forbids is told with the rule's reason, and before what would only do no good.
    barred = dict(reversed(forbidden))
    forbidden = tuple((name, barred[name]) for name in dict(forbidden))
    against = (*forbidden, *(each for each in against if each[0] not in barred))
    both_ways = plight.out or held_both_ways(table, signs)
    spots = (met, replace(met, hard=seen)) if met else may_be
    eased = plight.out and not signs.isdisjoint(table.eased_in.signs)
    eased = eased and bool(sure) and all(cause.name in table.eased_in.causes for cause in sure)
    harm = harmful(named, both_ways and not eased, plight, course.study, spots)
    if WATER in harm:  # the way out of this very stop forbids it
        against = (*against, *(((WATER, harm[WATER]),) if WATER not in dict(against) else ()))
        open_now = open_now.difference({WATER})
    open_now = open_now.difference(barred)
    if met:
        seen = _tried_here(seen, [tried for tried in tries if tried.spot == met.name])
        by = causes if signs or lying else ()  # where nothing was told, the plan's own chance stands
        next_tries = _planned(course, met, seen, here, weights, open_now, by)
    else:
        next_tries = usual_tries(course, here, open_now, named[0].trouble, firings)
    if clean:
        said = (*((rim.look,) if turned else ()), rim.curl)
        next_tries = tuple(
            replace(each, steps=(*said, *each.steps)) if each.technique == TURN else each
            for each in next_tries
        )
    next_tries = blows_last(table, signs, drain_first(next_tries, wet, in_pipe))
    no_push = both_ways or plight.kinked or plight.beside
    unseen = signs.isdisjoint(table.may_be_stopper.other)
    in_it = plight.stopper if unseen else None  # what holds it may be what must not be passed
    ends = table.may_be_stopper.stop.format(name=course.study.reader.call(in_it)) if in_it else None
    ends = in_pipe.found_before.stop if plight.found else ends
    folded = any(cause.name == "folded back" for cause in sure)
    return Stuck(
        met.name if met else "",
        causes,
        named,
        ()
        if no_push or ends
        else first_steps(
            table, signs, [cause.name for cause in sure], {*harm, *dict(against), *_not_across(sure)}, at
        ),
        () if no_push or ends else next_tries,
        against,
        _no_push(table, in_pipe, both_ways, plight, eased and STEADY not in harm)
        or ends
        or _when_to_stop(table, next_tries, sure, here),
        way_out(course, met, at, water, harm, folded, plight.kinked),
        _warned(course, met, signs),
        both_ways,
        plight.kinked or plight.beside,
        by_rim,
    )


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


def _allowed(course: Course, troubles: Sequence[str]) -> tuple[frozenset[str], tuple[tuple[str, str], ...]]:
    """Techniques that none of the likely causes forbids, and those that one does with the reason."""
    matrix = course.study.base.matrix
    against = []
    for technique in matrix.techniques:
        cells = [matrix.cells[technique, trouble] for trouble in troubles]
        why = next((cell.why for cell in cells if not cell.allowed), None)
        if why is not None:
            against.append((technique, why))
    barred = {technique for technique, _ in against}
    return frozenset(set(matrix.techniques) - barred), tuple(against)


def _notes(course: Course, met: Met, hard: HardSpot) -> dict[str, TechniqueNote]:
    return {note.name: note for note in passage_note(hard, met.outcome, course.study.reader).techniques}


def _forbidden(course: Course, met: Met, seen: HardSpot) -> tuple[tuple[str, str], ...]:
    """Techniques that a rule forbids only once the signs are seen, with the reason."""
    before = _notes(course, met, met.hard)
    return tuple(
        (name, note.because)
        for name, note in _notes(course, met, seen).items()
        if note.verdict == "rejected" and before[name].verdict != "rejected"
    )


def _planned(
    course: Course,
    met: Met,
    seen: HardSpot,
    here: Sequence[Tried],
    weights: Array,
    open_now: frozenset[str],
    causes: Sequence[Cause],
) -> tuple[NextTry, ...]:
    """The planner's techniques for this spot that are left: what passed here first, what failed before last,
    most chance for the minutes first. Its chance is by the `causes`; where none is told, the plan's own.

    The reasons are those of the spot as its rules read it after the signs; its steps are those of before as
    well, so that no caution among them goes.
    """
    drawn, hard = course.study.drawn, met.hard
    notes, before = _notes(course, met, seen), _notes(course, met, hard)
    said = [firing for ruling in seen.rulings for firing in ruling.firings]
    found = []
    for technique, attempt in hard.tries.items():
        if technique in NO_TRY or technique == STEADY or technique not in open_now:
            continue
        made = sum(tried.technique == technique for tried in here)
        left = max(round(drawn.likely(f"tries, {technique}")) - made, 0)
        note, planned = notes[technique], planned_chance(met, technique, weights)
        if "rejected" in (note.verdict, before[technique].verdict):
            continue  # though the signs may point to the few cases of which no rule speaks
        chance = cured(course, met, technique, causes, weights) if causes else planned
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
        found.append(NextTry(technique, claimed, left, minutes, steps, because, came, bool(here), weighed))
    return tuple(sorted(found, key=lambda each: (seen.rank(each.technique), _for_chance(each))))


def _for_chance(each: NextTry) -> float:
    return inf if isnan(each.chance) else each.minutes / each.chance


def _tried_here(seen: HardSpot, tries: Sequence[Tried]) -> HardSpot:
    """The spot with what these tries passed; once something has, what failed of them comes last."""
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
