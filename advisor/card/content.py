"""What stands on a card, as plain data: every line knows what it is worth when the page is too short."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace

from advisor.card import worth

KEPT = 1000  # worth of what never goes


@dataclass(frozen=True)
class Line:
    """One item; the line of least worth goes first."""

    text: str
    worth: int
    strong: bool = False


Part = tuple[int, int]  # worth, and minus the place


@dataclass(frozen=True)
class Sight:
    """One row of the route table: a counter reading, what comes into view, and what to make of it."""

    reading: str
    span: str
    see: str
    do: str  # and what the hand should feel
    missed: str
    hard: bool
    worth: int


@dataclass(frozen=True)
class Block:
    """A list under a heading; `how` says whether it is read and done, or done and then checked."""

    title: str
    how: str
    lines: tuple[Line, ...]


@dataclass(frozen=True)
class Box:
    """A danger in its box: signal word and text."""

    word: str
    text: str


@dataclass(frozen=True)
class Card:
    """A whole card; `left_out` counts the lines that found no room."""

    job: str
    date: str
    opening: str
    where: str
    target: str
    kit: tuple[str, ...]
    keys: tuple[tuple[str, str], ...]  # a number that must be found at a glance, and what it is
    boxes: tuple[Box, ...]
    sights: tuple[Sight, ...]
    stuck: tuple[Block, ...]  # one for each hard spot, by counter reading
    blocks: tuple[Block, ...]  # before, water, marks, after, assumed
    log_rows: int
    strip: str  # the drawing, as SVG
    strip_words: str  # the drawing in words
    strip_worth: int
    log_worth: int
    fallback: tuple[Line, ...] = ()  # for the back: what to open when this way fails
    chance: tuple[Line, ...] = ()  # for the back: how the chance was found
    left_out: int = 0

    def parts(self) -> list[Part]:
        """What may go, as worth and place; the least valuable first, of equals the later first."""
        found = [(value, -place) for place, value in enumerate(self._worths()) if value < KEPT]
        return [(value, -place) for value, place in sorted(found)]

    def without(self, gone: Collection[Part]) -> Card:
        """The card without some of its parts, which are counted as left out."""
        places = {place for _, place in gone}
        number = iter(range(len(self._worths())))

        def keep() -> bool:
            return next(number) not in places

        return replace(
            self,
            stuck=tuple(replace(b, lines=ended(x for x in b.lines if keep())) for b in self.stuck),
            blocks=tuple(replace(b, lines=tuple(x for x in b.lines if keep())) for b in self.blocks),
            sights=tuple(sight for sight in self.sights if keep()),
            strip=self.strip if keep() else "",
            log_rows=self.log_rows if keep() else 0,
            left_out=self.left_out + len(places),
        )

    def short(self) -> Card:
        """The card without lists, drawing and log, which are counted as left out; what can hurt stays."""
        grave = tuple(
            replace(block, lines=tuple(line for line in block.lines if line.worth >= worth.WARNING))
            for block in self.blocks
        )
        lines = sum(len(old.lines) - len(new.lines) for old, new in zip(self.blocks, grave, strict=True))
        gone = lines + bool(self.strip) + bool(self.log_rows)
        return replace(self, blocks=grave, strip="", log_rows=0, left_out=self.left_out + gone)

    def _worths(self) -> list[int]:
        """The worth of every part in the order of `without`; what is not there is never the one to go."""
        found = [line.worth for block in (*self.stuck, *self.blocks) for line in block.lines]
        found += [sight.worth for sight in self.sights]
        return [*found, self.strip_worth if self.strip else KEPT, self.log_worth if self.log_rows else KEPT]


def ended(lines: Iterable[Line]) -> tuple[Line, ...]:
    """The lines, of which a heading that has lost all its steps promises none."""
    kept = list(lines)
    for place, line in enumerate(kept):
        if line.text.endswith(":") and (place + 1 == len(kept) or kept[place + 1].strong):
            kept[place] = replace(line, text=f"{line.text[:-1]}.")
    return tuple(kept)
