"""The head goes no further: the likely cause, what to try next, when to stop, and how to get out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from advisor.outcome.attempts import NO_TRY, STEADY
from advisor.outcome.held import held_by
from advisor.push.chart import Array
from advisor.push.course import Course, Met, mean
from advisor.push.evidence import Tried, weights_of
from advisor.push.way_out import WayOut, way_out
from advisor.result.model import CautionNote
from advisor.result.spots import cautions_of, passage_note
from advisor.tables.stuck import CauseRow
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
class NextTry:
    """A technique that is worth a try, its chance now, and the tries that are left."""

    technique: str
    chance: float
    left: int
    minutes: float
    steps: tuple[str, ...]
    because: str


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

    @property
    def told(self) -> Cause:
        """The likeliest cause."""
        return self.causes[0]


def stuck(course: Course, met: Met | None, signs: frozenset[str], tries: Sequence[Tried], at: float) -> Stuck:
    """What to say where the head stands at a hard spot (or where none was foreseen), `at` m from the hand.

    `signs` are names of rules/signs/stuck.yaml that are seen or felt; what is not among them counts for
    little, for nobody tells everything. The causes' chances before the signs are the planner's at that
    spot, over the worlds that the tries so far leave.
    """
    table = course.study.tables.stuck
    weights = weights_of(course, tries)
    causes = causes_of(course, met, signs, weights)
    sure = [cause for cause in causes if cause.chance >= number(table.tell.likely)]
    here = [tried for tried in tries if not tried.passed and tried.spot == (met.name if met else "")]
    open_now, against = _allowed(course, [cause.trouble for cause in sure])
    next_tries = (
        _planned(course, met, here, weights, open_now) if met else _usual(course, here, open_now, causes)
    )
    first = tuple(step for cause in sure for step in table.first.get(cause.name, ()))
    return Stuck(
        met.name if met else "",
        causes,
        first,
        next_tries,
        against,
        _when_to_stop(next_tries, sure, here),
        way_out(course, met, at, any(cause.name == "folded back" for cause in sure)),
        _warned(course, met, signs),
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
            # What is not told may have gone unnoticed: half of what is there is.
            likely *= given if sign in signs else 1 - given / 2
        found[name] = _before(row, met, weights), likely
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


def _before(row: CauseRow, met: Met | None, weights: Array) -> float:
    """The chance of a cause before the signs: the planner's at this spot where it works it out."""
    usual = number(row.usual)
    if met is None or row.planned is None:
        return usual
    spot = met.hard.spot
    short = met.outcome.march.reach < spot.station.at
    worked = held_by(spot, short)[row.planned]
    # Of the cases in which it is held at all; a tenth of what is usual stays open, for the plan may be wrong.
    held = mean(1 - spot.plain.passes * (1 - short), weights)
    return max(mean(worked, weights) / max(held, _LEAST), usual / 10, _LEAST)


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


def _planned(
    course: Course, met: Met, here: Sequence[Tried], weights: Array, open_now: frozenset[str]
) -> tuple[NextTry, ...]:
    """The planner's techniques for this spot that are left, most chance for the minutes first."""
    drawn, hard = course.study.drawn, met.hard
    notes = {note.name: note for note in passage_note(hard, met.outcome, course.study.reader).techniques}
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
        because = "" if note.verdict == "not worth it" else note.because
        found.append(NextTry(technique, chance, left, minutes, note.steps, because))
    return tuple(sorted(found, key=lambda each: each.minutes / each.chance))


def _usual(
    course: Course, here: Sequence[Tried], open_now: frozenset[str], causes: Sequence[Cause]
) -> tuple[NextTry, ...]:
    """Where nothing was foreseen: what the likeliest cause allows, cheapest first; no chance is claimed."""
    limits, costs = course.study.tables.limits, course.study.tables.costs
    cells = course.study.base.matrix.cells
    found = []
    for technique in sorted(open_now):
        if technique in NO_TRY or technique == STEADY or not cells[technique, causes[0].trouble].allowed:
            continue
        made = sum(tried.technique == technique for tried in here)
        left = max(round(limits[f"tries, {technique}"].likely) - made, 0)
        minutes = costs[f"try, {technique}"].likely
        if not made and f"set up, {technique}" in costs:
            minutes += costs[f"set up, {technique}"].likely
        if left:
            why = cells[technique, causes[0].trouble].why
            found.append(NextTry(technique, float("nan"), left, minutes, _steps(course, technique), why))
    return tuple(sorted(found, key=lambda each: each.minutes))


def _steps(course: Course, technique: str) -> tuple[str, ...]:
    """The steps of a technique that hold anywhere: those without a number of the place in them."""
    for rule in course.study.base.by_stratum["technique"]:
        steps = rule.conclusion.steps.get(technique, ())
        if steps and not any("{" in step for step in steps):
            return steps
    return ()


def _when_to_stop(tries: Sequence[NextTry], sure: Sequence[Cause], here: Sequence[Tried]) -> str | None:
    """Why to give this spot up now; None while something is worth a try."""
    if any(cause.name in ("stopper", "build-up", "standing water") for cause in sure):
        return f"Stop here: {sure[0].words}. Nothing is won by pushing."
    if tries:
        return None
    failed = "one try has" if len(here) == 1 else f"{len(here)} tries have"
    done = f"{failed} failed here and n" if here else "N"
    return f"Stop here: {done}othing that is left is worth its minutes. Draw back."
