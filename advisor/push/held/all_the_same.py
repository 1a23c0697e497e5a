"""What was tried against the advice: what it may have cost, told at once."""

from __future__ import annotations

from advisor.outcome.attempts import STEADY, called
from advisor.push.held.stuck import Stuck
from advisor.push.now.course import Course
from advisor.push.now.plight import Plight
from advisor.result.spots import cautions_of
from advisor.result.study import Study
from advisor.tables.where import number

WATER = "water"
NO_WATER = "none"  # as it is told of a try
_TOLD = 0.005  # layout: a smaller share would read "0 %"


def all_the_same(
    course: Course, found: Stuck, technique: str, hard: bool, water: bool = False, over: bool = False
) -> str | None:
    """The remark on a try that was made though it was told not to; None where nothing spoke against it.

    `water` is whether it ran while that was tried, `over` whether nothing is pushed on after it.
    """
    row = course.study.tables.stuck.tried_against
    against = dict(found.not_now)
    said = []
    if hard and found.stop:
        said.append(hard_all_the_same(course, found, technique))
    elif technique in against:
        said.append(row.barred.format(technique=called(technique), why=against[technique]))
    elif hard and found.first:
        said.append(row.hard.format(why=_why(course, found, technique)))
    elif technique == STEADY and _no_further(course, found):
        said.append(row.on.format(why=found.told.why))
    elif hard:
        given = {note.id for note in cautions_of(course.study.site_firings)}
        said += [words for caution, words in row.no_hard_push.items() if caution in given]
    if water and technique != WATER and WATER in against:
        said.append(row.barred.format(technique=WATER, why=against[WATER]))
    look = (row.out,) if over else (row.look, row.out)
    return " ".join((*said, *look)) if said else None


def ran_unseen(study: Study, plight: Plight, water: object) -> str | None:
    """The remark on `water` that ran with a try, where the line was first to be seen to drain."""
    if not plight.still_look or water in (None, NO_WATER):
        return None
    return study.tables.in_pipe.drained_before.ran_all_the_same.format(look_into=study.look_into)


def _no_further(course: Course, found: Stuck) -> bool:
    """Whether it was told to stop there and then: at what likely holds it any more push does harm."""
    table = course.study.tables.stuck
    likely = number(table.tell.likely)
    return any(cause.name in table.met_again.not_past and cause.chance >= likely for cause in found.named)


def _why(course: Course, found: Stuck, technique: str) -> str:
    cell = course.study.base.matrix.cells[technique, found.told.trouble]
    return found.told.why if cell.allowed else cell.why


def hard_all_the_same(course: Course, found: Stuck, technique: str) -> str:
    """What a hard try risks by the book where the advice was to stop, in a line."""
    line = f"Pushed hard where it said stop. {_why(course, found, technique)}"
    met = next((each for each in course.spots if each.name == found.spot), None)
    if met is None or technique not in met.hard.tries:
        return line
    lost = float(met.hard.tries[technique].lost.mean())
    # Where the plan works out no harm, a figure of nought would make light of it.
    return (
        line if lost < _TOLD else f"{line} By the book {lost:.0%} of the tries that fail there wedge or kink."
    )
