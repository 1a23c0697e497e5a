"""What can hurt, on a card: what decides and what is gravest in boxes, the rest as lines with their worth."""

from __future__ import annotations

import re
from collections.abc import Sequence

from advisor.card import worth
from advisor.card.content import KEPT, Block, Box, Line
from advisor.result.asks import first_asked
from advisor.result.model import AskNote, CautionNote, Plan
from advisor.rulebase.rule import GRAVE
from advisor.tables.card import CardFile

FIRST = "FIRST"
MOST_BOXED, MOST_WARNINGS = 5, 3  # a danger is boxed before any warning and whatever their number
_WORTH = {"warning": worth.WARNING, "caution": worth.CAUTION, "notice": worth.NOTICE}
_SHORT = {**_WORTH, "caution": worth.WARNING, "notice": worth.NOTICE_WORDS}  # in few words


class Hazards:
    """The boxes and lines of one card."""

    def __init__(
        self,
        plan: Plan,
        notes: Sequence[CautionNote],
        asks: Sequence[AskNote],
        words: CardFile,
        pushes: bool = True,
    ) -> None:
        self.notes, self.words = notes, words
        self.asks = sorted(asks, key=first_asked)
        # Of what a push alone can bring about nothing has to stay where nobody pushes.
        self.always = words.on_every_card[plan.region] if pushes else ()
        self.pushes = pushes

    def boxes(self) -> tuple[Box, ...]:
        """What decides whether anybody pushes at all; then every danger; then warnings, if room is left."""
        told = " ".join(self._question(note, note.caution.text) for note in self.asks if note.decides)
        first = [Box(FIRST, told)] if told else []
        graver = [
            Box(note.word.upper(), note.text, note.short if self.pushes else "") for note in self._boxed()
        ]
        return (*first, *graver)

    def blocks(self) -> tuple[Block, Block]:
        """What else nobody has said, and what else to mind, gravest first."""
        boxed = self._boxed()
        words = ("warning", "caution", "notice")
        lesser = [n for word in words for n in self.notes if n.word == word and n not in boxed]
        asked = [self._asked(note) for note in self.asks if not note.decides]
        mind = [self._line(note) for note in lesser]
        return Block("Not known: ask first", "", tuple(asked)), Block("Mind as well", "", tuple(mind))

    def _boxed(self) -> list[CautionNote]:
        dangers = [note for note in self.notes if note.word == "danger"]
        warnings = [note for note in self.notes if note.word == "warning"]
        return dangers + warnings[: min(MOST_WARNINGS, max(0, MOST_BOXED - len(dangers)))]

    def _question(self, note: AskNote, text: str) -> str:
        """What is asked and what follows: in the card's own few words, else by the `text` of the caution."""
        about, so = " and ".join(note.about), "If not" if note.if_not else "If so"
        word = note.caution.word.upper() if note.caution.word in GRAVE else note.caution.word
        told = self.words.find_out.get(note.caution.id, f"{so}, {word}: {text}")
        return f"{about[0].upper()}{about[1:]}? {told}"

    def _asked(self, note: AskNote) -> Line:
        """A danger that nobody has ruled out counts as one; of a lesser one the rest is on the screen."""
        text = note.caution.text
        if note.caution.word == "danger":
            return Line(self._question(note, text), KEPT if self.pushes else worth.DANGER_ASKED)
        value = worth.WARNING_ASKED if note.caution.word == "warning" else worth.ASK
        value = KEPT if self._always(note.caution) else value
        return Line(self._question(note, _first_sentence(text)), value)

    def _line(self, note: CautionNote) -> Line:
        """In few words what can hurt goes last of all; what it has beyond them may go before."""
        word = note.word.capitalize()
        short = f"{word}: {note.short}" if note.short else ""
        value = KEPT if self._always(note) else (_SHORT if short else _WORTH)[note.word]
        called = self.words.untold.get(note.id, "") if self.pushes else ""
        if called:
            value = worth.MACHINE
        elif self.pushes and note.word in GRAVE:  # it hurts whoever did not read it
            value = KEPT
        elif self.pushes and value == worth.WARNING:
            called = re.split(r"[.:]", note.short)[0]
        rest = worth.WARNING_WORDS if note.word in GRAVE else worth.CAUTION
        return Line(f"{word}: {note.text}", value, short=short, rest_worth=rest, called=called)

    def _always(self, note: CautionNote) -> bool:
        return note.in_the_pipe or note.id in self.always


def _first_sentence(text: str) -> str:
    return re.split(r"(?<=[.?!])\s", text.strip())[0]
