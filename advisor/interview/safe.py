"""Whether a question may be put at all: finding out sends somebody somewhere, to a roof, a pit, a plug."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.interview.question import Question
from advisor.interview.sheets import Drain, Known
from advisor.interview.subject import Subject
from advisor.outcome.facts import Facts, site_facts
from advisor.plan import circumstances_of


class Safe:
    """What may be asked on one drain, by what was said of its dangers; what nobody knows is not safe."""

    def __init__(self, drain: Drain, known: Known) -> None:
        self._known = known
        given = circumstances_of(drain.sheet.model, drain.network)
        self._site = site_facts(drain.network, given, known.tables)

    def may_ask(self, question: Question, subject: Subject) -> bool:
        """True where what the question wants of the place surely holds."""
        return self._holds(question, subject, {})

    def first(self, question: Question, subject: Subject, unasked: Sequence[Question]) -> Question | None:
        """Which of the `unasked` about the whole job has to be put before, as its answer decides whether this
        one may be; nothing where none does."""
        for other in unasked:
            if any(self._holds(question, subject, {other.settles: told}) for told in (True, False)):
                return other
        return None

    def _holds(self, question: Question, subject: Subject, supposed: Facts) -> bool:
        condition = self._known.questions.only_if.get(question.id)
        if condition is None:
            return True
        facts = {**self._site, **supposed}
        hole = None if subject.piece is None else subject.piece.hole
        if hole is not None:
            place = self._known.tables.openings[hole.kind].place
            facts |= {"opening.kind": hole.kind, "opening.place": place}
        return condition.evaluate(facts) is True
