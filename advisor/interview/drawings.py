"""What was told of a drawing that something was drawn into since: drawn as it was, that holds again."""

from __future__ import annotations

from advisor.interview.answers import Answer
from advisor.interview.dialogue import Session
from advisor.interview.moved import moved
from advisor.interview.sheets import Answers
from advisor.interview.store import Lost, mark_of, with_earlier


class Drawings:
    """Keeps the answers that a drawing lost, by the mark of the drawing on which they held."""

    def __init__(self, session: Session, lost: tuple[Lost, ...] = ()) -> None:
        self._session = session
        self._lost = {each.drawing: each for each in lost}  # in earlier sittings

    @property
    def lost(self) -> tuple[Lost, ...]:
        """What later sittings are to know of them."""
        return tuple(self._lost.values())

    def turned(self, before: Answers, now: Answers) -> tuple[Answers, Answers, Answers]:
        """The answers once what is drawn may have changed, those to be told again, those that hold again."""
        lost = moved(self._session, before, now)
        now = tuple(each for each in now if each not in lost)
        was = self._drawing(before)
        if lost and was != self._drawing(now):
            self._lost[was] = Lost(was, lost)
        found, held = self.held_again(now)
        if held:  # what was told of that which is not drawn any more has no place to be told of
            told = {_key(each) for each in held}
            open_ = (each for each in lost if _key(each) not in told)
            lost = tuple(each for each in open_ if self._session.ask(found, *_key(each)) is not None)
        return found, lost, held

    def dealt(self, before: Answers, left: Answers) -> None:
        """What is `left` of a length stands where that length was told `before`: no more than its share."""
        keys, was = {_key(each) for each in left}, self._drawing(before)
        lost = self._lost.get(was, Lost(was, ()))
        stood = tuple(each for each in before if _key(each) in keys and each not in lost.answers)
        self._lost[was] = Lost(was, (*lost.answers, *stood), (*lost.dealt, *left))

    def held_again(self, now: Answers) -> tuple[Answers, Answers]:
        """The answers with those that were lost as the drawing was left that it is now again, and these."""
        dealt = {each for lost in self._lost.values() for each in lost.dealt}
        lost = self._lost.pop(self._drawing(now), Lost("", ())).answers
        keys = {_key(each) for each in lost}
        stay = tuple(each for each in now if each not in dealt or _key(each) not in keys)
        found = stay
        for each in lost:
            found = with_earlier(found, each, self._session)
        held = tuple(each for each in found if each not in stay and each.known)
        return (*stay, *held), held

    def _drawing(self, answers: Answers) -> str:
        drain = self._session.sheets.drain(answers)
        return mark_of("" if drain is None else repr([(k, *ids) for k, ids in drain.network.lines.items()]))


def _key(answer: Answer) -> tuple[str, str]:
    return answer.question, answer.about
