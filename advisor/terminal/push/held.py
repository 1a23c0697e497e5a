"""A head that is held: what is seen and felt, the likely cause, tries and what came of them."""

from __future__ import annotations

from collections.abc import Callable

from advisor.outcome.attempts import NO_TRY, TECHNIQUES
from advisor.push.kinds import OFFERED, PASSED, STOPPED, TRY, Value
from advisor.push.log import Entry
from advisor.push.now import Now
from advisor.push.stuck import Stuck, stuck
from advisor.push.taught import book_value
from advisor.terminal.choose import Choice, choose
from advisor.terminal.page import Page
from advisor.terminal.push.asks import Asks
from advisor.terminal.push.screens import show_stuck, show_way_out

Tell = Callable[[str, float | None, dict[str, Value]], Entry]


class Held:
    """One stop of the head, until it passes or is left."""

    def __init__(self, asks: Asks, page: Page, tell: Tell, now: Callable[[], Now | None]) -> None:
        self.asks, self.page, self.tell, self.now = asks, page, tell, now

    def begin(self, counter: float) -> None:
        """Ask for the signs, tell the stop, and go through the tries."""
        now = self.now()
        assert now is not None
        table = now.push.study.tables.stuck
        signs = self.asks.signs(table)
        by_eye = [name for name in signs if table.signs[name].by == "eye"]
        by_hand = [name for name in signs if table.signs[name].by == "hand"]
        self.tell(STOPPED, counter, {"sign": ", ".join(by_eye) or None, "feel": ", ".join(by_hand) or None})
        offered: str | None = None
        tries = -1
        while True:
            now = self.now()
            assert now is not None
            met, _ = now.held_at
            found = stuck(now.push.course, met, frozenset(signs), now.tries, now.belief.rod)
            if tries != len(now.tries):  # told once after each try, not again after each look elsewhere
                show_stuck(found, now, self.page)
                tries = len(now.tries)
            first = found.tries[0].technique if found.tries and not found.stop else None
            if first is not None and first != offered:
                self.tell(OFFERED, counter, self._says(found, first, now))
                offered = first
            if not self._tried(found, first, counter, now):
                return

    def _tried(self, found: Stuck, first: str | None, counter: float, now: Now) -> bool:
        """True while it is still held and something more is to be said."""
        choices = [Choice("t", f"tried it: {first}")] if first else []
        choices += [
            Choice("g", "a gentle push again"),
            Choice("o", "tried something else"),
            Choice("h", "how to get out"),
        ]
        key = choose(self.page, "And now?", choices, (Choice("m", "main list"),))
        if key == "m":
            return False
        if key == "h":
            show_way_out(found, self.page)
            return True
        technique: str | None = first if key == "t" else "steady push"
        if key == "o":
            names = [name for name in TECHNIQUES if name not in NO_TRY]
            technique = self.asks.one_of("What was tried?", names)
        outcome = self.asks.outcome() if technique else None
        if technique is None or outcome is None:
            return True
        self.tell(
            TRY, counter, {**self._says(found, technique, now), **outcome, "loadout": now.push.loadout.name}
        )
        return outcome["outcome"] != PASSED

    def _says(self, found: Stuck, technique: str, now: Now) -> dict[str, Value]:
        """Spot, technique, class of fitting and the book's mean chance of one try there."""
        met = next((each for each in now.push.course.spots if each.name == found.spot), None)
        says: dict[str, Value] = {"technique": technique, "spot": found.spot or None}
        if met is not None:
            says["way"] = met.hard.spot.shape.turn.way
            says["book"] = book_value(met.hard, technique)
        return says
