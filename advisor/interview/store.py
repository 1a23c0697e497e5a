"""The answers of a session in a file: written whole after every answer, read strictly."""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from advisor.errors import BadInput, Fault
from advisor.interview.answers import NONE, Answer
from advisor.interview.ask import Ask
from advisor.interview.dialogue import Session
from advisor.interview.question import DONT_KNOW
from advisor.interview.sheets import Answers
from advisor.interview.subject import JOB
from advisor.job.output import write_out
from advisor.site.fields import Name
from advisor.strict_yaml import Sheet, read_sheet, written
from advisor.strict_yaml.model import nearest

_HEAD = "# Answers of a question session; `advisor ask` with this folder goes on from here.\n"


class AnswerRow(BaseModel):
    """One answer as it stands in the file; a list where several hold."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    question: str
    about: str = JOB.id
    answer: str | tuple[str, ...]
    on_sheet: Literal["yes"] | None = Field(default=None, alias="on sheet")

    @property
    def values(self) -> tuple[str, ...]:
        """The answers as a tuple."""
        return (self.answer,) if isinstance(self.answer, str) else self.answer

    @property
    def told(self) -> Answer:
        """The answer itself."""
        return Answer(self.question, self.about, self.values)


class LostRow(BaseModel):
    """What was told of a drawing that something was drawn into since, by the mark of that drawing; of `dealt`
    answers that are what is left of a length told then."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    drawing: str
    answers: tuple[AnswerRow, ...]
    dealt: tuple[AnswerRow, ...] = ()


