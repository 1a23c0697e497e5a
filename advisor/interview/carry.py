"""What of a session still holds once it is gone on with, or once its sheet was edited by hand.

What stands on the sheet holds. An answer stays given, so that it can be changed, where the hand left alone
what it put on the sheet; so does one that left nothing on it ("none of them", don't know) or is newer, where
the sheet does not say otherwise by now.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from advisor.errors import BadInput
from advisor.interview.answers import NONE, Answer
from advisor.interview.dialogue import Session
from advisor.interview.lift import lifted
from advisor.interview.sheets import Answers
from advisor.interview.store import Kept, values_of, with_answer, with_earlier
from advisor.interview.subject import JOB
from advisor.interview.told import entry, still_open
from advisor.strict_yaml import plain


@dataclass(frozen=True)
class Carried:
    """The answers that still hold on top of the `sheet`, and those that were given and do not fit any more.

    `on_sheet` are those that stand on the sheet as it was edited; of the others only what was given since it
    was made can be lost.
    """

    answers: Answers
    lost: Answers
    sheet: str | None = None
    on_sheet: Answers = ()


def still_right(answers: Answers, session: Session) -> Carried:
    """What a session that is gone on with keeps of its own answers, in the order in which they were given.

    A question may have changed since; an answer that does not fit it may not lose all the others.
    """
    order = _order(session)
    found: Answers = ()
    given: dict[tuple[str, str], int] = {}
    lost: list[Answer] = []
    for number, answer in sorted(enumerate(answers), key=lambda a: order.get(a[1].question, len(order))):
        now = with_earlier(found, answer, session)
        if len(now) == len(found):
            lost.append(answer)
            continue
        given[now[-1].question, now[-1].about] = number
        found = now
    return Carried(tuple(sorted(found, key=lambda a: given[a.question, a.about])), tuple(lost))


def carried(kept: Kept, session: Session) -> Carried:
    """What is carried over from `kept` to a session that continues from the edited sheet."""
    before = Session(replace(session.known, sheet=kept.sheet))
    start = {question.id for question in session.known.questions.block("start")}
    order = _order(session)
    written = tuple(answer for answer in _known(kept.answers, session) if answer in kept.written)
    session, on_sheet = lifted(written, before, session)
    found, lost = on_sheet, list[Answer]()
    for answer in sorted(kept.answers, key=lambda a: order.get(a.question, len(order))):
        newer = answer not in kept.written
        if answer in on_sheet:
            continue
        if not newer and (answer.question in start or (answer.known and answer.values != (NONE,))):
            continue  # it went onto the sheet, and what stands there now holds
        if (
            answer.question not in start
            and answer.question in order
            and _fits(answer, newer, found, kept, before, session)
        ):
            found = with_answer(found, answer)
        elif newer:
            lost.append(answer)
    given = {(a.question, a.about): number for number, a in enumerate(kept.answers)}
    answers = tuple(sorted(found, key=lambda a: given[a.question, a.about]))
    return Carried(answers, tuple(lost), session.known.sheet, on_sheet)


def _order(session: Session) -> dict[str, int]:
    """The order in which answers hang on each other: what draws the house before what is asked of it."""
    questions = sorted(session.known.questions.all, key=lambda q: (q.block != "start", not q.branch))
    return {question.id: number for number, question in enumerate(questions)}


def _fits(answer: Answer, newer: bool, found: Answers, kept: Kept, before: Session, session: Session) -> bool:
    """Whether the edited sheet leaves the question open, or says there what it said when it was made."""
    drain = session.sheets.drain(found)
    ask = session.ask(found, answer.question, answer.about)
    if drain is None or ask is None or values_of(ask, answer.values)[1] is not None:
        return False
    if not still_open(ask.question, ask.subject, drain):
        untouched = _entries(answer, _known(kept.written, session), before) == _entries(
            answer, found, session
        )
        if not (newer and ask.subject is JOB and untouched):
            return False
    try:
        session.sheets.drain(with_answer(found, answer))
    except BadInput:
        return False
    return True


def _known(answers: Answers, session: Session) -> Answers:
    return tuple(answer for answer in answers if answer.question in session.known.questions.by_id)


def _entries(answer: Answer, answers: Answers, session: Session) -> list[Any]:
    """What a sheet says in the places that an answer goes to."""
    drain = session.sheets.drain(answers)
    tree = plain(drain.sheet.tree) if drain is not None else {}
    return [entry(tree, place) for place in session.known.questions.by_id[answer.question].places]
