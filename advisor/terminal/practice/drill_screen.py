"""One drill at the terminal: an example where it is new, the questions, and what each answer teaches."""

from __future__ import annotations

from advisor.practice.drill import Ask, Drain, Drill, Grade, Option, grade
from advisor.practice.marks import Marks
from advisor.practice.skill import ALONE, HINTS, WORKED
from advisor.practice.teach import explained, harm, worked
from advisor.terminal.choose import Choice, choose
from advisor.terminal.page import Page

HINT, DRAIN, WORDS, LEAVE = "h", "s", "w", "q"
_LOOK = (Choice(DRAIN, "show the drain"), Choice(WORDS, "what do the words mean?"), Choice(LEAVE, "leave"))
_HELP = {
    WORKED: "New to you: each question comes with a hint.",
    HINTS: f"You may ask for a hint: {HINT}.",
    ALONE: "On your own: no hints, and the reasons come at the end.",
}


class Left(Exception):
    """Whoever practised has had enough; what is not finished is not kept."""


def show_example(drill: Drill, marks: Marks, page: Page) -> None:
    """A drill with its answers, to read."""
    page.heading("An example, with its answer")
    _story(drill, page)
    for ask in drill.asks:
        page.line()
        page.line(drill.task)
        page.strong(ask.question)
        page.steps([option.words for option in ask.options])
        for line in worked(ask, marks):
            page.line(line, indent=4)
    while (key := choose(page, "Read it?", (Choice("1", "go on, one for me"),), _LOOK)) != "1":
        _look(key, drill, page)


def run_drill(drill: Drill, step: str, title: str, marks: Marks, page: Page) -> Grade:
    """Ask, grade and explain; raises Left."""
    page.heading(title)
    page.line(_HELP[step])
    page.line()
    _story(drill, page)
    answers: list[int] = []
    for number, ask in enumerate(drill.asks):
        answers.append(_asked(drill, ask, step, page))
        if step != ALONE:
            _explain(ask, ask.options[answers[number]], marks, page)
    if step == ALONE:
        for ask, answer in zip(drill.asks, answers, strict=True):
            page.line()
            page.strong(ask.question)
            _explain(ask, ask.options[answer], marks, page)
    graded = grade(drill, tuple(answers), marks)
    if drill.afterwards:
        page.line()
        page.line(drill.afterwards)
    page.line()
    page.strong(in_all(graded, marks))
    return graded


def in_all(graded: Grade, marks: Marks) -> str:
    """The grade in one sentence."""
    if graded.unsafe:
        return f"In all: not passed. {harm(graded.unsafe[0])}"
    cost = f"{graded.regret:.0f} min over the best"
    if all(marks.full(option) for option in graded.chosen):
        cost = "as good as the best, as far as can be told" if graded.regret >= 1 else "none is better"
    passed = "passed" if marks.passed(graded.credit, bool(graded.unsafe)) else "not passed yet"
    less = f", but {'; '.join(graded.less)}" if graded.less else ""
    return f"In all: {cost}{less}; {graded.credit:.0%} of full marks, {passed}."


def show_drain(drain: Drain, page: Page) -> None:
    """The lines from top to bottom, what stands where."""
    page.line()
    for row in drain.rows(page.console.width - 4):
        page.line(row)


def _story(drill: Drill, page: Page) -> None:
    for line in drill.story:
        page.line(line)
    if drill.drain.open_with:
        show_drain(drill.drain, page)


def _look(key: str, drill: Drill, page: Page) -> None:
    """Show what helps to understand the question; raises Left."""
    if key == LEAVE:
        raise Left
    if key == DRAIN:
        show_drain(drill.drain, page)
    else:
        for word, meaning in drill.words or (("No word", "in this one has another name or meaning."),):
            page.line(f"{word}: {meaning}")


def _asked(drill: Drill, ask: Ask, step: str, page: Page) -> int:
    choices = tuple(Choice(str(i), option.words) for i, option in enumerate(ask.options, 1))
    if step == WORKED:
        page.line()
        page.line(f"Hint: {ask.hint}")
    more = (Choice(HINT, "hint"), *_LOOK) if step == HINTS else _LOOK
    while True:
        page.line()
        page.line(drill.task)
        key = choose(page, ask.question, choices, more)
        if key.isdigit():
            return int(key) - 1
        if key == HINT:
            page.line(f"Hint: {ask.hint}")
        else:
            _look(key, drill, page)


def _explain(ask: Ask, chosen: Option, marks: Marks, page: Page) -> None:
    if chosen.unsafe:
        page.boxed(chosen.unsafe.word, [chosen.unsafe.text])
    first, *rest = explained(ask, chosen, marks)
    page.line()
    page.strong(first)
    for line in rest:
        if line.startswith(f"{ask.best_is}:"):
            page.strong(line)
        else:
            page.line(line, indent=4)
