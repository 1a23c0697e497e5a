"""The head goes no further: the likely cause, what to try next, when to stop, and how to get out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from advisor.outcome.attempts import NO_TRY, STEADY
from advisor.outcome.held import held_by
from advisor.outcome.walk import HardSpot
from advisor.push.after_signs import after_signs
from advisor.push.chart import Array
from advisor.push.course import Course, Met, mean
from advisor.push.drains import holds_water, water_allowed
from advisor.push.evidence import Tried, weights_of
from advisor.push.gently import blows_last, blows_that_harm, gentle_steps, held_both_ways
from advisor.push.tries import NextTry
from advisor.push.unforeseen import forbidden_there, steps_anywhere, usual_tries
from advisor.push.way_out import WayOut, way_out
from advisor.result.model import CautionNote, TechniqueNote
from advisor.result.spots import cautions_of, passage_note, steps_of
from advisor.site.network import Piece
from advisor.tables.stuck import CauseRow, StuckFile
from advisor.tables.where import number

_TOLD = 0.005  # layout: a smaller share would read "0 %"
_LEAST = 1e-3  # arithmetic: keeps a cause that the plan holds to be impossible open to what is seen


@dataclass(frozen=True)
class Cause:
    """What may hold the head, and how likely after the signs."""

    name: str
    words: str
    why: str
    trouble: str
    chance: float


@dataclass(frozen=True)
class Stuck:
    """Everything to say of a head that is held."""

    spot: str
    causes: tuple[Cause, ...]
    first: tuple[str, ...]
    tries: tuple[NextTry, ...]
    not_now: tuple[tuple[str, str], ...]  # technique, why it makes the likely cause worse
    stop: str | None
    out: WayOut
    cautions: tuple[CautionNote, ...]  # what an object before the lens may be
    both_ways: bool  # held both ways: how to get it out comes first

    @property
    def told(self) -> Cause:
        """The likeliest cause."""
        return self.causes[0]


def stuck(
    course: Course,
    met: Met | None,
    signs: frozenset[str],
    tries: Sequence[Tried],
    at: float,
    where: Sequence[Piece],
    drains: bool | None = None,
) -> Stuck:
    """What to say where the head stands at a hard spot (or where none was foreseen), `at` m from the hand.

    `signs` are names of rules/signs/stuck.yaml that are seen or felt; what is not among them counts for
    little, for nobody tells everything. The causes' chances before the signs are the planner's at that
    spot, over the worlds that the tries so far leave. `where` are the pipes in which the head may be.
    `drains` is what this push has shown of the line: it runs away, it stands, or nothing.
    """
    table = course.study.tables.stuck
    weights = weights_of(course, tries)
    causes = causes_of(course, met, signs, weights)
    sure = [cause for cause in causes if cause.chance >= number(table.tell.likely)]
    here = [tried for tried in tries if not tried.passed and tried.spot == (met.name if met else "")]
    open_now, against = _allowed(course, [cause.trouble for cause in sure])
    chances = {cause.trouble: cause.chance for cause in causes}
    if met:
        seen = after_signs(met.hard, chances, course.study)
        forbidden = _forbidden(course, met, seen)
    else:
        forbidden = forbidden_there(course, where, chances, causes[0].trouble)
    forbidden = (*forbidden, *blows_that_harm(table, signs, chances, course.study.base.matrix))
    water = water_allowed(course.study.circumstances, drains)
    if holds_water(signs, table) and drains is not True:
        forbidden, water = (*forbidden, ("water", table.water_held)), None if water else water
    # What a rule forbids is told with the rule's reason, and before what would only do no good.
    barred = dict(forbidden)
    against = (*forbidden, *(each for each in against if each[0] not in barred))
    open_now = open_now.difference(barred)
    if met:
        next_tries = _planned(course, met, seen, here, weights, open_now)
    else:
        next_tries = usual_tries(course, here, open_now, causes[0].trouble)
    next_tries = blows_last(table, signs, next_tries)
    first = gentle_steps(table, signs, dict(against))
    first += tuple(step for cause in sure for step in table.first.get(cause.name, ()))
    both_ways = held_both_ways(table, signs)
    stop = table.free_first.stop if both_ways else _when_to_stop(table, next_tries, sure, here)
    return Stuck(
        met.name if met else "",
        causes,
        () if both_ways else first,
        next_tries,
        against,
        stop,
        way_out(course, met, at, any(cause.name == "folded back" for cause in sure), water),
        _warned(course, met, signs),
        both_ways,
    )


def hard_all_the_same(course: Course, found: Stuck, technique: str) -> str:
    """What a hard try risks by the book where the advice was to stop, in a line."""
    cell = course.study.base.matrix.cells[technique, found.told.trouble]
    line = f"Pushed hard where it said stop. {found.told.why if cell.allowed else cell.why}"
    met = next((each for each in course.spots if each.name == found.spot), None)
    if met is None or technique not in met.hard.tries:
        return line
    lost = float(met.hard.tries[technique].lost.mean())
    # Where the plan works out no harm, a figure of nought would make light of it.
    return (
        line if lost < _TOLD else f"{line} By the book {lost:.0%} of the tries that fail there wedge or kink."
    )


def _warned(course: Course, met: Met | None, signs: frozenset[str]) -> tuple[CautionNote, ...]:
    """The cautions of the site that the signs call for, in its own words."""
    rows = (row for name, row in course.study.tables.stuck.signs.items() if name in signs)
    ids = {each for row in rows if row.warns_at == "anywhere" or met is None for each in row.warns}
    return tuple(note for note in cautions_of(course.study.site_firings) if note.id in ids)


def causes_of(course: Course, met: Met | None, signs: frozenset[str], weights: Array) -> tuple[Cause, ...]:
    """Every cause with its chance after the signs, likeliest first (Bayes, signs taken as independent)."""
    table = course.study.tables.stuck
    chances = {
        name: before * likely for name, (before, likely) in _weighed(course, met, signs, weights).items()
    }
    total = sum(chances.values())
    found = (
        Cause(
            name, table.causes[name].words, table.causes[name].why, table.causes[name].trouble, each / total
        )
        for name, each in chances.items()
    )
    return tuple(sorted(found, key=lambda cause: -cause.chance))


def _weighed(
    course: Course, met: Met | None, signs: frozenset[str], weights: Array
) -> dict[str, tuple[float, float]]:
    """For each cause its chance before the signs, and how likely these signs are given it."""
    table = course.study.tables.stuck
    found = {}
    for name, row in table.causes.items():
        likely = 1.0
        for sign, of_sign in table.signs.items():
            given = number(row.signs.get(sign, of_sign.unseen))
            if sign in signs:
                likely *= given
            elif of_sign.of is None:
                # What is not told may have gone unnoticed: half of what is there is.
                likely *= 1 - given / 2
        found[name] = _before(row, met, weights, number(table.tell.open)), likely
    return found


def spot_told(
    course: Course, shares: Sequence[tuple[Met, float]], signs: frozenset[str], tries: Sequence[Tried]
) -> Met | None:
    """The hard spot that holds the head, by where it stands and by how well the signs fit what holds there.

    None where it is more likely held elsewhere.
    """
    weights = weights_of(course, tries)

    def fits(met: Met | None) -> float:
        each = _weighed(course, met, signs, weights).values()
        return sum(before * likely for before, likely in each) / sum(before for before, _ in each)

    elsewhere = max(1 - sum(share for _, share in shares), 0.0) * fits(None)
    told = [(share * fits(met), met) for met, share in shares if share > 0]
    best, met = max(told, key=lambda each: each[0], default=(0.0, None))
    return met if best > elsewhere + sum(each for each, _ in told) - best else None


def _before(row: CauseRow, met: Met | None, weights: Array, left_open: float) -> float:
    """The chance of a cause before the signs: the planner's at this spot where it works it out.

    That share of what is usual is `left_open` all the same, for the plan may be wrong.
    """
    usual = number(row.usual)
    if met is None or row.planned is None:
        return usual
    spot = met.hard.spot
    short = met.outcome.march.reach < spot.station.at
    worked = held_by(spot, short)[row.planned]
    # Of the cases in which it is held at all.
    held = mean(1 - spot.plain.passes * (1 - short), weights)
    return max(mean(worked, weights) / max(held, _LEAST), usual * left_open, _LEAST)


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
) -> tuple[NextTry, ...]:
    """The planner's techniques for this spot that are left, most chance for the minutes first.

    The reasons are those of the spot as its rules read it after the signs; its steps are those of before as
    well, so that no caution among them goes.
    """
    drawn, hard = course.study.drawn, met.hard
    notes = _notes(course, met, seen)
    found = []
    for technique, attempt in hard.tries.items():
        if technique in NO_TRY or technique == STEADY or technique not in open_now:
            continue
        made = sum(tried.technique == technique for tried in here)
        left = max(round(drawn.likely(f"tries, {technique}")) - made, 0)
        chance = mean(hard.chance(technique), weights)
        if not left or chance < drawn.likely("worth_trying"):
            continue
        # A technique that was rigged for its first try is rigged for the next.
        minutes = attempt.minutes + (0.0 if made else attempt.set_up_minutes)
        note = notes[technique]
        # Beside the opening the head is held here: what the plan thought of going elsewhere is no reason.
        because = "" if note.verdict in ("not worth it", "useless") else note.because
        # The plan may not have thought it worth its minutes: how to do it is to be told all the same.
        steps = steps_of(technique, hard, seen) or steps_anywhere(course, technique)
        found.append(NextTry(technique, chance, left, minutes, steps, because))
    return tuple(sorted(found, key=lambda each: each.minutes / each.chance))


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
