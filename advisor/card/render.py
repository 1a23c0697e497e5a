"""A card to a page by typst. What does not fit goes, least valuable first; type never shrinks."""

from __future__ import annotations

import json
from dataclasses import asdict, replace
from pathlib import Path

from advisor.card.content import Card, Part
from advisor.errors import printable
from advisor.paper.sizes import SIZES
from advisor.paper.typeset import Press

ROUNDS = 8  # of finding room anew; each sets the page once or a few times more
GUESSES = 3  # of a round, before it is halved like any search
ROW = 13.8  # points from one row of type to the next
OVERLEAF = 120.0  # points that a second page loses: the edges between the two, and what is not parted
FORMATS = ("pdf", "png", "svg", "txt")


class Printer:
    """Sets cards; one may be used for many."""

    def __init__(self) -> None:
        self._press = Press((Path(__file__).parent / "card.typ").read_text(encoding="utf-8"))

    def fitted(self, card: Card, paper: str) -> Card:
        """The card with as much of it as one page of that paper takes.

        Where what never goes is more than that, as much as two take: the first says that there are two.
        """
        card = card.limited()
        if paper == "half":  # holds the route, what to do when stuck, and the dangers
            card = card.short()
        fitted = self._fitted(card, paper)
        if self._over(fitted, paper) <= 0:
            return fitted
        return self._fitted(replace(card, overleaf=True), paper)

    def _fitted(self, card: Card, paper: str) -> Card:
        """As much of the card as finds room.

        The least valuable parts go until it fits. The last to go stays out, be it large as the log is or of
        the longer of two columns, and room is found anew for those that went before it; so a few times over.
        """
        over = self._over(card, paper)
        if over <= 0:
            return card
        parts = card.parts()
        gone = parts[: self._least(card, [], parts, paper, 0, over)]
        out: list[Part] = []
        while len(gone) > len(out) and len(out) < ROUNDS:
            *rest, last = gone[len(out) :]
            out.append(last)
            gone = [*out, *rest[: self._least(card, out, rest, paper, len(rest), 0.0)]]
        return card.without(gone)

    def _least(self, card: Card, out: list[Part], parts: list[Part], paper: str, at: int, over: float) -> int:
        """How many of `parts` have to go besides `out`, the first of them first, until the page holds.

        Without the first `at` of them it is `over` points too long. Each trial is guessed from the one
        before; where guesses do not close in, the middle is taken.
        """
        low, high = (
            (at if over > 0 else -1),
            len(parts),
        )  # it overflows without `low`, it holds without `high`
        rows = card.rows()
        heights = [ROW * rows[place] for _, place in parts]
        trials = 0
        while high - low > 1:
            guess = min(max(_guess(heights, at, over), low + 1), high - 1)
            at = guess if trials < GUESSES else (low + high) // 2
            over = self._over(card.without([*out, *parts[:at]]), paper)
            low, high = (at, high) if over > 0 else (low, at)
            trials += 1
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

    def _over(self, card: Card, paper: str) -> float:
        """By how many points the card is longer than its page, or two; what is not above 0 finds room."""
        room = SIZES[paper][1] * (2 if card.overleaf else 1) - (OVERLEAF if card.overleaf else 0.0)
        return self._press.height(_data(card, paper, endless=True)) - room


def _guess(heights: list[float], at: int, over: float) -> int:
    """How many parts have to go where the page is `over` points too long without the first `at`."""
    while over > 0 and at < len(heights):
        over -= heights[at]
        at += 1
    while at > 0 and over + heights[at - 1] <= 0:
        at -= 1
        over += heights[at]
    return at


def _data(card: Card, paper: str, endless: bool = False) -> dict[str, str]:
    """What the page is set from; an endless one is as long as what stands on it."""
    wide, tall = SIZES[paper]
    told = {**asdict(card), "paper": paper, "title": f"Route card: {card.job}"}
    return {"card": json.dumps(_shown({**told, "wide": wide, "tall": None if endless else tall}))}


def _shown(value: object) -> object:
    """The data with control, bidi and zero-width signs of user text shown as escapes."""
    if isinstance(value, str):
        return value if value.startswith("<svg") else printable(value)
    if isinstance(value, dict):
        return {key: _shown(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [_shown(each) for each in value]
    return value
