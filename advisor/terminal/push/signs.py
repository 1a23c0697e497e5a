"""What is seen and felt while the head is held, one sign after the other."""

from __future__ import annotations

from dataclasses import replace

from advisor.tables.stuck import StuckFile
from advisor.terminal.choose import BACK, DONT_KNOW, Choice, choose
from advisor.terminal.page import Page
from advisor.terminal.push.asks import KEYS
from advisor.terminal.push.steps import Step, in_turn


def ask_signs(page: Page, table: StuckFile) -> tuple[str, ...] | None:
    """The names of the signs. None: back."""
    seen: list[str] = []
    felt: list[str] = []

    def told(by: str, found: list[str]) -> Step:
        return lambda: _signs_by(by, found, page, table, bool(seen or felt))

    return (*seen, *felt) if in_turn(told("eye", seen), told("hand", felt)) else None


def _signs_by(by: str, found: list[str], page: Page, table: StuckFile, any_told: bool) -> bool:
    """Signs of one kind into `found`; back takes the last of them back, then to the question before."""
    question = {"eye": "What do you see?", "hand": "What do you feel?"}[by]
    names = [name for name, sign in table.signs.items() if sign.by == by and sign.of is None]
    keys = dict(zip(KEYS, names, strict=False))  # a sign keeps its key while others are told
    while any(name not in found for name in names):
        choices = [Choice(key, table.signs[name].words) for key, name in keys.items() if name not in found]
        done = Choice("0", "that is all" if found or any_told else "nothing of these")
        key = choose(page, "What else?" if found else question, choices, (done, BACK))
        if key == "0":
            break
        if key != BACK.key:
            _add(keys[key], found, page, table)
        elif not found:
            return False
        elif table.signs[found.pop()].of is not None:
            found.pop()  # what was told apart goes with the sign that it tells apart
    return True


def _add(sign: str, found: list[str], page: Page, table: StuckFile) -> None:
    """A sign into `found`; of two that one lens cannot show at once the one that it shows now."""
    against = next((each for each in found if _apart(sign, each, table)), None)
    if against is not None:
        told, new = (Choice(key, table.signs[each].words) for key, each in (("1", against), ("2", sign)))
        asked = "The lens cannot show both at once. Which does it show now?"
        if choose(page, asked, (told, new), (BACK,)) != new.key:
            return
        found.remove(against)
    found += _kind(sign, page, table)


def _apart(one: str, other: str, table: StuckFile) -> bool:
    return other in table.signs[one].not_with or one in table.signs[other].not_with


def _kind(sign: str, page: Page, table: StuckFile) -> list[str]:
    """A sign, and what it is where it can be told apart; nothing at all where that is left by back."""
    kinds = [name for name, row in table.signs.items() if row.of == sign]
    if not kinds:
        return [sign]
    choices = [Choice(key, table.signs[name].words) for key, name in zip(KEYS, kinds, strict=False)]
    cannot = replace(DONT_KNOW, words="cannot tell")
    key = choose(page, "What is it?", choices, (cannot, BACK))
    if key == BACK.key:
        return []
    return [sign, *(name for each, name in zip(KEYS, kinds, strict=False) if each == key)]
