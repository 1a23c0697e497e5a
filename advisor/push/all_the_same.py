"""What was tried against the advice: what it may have cost, told at once."""

from __future__ import annotations

from advisor.push.course import Course
from advisor.push.stuck import Stuck
from advisor.result.spots import cautions_of

_TOLD = 0.005  # layout: a smaller share would read "0 %"


def all_the_same(course: Course, found: Stuck, technique: str, hard: bool) -> str | None:
    """The remark on a try that was made though it was told not to; None where nothing spoke against it."""
    row = course.study.tables.stuck.tried_against
    against = dict(found.not_now)
    said = []
    if hard and found.stop:
        said.append(hard_all_the_same(course, found, technique))
    elif technique in against:
        said.append(row.barred.format(technique=technique, why=against[technique]))
    elif hard:
        given = {note.id for note in cautions_of(course.study.site_firings)}
        said += [words for caution, words in row.no_hard_push.items() if caution in given]
    return " ".join((*said, row.look)) if said else None


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
