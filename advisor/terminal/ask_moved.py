"""Tells what has to be told again, and what holds again, once what is drawn has changed."""

from __future__ import annotations

from advisor.interview.dialogue import Session
from advisor.interview.sheets import Answers
from advisor.terminal.ask_screen import told
from advisor.terminal.page import Page


def tell_again(lost: Answers, session: Session, before: Answers, page: Page) -> None:
    """What was told of a place that is another one by now."""
    for each in (each for each in lost if each.known):
        page.line(f"To be told again: {told(each, session, before)[0]}")


def tell_held(held: Answers, session: Session, now: Answers, page: Page) -> None:
    """What was told before, of what is drawn again as it was then."""
    for each in held:
        question, words = told(each, session, now)
        page.line(f"As told before: {question} {words.upper()}")
