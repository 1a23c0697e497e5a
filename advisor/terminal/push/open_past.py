"""What a find is called, and how much of the pipe is open past it: asked of every find."""

from __future__ import annotations

import re

from advisor.push.log.kinds import Value
from advisor.tables.open_past import CANNOT_TELL, HARDLY, LITTLE, MOST, NEARLY_ALL
from advisor.terminal.choose import BACK, DONT_KNOW, Choice, choose, type_in
from advisor.terminal.page import Page

_NUMBER = re.compile(r"[\d.,]+\s*(ft|m|in|cm|mm)?", re.IGNORECASE)
_ASKED = "How much of the pipe is open past it?"
_OPEN = (
    (Choice("1", "nearly all of it"), NEARLY_ALL),
    (Choice("2", "more than two thirds"), MOST),
    (Choice("3", "less than two thirds"), LITTLE),
    (Choice("4", "hardly any or nothing"), HARDLY),
    (Choice("5", "cannot tell", also=DONT_KNOW.key + DONT_KNOW.also), CANNOT_TELL),
)


def ask_name(page: Page, question: str, before: str) -> str | None:
    """It in words; empty: as `before`. None: back.

    A number is the reading typed too early; who types it again means it.
    """
    refused = set[str]()

    def wrong(text: str) -> str | None:
        if not _NUMBER.fullmatch(text) or text in refused:
            return None
        refused.add(text)
        return f"{text} is a number, no name. Type in words what it is. If it is called so, type it again."

    return type_in(page, question, wrong, before)


def ask_open(page: Page, data: dict[str, Value]) -> bool:
    """How much, as `open`, whatever was found: words do not tell what hangs there. False: back."""
    data.pop("open", None)
    key = choose(page, _ASKED, [choice for choice, _ in _OPEN], (BACK,))
    data["open"] = next((told for choice, told in _OPEN if choice.key == key), None)
    return key != BACK.key
