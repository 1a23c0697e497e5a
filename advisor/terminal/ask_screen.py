"""The question session on the screen: one question at a time, one key an answer."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from string import digits
from typing import Literal

from advisor.interview.answers import NONE, Answer
from advisor.interview.ask import Ask
from advisor.interview.dialogue import Session
from advisor.interview.hazards import beside_question
from advisor.interview.joinings import Option
from advisor.interview.question import DONT_KNOW as NOT_KNOWN
from advisor.interview.sheets import Answers
from advisor.interview.sketch import sketch, sketch_changes
from advisor.terminal.choose import BACK, DONT_KNOW, MORE, SAVE_AND_LEAVE, Choice, choose, type_in, yes_no
from advisor.terminal.leaf import leaf_through
from advisor.terminal.number import ACROSS, ALONG, meant
from advisor.terminal.page import Page

SHOWN = 7  # answers on one screen
_BELOW = 2 * SHOWN + 4  # lines that a question takes: its answers may run over two lines each
_LETTERS = "acefghi"  # keys of answers beside which a number may be typed; those left out mean something else
_TYPED = {
    "year": "type the year",
    "length": "type the length",
    "size": "type the size",
    "day": "type the day, month or year",
}
WHY, DRAW, NO_MORE, MISSING, GO_ON = "w", "s", "k", "x", "q"
_DRAW = Choice(DRAW, "show the drain")
_MORE = (
    DONT_KNOW,
    BACK,
    Choice(WHY, "why do you ask?"),
    _DRAW,
    SAVE_AND_LEAVE,
)


@dataclass(frozen=True)
class Said:
    """What came of a question: values, or a wish to go back, to leave the others like it too, to be asked no
    more, or to leave, with what was `ticked` by then."""

    values: tuple[str, ...] = ()
    back: bool = False
    no_more: bool = False
    enough: bool = False
    leave: bool = False
    ticked: tuple[str, ...] = ()


def put(
    ask: Ask,
    session: Session,
    answers: Answers,
    page: Page,
    before: Sequence[str] = (),
    others: int = 0,
    asked_for: bool = False,
) -> Said:
    """Ask until there is an answer or a wish; of several choices those of `before` are chosen already.

    So many `others` like it may be left with it at one key. One that was `asked_for` may be enough.
    """
    no_more = (Choice(NO_MORE, f"know none of these, {others} more"),) if others else ()
    enough = (Choice(GO_ON, "enough asked"),) if asked_for else ()
    chosen = [option.value for option in ask.options if option.value in before] if ask.many else []
    first = 0  # of the options that are on the screen
    while True:
        options = ask.options[first : first + SHOWN]
        paged = len(ask.options) > SHOWN
        if paged:
            options = ask.options[first : first + SHOWN - 1]
        offered = _choices(ask, options, chosen, paged)
        taken = [choice for choice in offered if choice.key != "t"]
        of_key = {choice.key: option.value for choice, option in zip(taken, options, strict=False)}
        _warn(ask, session, answers, page)
        key = choose(
            page, _text(ask, chosen), offered, (_MORE[0], *no_more, *_MORE[1:2], *enough, *_MORE[2:])
        )
        if key == DONT_KNOW.key:
            return Said((NOT_KNOWN,))
        if key == NO_MORE:
            return Said(no_more=True)
        if key == GO_ON:
            return Said(enough=True)
        if key == BACK.key and first:  # to the answers before these
            first -= SHOWN - 1
        elif key in (BACK.key, SAVE_AND_LEAVE.key):
            return Said(back=key == BACK.key, leave=key == SAVE_AND_LEAVE.key, ticked=tuple(chosen))
        elif key == WHY:
            page.line(ask.question.why)
            if ask.minutes >= 1:
                page.line(f"Finding out takes about {ask.minutes:.0f} min.")
        elif key == DRAW:
            show_drain(session, answers, page)
        elif key == "t" or (ask.question.type_in and key.isdigit()):
            begun = key if key.isdigit() else ""
            typed = type_in(page, ask.text, partial(_wrong, ask), unit=_unit(ask), begun=begun)
            if typed and meant(page, typed, ask.unusual(typed), "there", ask.units):
                return Said((typed,))
        elif key == "0":
            return Said(tuple(sorted(chosen, key=[o.value for o in ask.options].index)) or (NONE,))
        elif key == MORE.key:
            first = first + SHOWN - 1 if first + SHOWN - 1 < len(ask.options) else 0
        elif ask.many:
            value = of_key[key]
            chosen.remove(value) if value in chosen else chosen.append(value)
        elif _meant(ask, of_key[key], page):
            told = next(option for option in options if option.value == of_key[key])
            up = None if session.sheets.one_floor(answers) else told.higher_up
            said = Said((told.value,)) if up is None else _on_floor(told, up, page)
            if not said.back:
                return said


def _wrong(ask: Ask, text: str) -> str | None:
    return ask.check(text) or ask.ahead(text, date.today())


def _warn(ask: Ask, session: Session, answers: Answers, page: Page) -> None:
    """What can hurt whoever goes to find out stands before the question, each time that it stands there.

    On the way to look at something a warning is told whole once in a sitting, then by its first sentence:
    said again word for word it is read by nobody. A danger is whole each
    time, and all where hands go on or somebody crawls.
    """
    told = beside_question(ask, session.sheets.drain(answers), session.known, session.units(answers))
    if told:
        page.line()
    hurts = ask.question.hands_on or ask.crawls
    for words in told:
        whole = hurts or words.startswith("DANGER") or words not in page.told_whole
        page.told_whole.add(words)
        page.strong(words if whole else words.partition(". ")[0].rstrip(".") + ".")


def _meant(ask: Ask, value: str, page: Page) -> bool:
    """Whether an answer is meant that is asked for once more."""
    sure = next((choice.sure for choice in ask.question.choices if choice.value == value), "")
    return not sure or choose(page, sure, yes_no()) == "y"


def _on_floor(told: Option, higher_up: Option, page: Page) -> Said:
    """The answer with the floor that what joins there is on."""
    same, higher = "on the floor right above that pipe", "higher up: it comes down a stack of its own"
    text = "On which floor is it? Down a stack that is drawn? Go back, and pick where on that stack it joins."
    if told.below:
        same, higher = f"on the same floor as {told.below}", "a floor higher up"
        text = f"On which floor is it, beside {told.below}?"
    floors = (Choice("1", same), Choice("2", higher))
    key = choose(page, text, floors, (DONT_KNOW, BACK, SAVE_AND_LEAVE))
    if key in (BACK.key, SAVE_AND_LEAVE.key):
        return Said(back=key == BACK.key, leave=key == SAVE_AND_LEAVE.key)
    return Said((higher_up.value if key == "2" else told.value,))


def _unit(ask: Ask) -> str:
    """The unit of a number that is typed alone: none where it is a year."""
    return {"length": ALONG, "size": ACROSS}.get(ask.question.type_in or "", {}).get(ask.units, "")


def _text(ask: Ask, chosen: Sequence[str]) -> str:
    if not chosen:
        return ask.text
    return f"{ask.text} So far: {', '.join(ask.words_of(value) for value in chosen)}."


def _choices(ask: Ask, options: Sequence[Option], chosen: Sequence[str], paged: bool) -> list[Choice]:
    """A key for each option, in their order, and then what else there is."""
    if [option.value for option in options][:2] == ["yes", "no"]:
        yes, no, *more = (option.words for option in options)
        others = [Choice(str(number), words) for number, words in enumerate(more, start=3)]
        return [*yes_no(yes, no, digits=True), *others]
    # Whoever types 1958 would have chosen by its first digit.
    typed = ask.question.type_in
    numbers = [option.number or number for number, option in enumerate(options, start=1)]
    keys = _LETTERS if typed else [str(number) for number in numbers]
    found = [Choice("t", f"{_TYPED[typed]}; a digit begins it", begins=digits)] if typed else []
    found += [
        Choice(key, f"{option.words}: not so after all" if option.value in chosen else option.words)
        for key, option in zip(keys, options, strict=False)
    ]
    if paged:
        found.append(MORE)
    if ask.many:
        found.append(Choice("0", "that is all" if chosen else "none of them"))
    return found


def show_drain(session: Session, answers: Answers, page: Page) -> None:
    """The sketch of the drain as understood so far."""
    drain = session.sheets.drain(answers)
    if drain is None:
        page.line("Nothing is drawn yet: first the kind of building.")
        return
    rows = sketch(drain.network, session.units(answers), _width(page))
    _show_rows("The drain as understood so far", rows, page)


def show_changes(session: Session, before: Answers | None, now: Answers, page: Page) -> None:
    """Of the sketch what is another since it was shown with the answers before; all of it where it was not,
    or where it is another building."""
    sheets = session.sheets
    was, drain = None if before is None else sheets.drain(before), sheets.drain(now)
    if before is None or was is None or drain is None or sheets.building(before) != sheets.building(now):
        show_drain(session, now, page)
        return
    rows = sketch_changes(was.network, drain.network, session.units(now), _width(page))
    if rows:
        _show_rows("Changed in the drain", rows, page)


def _width(page: Page) -> int:
    return page.console.width - 4


def _show_rows(heading: str, rows: Sequence[str], page: Page) -> None:
    def show_rows() -> None:
        page.heading(heading)
        for row in rows:
            page.line(row)

    # A question comes below it, and would push the last lines of a long drain off the screen.
    leaf_through(page, show_rows, _BELOW)


def told(answer: Answer, session: Session, answers: Answers) -> tuple[str, str]:
    """An answer as question and words."""
    ask = session.ask(answers, answer.question, answer.about)
    if ask is None:
        return _of_old(answer, session), ", ".join(answer.values)
    # What a building is known by was told when it was chosen.
    return ask.text, ", ".join(ask.words_of(value).partition(". ")[0] for value in answer.values)


def _of_old(answer: Answer, session: Session) -> str:
    """The question of an answer about what is settled by now, in the words of its file."""
    line, _, rest = answer.about.partition("/")
    place, _, last = rest.rpartition("/")
    name = last.partition(":")[2] or last or line
    words = defaultdict(lambda: name, line=line, place=place or name)
    text = session.known.questions.by_id[answer.question].text
    asked, mark, _ = text.partition("?")
    return asked.format_map(words) + mark


def show_last(answers: Answers, session: Session, page: Page, count: int = 3) -> None:
    """The last few answers, after a session was cut off."""
    page.heading("Where you left off")
    for answer in answers[-count:]:
        question, words = told(answer, session, answers)
        page.line(f"{question} {words}.")


def pick_to_change(
    answers: Answers, session: Session, page: Page, more: bool
) -> Answer | Literal["x", "q", "l"] | None:
    """Let one answer be picked, a screenful at a time, or MISSING, or GO_ON where there is more to ask,
    or that somebody leaves; nothing when all are right."""
    first = 0
    while True:
        shown = answers[first : first + SHOWN]
        choices = []
        for number, answer in enumerate(shown, start=1):
            question, words = told(answer, session, answers)
            choices.append(Choice(str(number), f"{question} {words.upper()}"))
        ways = [Choice("y", "yes, go on", also="0"), Choice(MISSING, "tell one thing, or it is drawn wrong")]
        if more:
            ways.append(Choice(GO_ON, "ask me more"))
        ways += [_DRAW, SAVE_AND_LEAVE]
        if len(answers) > SHOWN:
            ways.append(MORE)
        key = choose(page, "Is this right? A number changes its answer.", choices, ways)
        if key == "y":
            return None
        if key == DRAW:
            show_drain(session, answers, page)
            continue
        if key in (MISSING, GO_ON, SAVE_AND_LEAVE.key):
            return "x" if key == MISSING else "q" if key == GO_ON else "l"
        if key == MORE.key:
            first = first + SHOWN if first + SHOWN < len(answers) else 0
            continue
        return shown[int(key) - 1]
