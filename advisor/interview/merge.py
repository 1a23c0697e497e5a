"""The answers of a file put over those that a job has already: the file's hold, all others stay given."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.errors import BadInput
from advisor.interview.answers import Answer
from advisor.interview.dialogue import Session
from advisor.interview.sheets import Answers
from advisor.interview.store import AnswersFile, checked, values_of, with_answer
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
    given = checked(sheet, session, earlier)
    by_key = {(a.question, a.about): a for a in given}
    order = {question.id: i for i, question in enumerate(session.known.questions.all)}
    found, lost = given, []
    stays = [a for a in earlier if (a.question, a.about) not in by_key]
    for answer in sorted(stays, key=lambda a: order.get(a.question, len(order))):
        now = with_answer(found, answer) if _fits(answer, found, session) else found
        if now is found:
            lost.append(answer)
        found = now
    first = dict.fromkeys((a.question, a.about) for a in (*earlier, *given))
    place = {key: number for number, key in enumerate(first)}
    replaced = [(a, by_key[a.question, a.about]) for a in earlier if (a.question, a.about) in by_key]
    return Merged(
        tuple(sorted(found, key=lambda a: place[a.question, a.about])),
        tuple((was, now) for was, now in replaced if was.values != now.values),
        tuple(lost),
    )


def _fits(answer: Answer, found: Answers, session: Session) -> bool:
    """Whether it can still be given beside the answers found so far."""
    if answer.question not in session.known.questions.by_id:
        return False
    try:
        ask = session.ask(found, answer.question, answer.about)
        session.sheets.drain(with_answer(found, answer))
    except BadInput:
        return False
    return ask is not None and values_of(ask, answer.values)[1] is None
