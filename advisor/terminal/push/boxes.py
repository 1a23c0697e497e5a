"""What can hurt, in boxes beside the opening: told as a push begins, and again where it is gone on with."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.result.model import AskNote, CautionNote
from advisor.rulebase.rule import GRAVE
from advisor.terminal.page import Page
from advisor.terminal.push.gates import not_known


def box(cautions: Sequence[CautionNote], page: Page) -> None:
    """Dangers and then warnings, each kind in a box of its own, nothing twice; then what lies in the pipe."""
    for word in GRAVE:
        grave = [note.text for note in cautions if note.word == word]
        if grave:
            page.boxed(word, list(dict.fromkeys(grave)))
    if there := [note.text for note in cautions if note.in_the_pipe]:
        page.boxed("in the pipe", list(dict.fromkeys(there)))


def box_unsaid(asks: Sequence[AskNote], page: Page) -> None:
    """What nobody has said of this opening: however often it was told, here somebody goes up, in or near."""
    for ask in asks:
        page.boxed(ask.caution.word, [not_known(ask, signal=False)])
