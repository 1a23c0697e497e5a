"""The answers of a file put over those that a job has already: the file's hold, all others stay given."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.interview.answers import Answer
from advisor.interview.dialogue import Session
from advisor.interview.question import GAS, GAS_CLEARED
from advisor.interview.sheets import Answers
from advisor.interview.store import AnswersFile, checked
from advisor.strict_yaml import Sheet


@dataclass(frozen=True)
class Merged:
    """All answers that hold now; each earlier one that the file changed, as it was and is; and the earlier
    ones that nothing on the drain is left for."""

    answers: Answers
    replaced: tuple[tuple[Answer, Answer], ...]
    lost: Answers


def merged(sheet: Sheet[AnswersFile], earlier: Answers, session: Session) -> Merged:
    """The answers of the file over the `earlier`; raises BadInput with every fault of the file."""
    if any(row.question == GAS for row in sheet.model.answers):
        # A smell that is told anew is not the one that was told safe.
        earlier = tuple(answer for answer in earlier if answer.question != GAS_CLEARED)
    found = {(a.question, a.about): a for a in checked(sheet, session, earlier)}
    had = {(a.question, a.about): a for a in earlier}
    return Merged(
        tuple(found[key] for key in dict.fromkeys((*had, *found)) if key in found),
        tuple((was, found[key]) for key, was in had.items() if key in found and found[key] != was),
        tuple(was for key, was in had.items() if key not in found),
    )
