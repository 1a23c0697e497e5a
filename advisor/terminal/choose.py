"""Asking at the terminal: one key for a choice, one line for a value; gloves on, no mouse, no colour."""

from __future__ import annotations

import sys
from collections.abc import Callable, Container, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

import questionary
from prompt_toolkit.application import Application
from prompt_toolkit.formatted_text import FormattedText
from prompt_toolkit.key_binding import KeyBindings, KeyPressEvent, merge_key_bindings
from prompt_toolkit.keys import Keys
from prompt_toolkit.layout import FormattedTextControl, Layout, Window
from prompt_toolkit.styles import Style

from advisor.errors import BadInput, Fault, InputEnded
from advisor.quantity import with_unit
from advisor.terminal.page import Page

PLAIN = Style([("", "noinherit")])


@dataclass(frozen=True)
class Choice:
    """A key and what it stands for; `also` are other keys, not shown, that are taken for it.

    Those of `begins` are the first of what is typed behind it, and given as they were pressed.
    """

    key: str
    words: str
    also: str = ""
    begins: str = ""


ENTER = "\n"  # among the keys of a choice: the Enter key
# Ways out that have the same key at every question.
BACK = Choice("b", "back")
SAVE_AND_LEAVE = Choice("l", "save and leave")
DONT_KNOW = Choice("d", "don't know", also="?")
_A_PAGE = 9  # names behind the digits; the others follow on further pages
MORE = Choice("m", "more of them")  # of a list that is longer than the screen


def yes_no(yes: str = "yes", no: str = "no", digits: bool = False) -> tuple[Choice, Choice]:
    """Yes and no with the same keys at every question.

    With `digits` 1 and 2 are taken too: only among questions whose choices are numbered, and never behind a
    number that was refused, whose first digit would be a yes that nobody said.
    """
    return Choice("y", yes, also="1" * digits), Choice("n", no, also="2" * digits)


def page_of(names: Sequence[str], number: int) -> tuple[Choice, ...]:
    """One page of names behind digits, and `m` for the next page, behind the last the first."""
    pages = [names[i : i + _A_PAGE] for i in range(0, len(names), _A_PAGE)]
    shown = pages[number % len(pages)]
    more = (Choice("m", f"more: {len(names) - len(shown)} others"),) if len(pages) > 1 else ()
    return (*(Choice(str(i), name) for i, name in enumerate(shown, start=1)), *more)


def page_with(number: int) -> int:
    """The page of names that the one of that number, from 0, stands on."""
    return number // _A_PAGE


def can_ask() -> bool:
    """Whether somebody is there to press a key."""
    return sys.stdin is not None and sys.stdin.isatty()


def need_terminal(instead: str) -> None:
    """Raise BadInput, saying what to do instead, where nobody can be asked."""
    if not can_ask() or not sys.stdout.isatty():
        raise BadInput([Fault("terminal", 0, f"this asks questions and needs a terminal; {instead}")])


@contextmanager
def told_at_its_end(kept: Callable[[], str]) -> Iterator[None]:
    """Raise InputEnded with what was `kept` and how to go on where the input ends at a question."""
    try:
        yield
    except EOFError:
        raise InputEnded(kept()) from None


def choose(page: Page, question: str, choices: Sequence[Choice], more: Sequence[Choice] = ()) -> str:
    """The key of the choice made, by one key press.

    `more` are the ways out that are always there (back, why), told on one line of their own. Raises
    KeyboardInterrupt on Ctrl-C and EOFError where the terminal is gone.
    """
    meant = {key: c for c in (*choices, *more) for key in (c.key, *c.also, *c.begins)}
    keys = [choice.key for choice in (*choices, *more)]
    assert len(meant) == sum(1 + len(c.also + c.begins) for c in (*choices, *more)), "two choices share a key"
    assert all(len(key) == 1 for key in keys), "a choice is one key press"
    page.line()
    page.strong(question)
    for choice in choices:
        page.line(f"{choice.key}  {choice.words}", indent=4)
    if more:
        page.line("   ".join(f"{choice.key} {choice.words}" for choice in more))
    pressed = _one_key(keys, meant)
    chosen = meant[pressed]
    if pressed in chosen.begins:
        return pressed
    page.line(f"> {chosen.words}")
    return chosen.key


def type_in(
    page: Page,
    question: str,
    check: Callable[[str], str | None],
    empty: str | None = "",
    escape: str = "back",
    unit: str = "",
    begun: str = "",
) -> str | None:
    """One line of text that `check` has nothing against (it gives a message, or None); None on Esc.

    An empty line is given as "": `empty` says what that means here, None that it is no answer. With a `unit`
    that is told behind the question a number alone is taken in it, and read back. After a refusal the line is
    empty again, so that nothing has to be rubbed out. What was `begun` by a key
    stands there. Raises as `choose`.
    """
    page.line()
    page.strong(f"{question} ({unit})" if unit else question)
    page.line("Type it and press Enter." + (f" Empty: {empty}." if empty else "") + f" Esc: {escape}.")
    while True:
        asked = questionary.text("", default=begun, qmark=">", style=PLAIN)
        asked.application.key_bindings = merge_key_bindings(
            [each for each in (asked.application.key_bindings, _escape()) if each is not None]
        )
        typed = asked.unsafe_ask()
        if typed is None:
            return None
        if empty is not None and not typed.strip():
            return ""
        told = with_unit(typed.strip(), unit) if unit else str(typed.strip())
        wrong = check(told)
        if wrong is None:
            if told != typed.strip():
                page.line(f"> {told}")
            return told
        page.line(wrong)
        begun = ""


def _one_key(keys: Sequence[str], taken: Container[str]) -> str:
    """A key that is taken; after another one those that are shown are told.

    Esc is back, as where a line is typed; where there is no back it is nothing.
    """
    bindings, told = KeyBindings(), [""]

    @bindings.add(Keys.Any)
    def _pressed(event: KeyPressEvent) -> None:
        key = event.key_sequence[0].key
        enter = key in (Keys.ControlM, Keys.ControlJ)
        # With caps lock on, the letter is still meant.
        for wanted in ENTER if enter else (key, key.lower()):
            if wanted in taken:
                event.app.exit(result=wanted)
                return
        # Whoever presses Enter too has answered already.
        told[0] = "one key is enough, no Enter" if enter else f"press one of: {' '.join(keys)}"

    @bindings.add("c-c")
    def _broken_off(event: KeyPressEvent) -> None:
        event.app.exit(exception=KeyboardInterrupt)

    @bindings.add("c-d")
    def _gone(event: KeyPressEvent) -> None:
        event.app.exit(exception=EOFError)

    @bindings.add("escape", eager=True)
    def _back(event: KeyPressEvent) -> None:
        if BACK.key in taken:
            event.app.exit(result=BACK.key)

    control = FormattedTextControl(lambda: FormattedText([("", f"  {told[0]}")]))
    window = Window(control, height=1, always_hide_cursor=True)
    app: Application[str] = Application(
        Layout(window), key_bindings=bindings, style=PLAIN, erase_when_done=True
    )
    return app.run()


def _escape() -> KeyBindings:
    bindings = KeyBindings()

    @bindings.add("escape", eager=True)
    def _back(event: KeyPressEvent) -> None:
        event.app.exit(result=None)

    return bindings