class AnswersFile(BaseModel):
    """The whole file. `sheet` is the text that the session continues from; `made` marks what it wrote,
    `edited` the sheet that was edited by hand and that `sheet` was made from. What was `ticked` of a question
    that was left unanswered is ticked when it comes again."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    job: Name = "job"
    sheet: str | None = None
    made: str | None = None
    edited: str | None = None
    answers: tuple[AnswerRow, ...] = Field(default=())
    ticked: AnswerRow | None = None
    lost: tuple[LostRow, ...] = Field(default=(), alias="as drawn before")


@dataclass(frozen=True)
class Lost:
    """The answers that a drawing lost as something was drawn into it, by its mark; and what of them was
    `dealt` out among its parts."""

    drawing: str
    answers: Answers
    dealt: Answers = ()


@dataclass(frozen=True)
class Kept:
    """What is kept of a session between two questions."""

    job: str
    sheet: str | None
    answers: Answers = ()
    made: str | None = None
    written: Answers = ()  # those that the sheet was written from; all others are newer than it
    edited: str | None = None  # the mark of a sheet edited by hand, which `sheet` and `written` together are
    ticked: Answer | None = None  # of several that may hold, where somebody left before the question's end
    lost: tuple[Lost, ...] = ()  # they hold again where it is drawn so again


def mark_of(text: str) -> str:
    """A mark by which a sheet is known again that nobody has edited since."""
    return sha256(text.encode()).hexdigest()[:16]


def save(path: Path, kept: Kept) -> None:
    """Write the file, durable on return; raises BadInput where it cannot be written."""
    tree: dict[str, object] = {"job": kept.job}
    if kept.sheet is not None:
        tree["sheet"] = kept.sheet
    if kept.made is not None:
        tree["made"] = kept.made
    if kept.edited is not None:
        tree["edited"] = kept.edited
    tree["answers"] = [
        {**_row(answer), **({"on sheet": "yes"} if answer in kept.written else {})} for answer in kept.answers
    ]
    if kept.ticked is not None:
        tree["ticked"] = {**_row(kept.ticked), "answer": list(kept.ticked.values)}
    if kept.lost:
        tree["as drawn before"] = [_lost_row(each) for each in kept.lost]
    write_out(path, (_HEAD + written(tree)).encode(), force=True)


def read(path: Path) -> tuple[Sheet[AnswersFile], Kept]:
    """The file and what it keeps; raises BadInput. Whether its questions exist is checked by `checked`."""
    sheet = read_sheet(path, AnswersFile)
    model = sheet.model
    rows = [(row, row.told) for row in model.answers]
    written = tuple(answer for row, answer in rows if row.on_sheet)
    answers = tuple(answer for _, answer in rows)
    ticked = None if model.ticked is None else model.ticked.told
    lost = tuple(
        Lost(each.drawing, tuple(row.told for row in each.answers), tuple(row.told for row in each.dealt))
        for each in model.lost
    )
    return sheet, Kept(model.job, model.sheet, answers, model.made, written, model.edited, ticked, lost)


def checked(sheet: Sheet[AnswersFile], session: Session, earlier: Answers = ()) -> Answers:
    """The answers of a file, each to a question that can be put; raises BadInput with every fault.

    What it is about may be given by its name, and an answer by its words. The `earlier` answers stand among
    them, where the file does not say otherwise and they can still be given.
    """
    faults: list[Fault] = []
    found: Answers = ()
    order = {question.id: i for i, question in enumerate(session.known.questions.all)}
    rows: list[tuple[int, AnswerRow | Answer]] = [*enumerate(sheet.model.answers)]
    rows += [(-1, answer) for answer in earlier]
    # By the order of the questions: what is asked later on never decides what could be asked before. Of one
    # question the file's first, which are put as if nobody had answered it yet.
    for number, row in sorted(rows, key=lambda each: order.get(each[1].question, 0)):
        here = ("answers", number)
        if isinstance(row, Answer):
            found = with_earlier(found, row, session)
            continue
        if row.question not in order:
            hint = nearest(row.question, list(order))
            faults.append(sheet.fault(f"no question is called {row.question!r}{hint}", *here, "question"))
            continue
        try:
            ask = session.ask(found, row.question, row.about)
        except BadInput as wrong:
            raise BadInput([*faults, *wrong.faults]) from None
        if ask is None:
            if session.sheets.drain(found) is None or any(a.question == row.question for a in found):
                faults.append(sheet.fault(f"{row.question}: there is nothing to ask it about yet", *here))
            else:
                known = [s.name for s in session.about(found, row.question)]
                hint = nearest(row.about, known)
                faults.append(sheet.fault(f"about: {row.about!r} is not open to that{hint}", *here, "about"))
            continue
        values, wrong_word = values_of(ask, row.values)
        if wrong_word is not None:
            faults.append(sheet.fault(wrong_word, *here, "answer"))
            continue
        found = with_answer(found, Answer(*ask.key, values))
    if faults:
        raise BadInput(faults)
    return found


def with_earlier(found: Answers, answer: Answer, session: Session) -> Answers:
    """The answers with one that was given before, where it can still be given and no other stands there."""
    has = any((a.question, a.about) == (answer.question, answer.about) for a in found)
    if has or answer.question not in session.known.questions.by_id:
        return found
    try:
        ask = session.ask(found, answer.question, answer.about)
        if ask is None:
            return found
        values, wrong = values_of(ask, answer.values)
        if wrong is not None:
            # What is likely hangs on the other answers: whatever was offered once stays told, where a sheet
            # takes it.
            if ask.question.choose_from != "likely":
                return found
            values = answer.values
        now = with_answer(found, Answer(*ask.key, values))
        session.sheets.drain(now)
    except BadInput:
        return found
    return now


def with_answer(answers: Answers, answer: Answer) -> Answers:
    """The answers with this one: in the place of the one it replaces, else at the end."""
    key = (answer.question, answer.about)
    if any((a.question, a.about) == key for a in answers):
        return tuple(answer if (a.question, a.about) == key else a for a in answers)
    return (*answers, answer)


def values_of(ask: Ask, words: tuple[str, ...]) -> tuple[tuple[str, ...], str | None]:
    """The values of an answer's words, or what is wrong with them."""
    if words in ((DONT_KNOW,), (NONE,)):
        return words, None
    if not ask.many and len(words) != 1:
        return (), f"{ask.question.id}: expected one answer"
    by_words = {option.words: option.value for option in ask.every}
    values = [by_words.get(word, word) for word in words]
    known = [option.value for option in ask.every]
    for value in values:
        if value not in known:
            wrong = ask.check(value) if ask.question.type_in else "no such answer"
            if wrong is not None:
                return (), f"answer: got {value!r}, {wrong}{nearest(value, [*known, DONT_KNOW])}"
    place = {value: number for number, value in enumerate(known)}
    return tuple(sorted(values, key=lambda value: place.get(value, 0))), None


def _row(answer: Answer) -> dict[str, object]:
    row: dict[str, object] = {"question": answer.question}
    if answer.about != JOB.id:
        row["about"] = answer.about
    row["answer"] = answer.values[0] if len(answer.values) == 1 else list(answer.values)
    return row


def _lost_row(lost: Lost) -> dict[str, object]:
    answers, dealt = ([_row(each) for each in rows] for rows in (lost.answers, lost.dealt))
    return {"drawing": lost.drawing, "answers": answers, "dealt": dealt}
