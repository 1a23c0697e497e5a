"""Whether a question may be put at all: finding out sends somebody somewhere, to a roof, a pit, a plug."""

from __future__ import annotations

from advisor.interview.question import Question
from advisor.interview.sheets import Drain, Known
from advisor.interview.subject import Subject
from advisor.outcome.facts import facts_of_place, site_facts
from advisor.plan import circumstances_of


class Safe:
    """What may be asked on one drain, by what was said of its dangers; what nobody knows is not safe."""

    def __init__(self, drain: Drain, known: Known) -> None:
        self._known = known
        given = circumstances_of(drain.sheet.model, drain.network)
        self._site = site_facts(drain.network, given, known.tables)

    def may_ask(self, question: Question, subject: Subject) -> bool:
        """True where what the question wants of the place surely holds."""
        condition = self._known.questions.only_if.get(question.id)
        if condition is None:
            return True
        facts = self._site
        if subject.piece is not None and subject.piece.hole is not None:
            facts = {**facts, **facts_of_place(subject.piece, self._known.tables)}
        return condition.evaluate(facts) is True
