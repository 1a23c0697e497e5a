"""What was told of a place that is another by now: a branch was drawn into it later, or left out again."""

from __future__ import annotations

from advisor.interview.answers import Answer
from advisor.interview.ask import Ask
from advisor.interview.dialogue import Session
from advisor.interview.sheets import Answers
from advisor.interview.subject import JOB


def moved(session: Session, before: Answers, now: Answers) -> Answers:
    """The answers in both whose place is another one; they have to be told again."""
    return tuple(a for a in now if a in before and _place(session, before, a) != _place(session, now, a))


def _place(session: Session, answers: Answers, answer: Answer) -> tuple[str, ...]:
    """Where it is, by what lies beside; of a branch, where it was told to join.

    What is known by a name of its own is the same wherever something else joins.
    """
    ask: Ask | None = session.ask(answers, answer.question, answer.about)
    if ask is None or (ask.subject is JOB and not ask.question.branch):
        return ()
    joins = ask.words_of(answer.values[0]) if ask.question.branch else ""
    piece = ask.subject.piece
    named = piece is None or piece.absent or piece.kind in ("opening", "junction")
    return ("" if named else ask.subject.place, joins, *(piece.id for piece in ask.subject.pieces))
