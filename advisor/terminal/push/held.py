"""A head that is held: what is seen and felt, the likely cause, tries and what came of them."""

from __future__ import annotations

from collections.abc import Callable

from advisor.outcome.attempts import NO_TRY, STEADY, TECHNIQUES, called
from advisor.push.held.all_the_same import all_the_same, ran_unseen
from advisor.push.held.stuck import Stuck
from advisor.push.held_now import held_now, plight_of
from advisor.push.learn.taught import book_value
from advisor.push.log.kinds import BACK, KINKED, OFFERED, PASSED, STOPPED, TRY, WEDGED, Value
from advisor.push.log.sighting import STILL
from advisor.push.now.now import Now
from advisor.terminal.choose import Choice, choose
from advisor.terminal.page import Page
from advisor.terminal.push.asks import Asks, Data
from advisor.terminal.push.entries import Tell
from advisor.terminal.push.hard import show_way_out
from advisor.terminal.push.home import came_back
from advisor.terminal.push.signs import ask_signs
from advisor.terminal.push.steps import in_turn
from advisor.terminal.push.stuck import show_stuck


class Held:
    """One stop of the head, until it passes or is left."""

    def __init__(self, asks: Asks, page: Page, tell: Tell, now: Callable[[], Now | None]) -> None:
        self.asks, self.page, self.tell, self.now = asks, page, tell, now

    def begin(self, counter: float, more: Data) -> bool:
        """Ask for the signs, tell the stop with `more`, and go through the tries. False: back."""
        now = self.now()
        assert now is not None
        table = now.push.study.tables.stuck
        told: list[tuple[str, ...]] = []
        data: Data = {}

        def signs_told() -> bool:
            told[:] = [each for each in (ask_signs(self.page, table),) if each is not None]
            return bool(told)

        def stood() -> bool | None:
            data.clear()
            return self.asks.stood(counter, data) if STILL in told[0] else None

        if not in_turn(signs_told, stood):
            return False
        (signs,) = told
        by_eye = [name for name in signs if table.signs[name].by == "eye"]
        by_hand = [name for name in signs if table.signs[name].by == "hand"]
        says = {"sign": ", ".join(by_eye) or None, "feel": ", ".join(by_hand) or None}
        self.tell(STOPPED, counter, {**says, **data, **more})
        self._tries(counter, None)
        return True

    def again(self, now: Now) -> None:
        """Go on with the tries of a stop that was told before, what has failed and was offered counted in."""
        offers = (str(entry.data["technique"]) for entry in reversed(now.entries) if entry.kind == OFFERED)
        self._tries(now.counter, next(offers, None))

    def remind(self, now: Now) -> None:
        """The stop told again where a push is gone on with while its head is held: what first, what not."""
        if (found := held_now(now)) is not None:
            show_stuck(found, now, self.page)

    def _tries(self, counter: float, offered: str | None) -> None:
        """Until it passes or is left; `offered` is what stands in the log as offered last."""
        tries = -1
        while True:
            now = self.now()
            found = None if now is None else held_now(now)
            if now is None or found is None:
                return
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
        # What must not be pushed is offered no push; whoever did it all the same tells it as something else.
        choices += [Choice("c", "it comes back")] if found.no_push else [Choice("g", "pushed gently again")]
        choices += [Choice("o", "tried something else"), Choice("h", "how to get out")]
        key = choose(self.page, "And now?", choices, (Choice("m", "main list"),))
        if key == "m":
            return False
        if key == "h":
            show_way_out(found, now, self.page)
            return True
        if key == "c":
            back = self.asks.drawn_back(counter)
            if back is not None:
                self.tell(BACK, back, {})
                came_back(now, self.page)
            return back is None
        chosen: list[str] = [first if key == "t" and first else STEADY]
        outcome: Data = {}

        def which() -> bool | None:
            if key != "o":
                return None
            names = {called(name): name for name in TECHNIQUES if name not in NO_TRY}
            name = names.get(self.asks.one_of("What was tried?", list(names)) or "")
            chosen[:] = [name] if name else chosen
            return name is not None

        rigged = now.push.study.tables.stuck.rigged_outside
        if not in_turn(
            which,
            lambda: self.asks.drawn_out(chosen[0], rigged, outcome),
            lambda: self.asks.outcome(chosen[0], outcome),
        ):
            return True
        (technique,) = chosen
        self.tell(
            TRY, counter, {**self._says(found, technique, now), **outcome, "loadout": now.push.loadout.name}
        )
        hard, ran = outcome.get("force") == "hard", outcome.get("water") == "running"
        passed = outcome["outcome"] == PASSED
        over = outcome["outcome"] in (KINKED, WEDGED) or found.over or (found.no_push and not passed)
        remark = all_the_same(now.push.course, found, technique, hard, ran, over)
        for said in (ran_unseen(now.push.study, plight_of(now), outcome.get("water")), remark):
            if said is not None:
                self.page.strong(said)
        return not passed

    def _says(self, found: Stuck, technique: str, now: Now) -> dict[str, Value]:
        """Spot, technique, class of fitting and the book's mean chance of one try there."""
        met = next((each for each in now.push.course.spots if each.name == found.spot), None)
        says: dict[str, Value] = {"technique": technique, "spot": found.spot or None}
        if met is not None:
            says["way"] = met.hard.spot.shape.turn.way
            says["book"] = book_value(met.hard, technique)
        return says
