"""Questions of which every one can be changed until the end: by a script that is sent the answers.

A step back takes the last answer away and runs the script again with those before it.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Generic, TypeVar

from advisor.errors import BadInput
from advisor.quantity import Units
from advisor.terminal.choose import BACK, Choice, choose, type_in, yes_no
from advisor.terminal.number import meant
from advisor.terminal.page import Page


@dataclass(frozen=True)
class Question:
    """One question: keys to choose from, or a line to type with what an empty one means.

    A number typed alone is in `unit`; `unusual` gives the usual sizes (m, told in `units`) where a typed one
    is far from them.
    """

    words: str
    choices: tuple[Choice, ...] = ()
    more: tuple[Choice, ...] = ()
    check: Callable[[str], str | None] = lambda _: None
    empty: str = "don't know"
    unit: str = ""
    units: Units = Units.INCH
    unusual: Callable[[str], tuple[float, float] | None] = lambda _: None


T = TypeVar("T")
Script = Generator[Question, str, T]


class Interview(Generic[T]):
    """The questions of a script that makes something of the answers, with the answers so far."""

    def __init__(self, page: Page, script: Callable[[], Script[T]]) -> None:
        self.page, self.script = page, script
        self.answers: list[str] = []

    def settled(self, path: Path, show: Callable[[T], None], judge: Callable[[T], object]) -> T | None:
        """What is to be written, once it is wanted so; None where it is left. Raises as `choose`.

        `judge` raises BadInput against a whole that is wrong: what no single answer shows is put right by
        going back.
        """
        while True:
            made = self._run()
            show(made)
            write: tuple[Choice, ...] = (Choice("w", "write it", also="y"),)
            try:
                judge(made)
            except BadInput as wrong:
                self.page.line(str(wrong))
                write = ()
            leave = Choice("l", "leave it unwritten")
            key = choose(self.page, f"Write it to {path}?", (*write, leave), (BACK,))
            if key == leave.key:
                lost = f"All {len(self.answers)} answers would be lost. Leave it unwritten?"
                if choose(self.page, lost, yes_no()) == "y":
                    self.page.line("Nothing was written.")
                    return None
            elif key == BACK.key:
                self._back()
            else:
                return made

    def _run(self) -> T:
        """Ask what is not answered yet; what the script makes of it."""
        while True:
            asked = self._after(self.answers)
            if not isinstance(asked, Question):
                return asked
            answer = self._asked(asked)
            if answer is None:
                self._back()
            else:
                self.answers.append(answer)

    def _back(self) -> None:
        if self.answers:
            self.answers.pop()

    def _asked(self, question: Question) -> str | None:
        if question.choices:
            more = (*question.more, *((BACK,) if self.answers else ()))
            key = choose(self.page, question.words, question.choices, more)
            return None if key == BACK.key else key
        while True:
            typed = type_in(self.page, question.words, question.check, question.empty, unit=question.unit)
            unusual = question.unusual(typed) if typed else None
            if typed is None or meant(self.page, typed, unusual, "for it", question.units):
                return typed

    def _after(self, answers: Sequence[str]) -> Question | T:
        """What comes after these answers: the next question, or what is made of them."""
        script = self.script()
        try:
            asked = next(script)
            for answer in answers:
                asked = script.send(answer)
        except StopIteration as done:
            made: T = done.value
            return made
        return asked
