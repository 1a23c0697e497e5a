"""A card as plain text of 48 columns, for a terminal or a printer of till rolls."""

from __future__ import annotations

import textwrap

from advisor.card.content import Block, Card
from advisor.errors import printable

COLUMNS = 48


def card_text(card: Card) -> str:
    """The front of a card, every line that it holds: a roll has no end. Signs beyond ASCII are said in words.

    Of a block with more items than are read the card holds the weightiest (notices go first); how many are
    gone is told at the end. The drawing, the rows for a log and the back are for paper.
    """
    card = card.limited()
    lines: list[str] = []

    def put(words: str, first: str = "", rest: str = "") -> None:
        shown = printable(words).replace("°", " deg")
        lines.extend(
            textwrap.wrap(shown, COLUMNS, initial_indent=first, subsequent_indent=rest) or [first.rstrip()]
        )

    def listed(block: Block, head: str) -> None:
        if block.lines:
            put("")
            put(head)
            for line in block.lines:
                more = ":" if line.steps else ": steps on the plan." if line.steps_left else ""
                put(line.text + more, "- ", "  ")
                for step in line.steps:
                    put(step, "  - ", "    ")

    put(f"{card.job}, {card.date}")
    if card.first:
        put(" ".join(filter(None, (card.first, card.first_left))))
    where = ", ".join(filter(None, (card.where, card.stands)))
    put(f"{card.lead} {card.opening}: {where}." if card.opening else card.target)
    if card.opening:
        put(f"See: {card.target}{card.gets_there}.")
    for words in card.kit:
        put(words)
    for box in card.boxes:
        put("=" * COLUMNS)
        put(f"{box.word}: {box.text}")
    put("=" * COLUMNS)
    for number, what in card.keys:
        put(f"{number}  {what}")
    if card.pull_rests_on:
        put(f"({card.pull_rests_on})", "    ", "    ")
    if card.lasts:
        put(card.lasts)
    for words in card.minds:
        put(f"Mind: {words}")
    if card.sights:
        put("")
        put("ROUTE (COUNTER READING)")
    for sight in card.sights:
        mark = "! " if sight.hard else "  "
        span = f" ({sight.span})" if sight.span else ""
        put(f"{sight.reading}{span}: {sight.see}", mark, "    ")
        put(sight.do, "    ", "    ")
        put(f"Not seen? {sight.missed}", "    ", "    ")
    if card.stuck:
        put("")
        put("IF STUCK: READ, THEN DO")
    for block in card.stuck:
        listed(block, block.title)
    for block in card.blocks:
        listed(
            block, f"{block.title}: {block.how}".upper().rstrip(": ") if block.how else block.title.upper()
        )
    put("")
    put("Predicted, not surveyed. Local code and licensed person decide.")
    if card.left_out:
        lines_out = "line" if card.left_out == 1 else "lines"
        put(f"{card.left_out} {lines_out} left out: see the whole plan on the screen.")
    return "\n".join(line.rstrip() for line in lines) + "\n"
