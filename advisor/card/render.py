"""A card to a page by typst. What does not fit goes, least valuable first; type never shrinks."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path

from advisor.card.content import Card, Part
from advisor.errors import printable
from advisor.paper.typeset import Press

ROUNDS = 3  # of finding room anew; each sets the page some six times
FORMATS = ("pdf", "png", "svg", "txt")


class Printer:
    """Sets cards; one may be used for many."""

    def __init__(self) -> None:
        self._press = Press((Path(__file__).parent / "card.typ").read_text(encoding="utf-8"))

    def fitted(self, card: Card, paper: str) -> Card:
        """The card with as much of it as one page of that paper takes.

        The least valuable parts go until it fits. Where the last to go was a large one, as the log is, it
        stays out and room is found anew for those that went before it; so a few times over.
        """
        if paper == "half":  # holds the route, what to do when stuck, and the dangers
            card = card.short()
        if self._fits(card, paper):
            return card
        parts = card.parts()
        gone = parts[: self._least(card, [], parts, paper)]
        out: list[Part] = []
        for _ in range(ROUNDS):
            *rest, last = gone[len(out) :]
            out.append(last)
            # Whether there is room for any is soon seen: for the best that went before it.
            if not rest or not self._fits(card.without([*out, *rest[:-1]]), paper):
                return card.without([*out, *rest])
            gone = [*out, *rest[: self._least(card, out, rest, paper)]]
            if len(gone) == len(out):
                break
        return card.without(gone)

    def _least(self, card: Card, out: list[Part], parts: list[Part], paper: str) -> int:
        """How many of `parts` have to go besides `out`, the first of them first, until the page holds."""
        low, high = -1, len(parts)  # the page overflows without the first `low`, and holds without `high`
        while high - low > 1:
            middle = (low + high) // 2
            if self._fits(card.without([*out, *parts[:middle]]), paper):
                high = middle
            else:
                low = middle
        return high

    def printed(self, card: Card, back: Card | None, paper: str, form: str) -> bytes:
        """The page in the format that is asked for; with `back` a PDF has pages more, of the whole card.

        A picture holds the first page only.
        """
        data = _data(card, paper)
        if back is not None:
            data["back"] = _data(back, paper)["card"]
        if form == "pdf":
            return self._press.pdf(data)
        return (self._press.png(data) if form == "png" else self._press.svg(data))[0]

    def _fits(self, card: Card, paper: str) -> bool:
        return self._press.pages(_data(card, paper)) == 1


def _data(card: Card, paper: str) -> dict[str, str]:
    told = {**asdict(card), "paper": paper, "title": f"Route card: {card.job}"}
    return {"card": json.dumps(_shown(told))}


def _shown(value: object) -> object:
    """The data with control, bidi and zero-width signs of user text shown as escapes."""
    if isinstance(value, str):
        return value if value.startswith("<svg") else printable(value)
    if isinstance(value, dict):
        return {key: _shown(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [_shown(each) for each in value]
    return value
