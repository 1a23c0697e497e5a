"""What may not be tried at a head that is held, with the reason: by rules, signs, its rod or water."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.outcome.attempts import CLEANED
from advisor.outcome.walk import HardSpot
from advisor.push.held.freeing import barred_behind, forbidden_at
from advisor.push.held.gently import blows_that_harm
from advisor.push.held.told_by_signs import RIM, ToldBySigns
from advisor.push.held.unforeseen import forbidden_there
from advisor.push.now.course import Course, Met
from advisor.push.now.plight import Plight
from advisor.result.model import TechniqueNote
from advisor.result.spots import passage_note
from advisor.rulebase.trace import Firing


def barred_here(
    course: Course,
    at: tuple[Met, HardSpot] | None,
    firings: Sequence[Firing],
    signs: frozenset[str],
    told: ToldBySigns,
    plight: Plight,
    may_be: Sequence[Met],
    wet: Sequence[tuple[str, str]],
) -> dict[str, str]:
    """Techniques that may not be tried, each with the first reason there is.

    `at` is the hard spot that is met with how its rules read it after the signs; where none is, the
    `firings` of the pipe say it. `wet` is what would run water where none may be run.
    """
    table, in_pipe = course.study.tables.stuck, course.study.tables.in_pipe
    if at:
        met, seen = at
        reasons = _only_after_the_signs(course, met, seen)
    else:
        clean = table.causes[RIM].trouble if told.clean else None
        reasons = (
            *forbidden_there(course, firings, told.named[0].trouble),
            *forbidden_at(may_be, course.study, told.turned, clean),
        )
        if not told.sure and signs.isdisjoint(table.cleaned.signs):
            reasons = (*reasons, (CLEANED, table.cleaned.why))
    if told.at_rim and signs.isdisjoint(in_pipe.rim_seen.cut):
        reasons = ((CLEANED, in_pipe.rim_seen.no_machine), *reasons)
    wedged = told.wedged | (at[0].hard.wedged if at else set())
    reasons = (
        *reasons,
        *((each, in_pipe.wedged_before.here) for each in sorted(wedged)),
        *barred_behind(plight, course.study, told.turned),
        *blows_that_harm(table, signs, told.chances, course.study.base.matrix),
        *wet,
    )
    first: dict[str, str] = {}
    for technique, why in reasons:
        first.setdefault(technique, why)
    return first


def no_cure(course: Course, troubles: Sequence[str]) -> dict[str, str]:
    """Techniques that the matrix does not allow for one of these troubles, with its reason."""
    found: dict[str, str] = {}
    for technique in course.study.base.matrix.techniques:
        for trouble in troubles:
            cell = course.study.base.matrix.cells[technique, trouble]
            if not cell.allowed:
                found.setdefault(technique, cell.why)
    return found


def notes_of(course: Course, met: Met, hard: HardSpot) -> dict[str, TechniqueNote]:
    """What rules say of each technique at a hard spot as they read it."""
    return {note.name: note for note in passage_note(hard, met.outcome, course.study.reader).techniques}


def _only_after_the_signs(course: Course, met: Met, seen: HardSpot) -> tuple[tuple[str, str], ...]:
    """Techniques that a rule forbids only once the signs are seen, with the reason."""
    before = notes_of(course, met, met.hard)
    return tuple(
        (name, note.because)
        for name, note in notes_of(course, met, seen).items()
        if note.verdict == "rejected" and before[name].verdict != "rejected"
    )
