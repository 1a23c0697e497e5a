"""The push companion: follows a push entry by entry. Every entry is on disk before the next question."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta

from advisor.errors import BadInput, Fault
from advisor.job.folder import Job
from advisor.plan import Case, plan
from advisor.push.disagree import disagree
from advisor.push.earlier import earlier
from advisor.push.evidence import effective, planned_anew, weights_of
from advisor.push.kinds import BACK as DRAWN_BACK
from advisor.push.kinds import END, HAD_OUT, OFFERED, RESET, SHUT, START, TRY, Value
from advisor.push.left_stops import left_stops
from advisor.push.log import Entry, Log
from advisor.push.lost import lost_of
from advisor.push.now import Now, open_push
from advisor.push.one_push import Push
from advisor.push.onward import onward
from advisor.result.study import Study
from advisor.tables.where import number
from advisor.terminal.choose import Choice, choose, yes_no
from advisor.terminal.page import Page
from advisor.terminal.push.asks import Asks
from advisor.terminal.push.begin import DoesNotOpen, begin, remind
from advisor.terminal.push.entries import Telling
from advisor.terminal.push.had_out import had_out
from advisor.terminal.push.held import Held
from advisor.terminal.push.home import how_it_ends
from advisor.terminal.push.late import before_which, between
from advisor.terminal.push.screens import show_now, show_plan_anew, why_doubtful
from advisor.terminal.push.short import short
from advisor.terminal.push.steps import in_turn
from advisor.terminal.push.words import Words
from advisor.terminal.ready import Ready

Clock = Callable[[], datetime]
_FIRST = (
    Choice("r", "reading: what the counter shows, what you see"),
    Choice("w", "water: a fixture was run"),
    Choice("s", "stuck: it goes no further"),
    Choice("p", "pulled back"),
    Choice("f", "found something"),
)
_MORE = (
    Choice("u", "undo"),
    Choice("l", "late entry"),
    Choice("x", "counter set anew"),
    Choice("a", "plan again"),
    Choice("e", "end"),
    Choice("q", "leave, go on later"),
)
_BEFORE = timedelta(microseconds=1)  # a late entry stands just before the one it came before


class Session:
    """One sitting at one terminal."""

    def __init__(self, job: Job, ready: Ready, log: Log, page: Page, clock: Clock) -> None:
        self.job, self.ready, self.log, self.page, self.clock = job, ready, log, page, clock
        self.asks = Asks(page, ready.case.units)
        self.ready = replace(ready, case=self._case())
        self.study: Study = plan(self.ready.case, ready.tables, ready.base)
        self._push: Push | None = None
        self._before: tuple[Now, ...] = ()
        self._late: datetime | None = None
        self._told: tuple[str, ...] = ()

    def run(self) -> int:
        """Until it is ended or left; gives 0."""
        if not self.study.kit.loadouts:
            raise BadInput([Fault(str(self.job.folder), 0, "the kit has nothing that can go in")])
        entries = open_push(self.log.standing())
        if entries:
            self._resumed(entries)
        else:
            begun = self._begun()
            if begun is None:
                return 0
            # Looked at before it is told: a push that cannot be followed would stand in the way of others.
            at = self.clock()
            self._push = Push(self.study, Entry(0, at, at, START, *begun))
            self._tell(START, *begun)
            self._know_lost()
        while True:
            now = self.now()
            if now is None:
                self.page.line("The push is taken back. Nothing is open.")
                return 0
            self._disagreement(now)
            show_now(now, self.page)
            if not self._step(now):
                return 0

    def _begun(self) -> tuple[float, dict[str, Value]] | None:
        """How the push begins; an opening that does not open is put on the log, and planned without."""
        passed = None
        out = had_out(self.study, self.page)
        if out is None:
            return None
        for left in out:
            self._tell(HAD_OUT, None, {"opening": left.opening, "push": float(left.push)})
        self._know_lost()
        while True:
            stopped = left_stops(self.study, self.log.standing())
            begun = begin(self.study, self.page, self.asks, self._last_operator(), passed, stopped)
            if not isinstance(begun, DoesNotOpen):
                return begun
            passed = begun.passed
            self._tell(SHUT, None, {"opening": begun.opening})
            self._know_lost()
            self.page.line(f"Noted: {begun.opening} does not open. The plan without it:")

    def _know_lost(self) -> None:
        """Plan anew where the log knows of other openings that are shut, or other kinks, than the plan."""
        case = self._case()
        if case != self.ready.case:
            self.ready = replace(self.ready, case=case)
            self.study, self._push = plan(self.ready.case, self.ready.tables, self.ready.base), None

    def _last_operator(self) -> str | None:
        """Who pushed last on this job; None where nobody was named."""
        starts = (entry for entry in reversed(self.log.standing()) if entry.kind == START)
        return next((str(entry.data["operator"]) for entry in starts if entry.data.get("operator")), None)

    def _case(self) -> Case:
        """What is to be planned, as the log stands."""
        lost = lost_of(self.log.standing(), self.ready.case.kit, self.ready.tables)
        return replace(
            self.ready.case,
            shut=lost.shut,
            kinked=lost.kinked,
            left_in=lost.left_in,
            wedged=lost.wedged,
        )

    def now(self) -> Now | None:
        """The push as the log has it."""
        entries = open_push(self.log.standing())
        if not entries:
            return None
        if self._push is None or self._push.began != entries[0]:
            self._push = Push(self.study, entries[0])
            self._before = earlier(self._push, self.log.standing())
            self.asks.reel = float(self.study.drawn.kit(self._push.loadout).reel.max())
            if self._push.gone is not None:
                self.page.line(
                    f"The kit has no {self._push.gone} any more. From here it is worked out for "
                    f"{self._push.loadout.name}."
                )
            if self._push.cut:
                self.page.line("The rod could go more ways than can be followed: the likeliest are.")
        return Now(self._push, entries[1:], self._before)

    def _step(self, now: Now) -> bool:
        key = choose(self.page, "What now?", _FIRST, _MORE)
        does: dict[str, Callable[[Now], object]] = {
            "r": self._reading,
            "w": self._water,
            "s": self._stuck,
            "p": self._back,
            "f": self._found,
            "u": self._undo,
            "l": self._earlier,
            "x": self._reset,
            "a": self._show_anew,
        }
        if key == "q":
            self.page.line(f"All is kept. Go on with: advisor push {self.job.folder}")
            return False
        if key == "e":
            return not self._end(now)
        does[key](now)
        self._late = None
        return True

    # -- the entries --------------------------------------------------------------------------------

    def _reading(self, now: Now) -> bool:
        return self._telling(now).reading(self._held.begin)

    def _water(self, now: Now) -> None:
        if now.water_allowed is False:
            self.page.boxed(
                "warning", ["No water may be run in this line now. Tell only what came by itself."]
            )
        elif now.not_to_run:
            why = why_doubtful(now, Words(now))
            text = f"Run nothing until the line is seen to drain: {why}. Water may come up indoors."
            self.page.boxed("warning", [text])
        if now.push.tracker.chart.fixtures:
            self._telling(now).water()
        else:
            self.page.line("The sheet shows no fixture.")

    def _stuck(self, now: Now) -> bool:
        return self._telling(now).stuck(self._held.begin)

    def _found(self, now: Now) -> None:
        self._telling(now).found()

    def _telling(self, now: Now) -> Telling:
        return Telling(self.asks, self.page, self._tell, now)

    @property
    def _held(self) -> Held:
        return Held(self.asks, self.page, self._tell, self.now)

    def _back(self, now: Now) -> None:
        counter = self.asks.drawn_back(now.counter)
        if counter is not None:
            self._tell(DRAWN_BACK, counter, {})

    def _reset(self, now: Now) -> None:
        counter = self.asks.counter("What does the counter show now? Empty: 0", 0.0)
        if counter is not None:
            self._tell(RESET, now.counter, {"now": counter})

    def _undo(self, now: Now) -> None:
        if not now.entries:
            key = choose(self.page, "Take the whole push back?", yes_no())
            if key == "y":
                self.log.undo(now.push.began.number, self.clock())
            return
        for entry in sorted(now.entries, key=lambda entry: -entry.number):
            self.log.undo(entry.number, self.clock())
            if entry.kind != OFFERED:  # what the program offered goes with what the operator told before it
                break
        self.page.line(f"Taken back: {short(entry, now)}")
        before = self.now()
        if entry.kind == TRY and before is not None and before.held_at[1]:
            self._held.again(before)

    def _earlier(self, now: Now) -> None:
        """What was seen earlier: it counts as told just before the entry that is chosen."""
        if not now.entries:
            self.page.line("There is nothing yet that it could come before.")
            return
        late: list[Entry] = []

        def before() -> bool:
            chosen = before_which(now.entries, lambda entry: short(entry, now), self.page)
            late[:] = [] if chosen is None else [chosen]
            return chosen is not None

        def read() -> bool:
            (chosen,) = late
            self._late = chosen.happened_at - _BEFORE
            within = between(now.push.began, now.entries, chosen)
            return Telling(self.asks, self.page, self._tell, now, within).reading(self._held.begin)

        in_turn(before, read)

    def _end(self, now: Now) -> bool:
        told = how_it_ends(now, self.asks, self.page, self._stuck)
        if told is None:
            return False
        counter, data = told
        self._tell(END, counter, data)
        if data["out"] is False:
            self.page.boxed("warning", [self.study.tables.stuck.left_in.home])
        self.page.line("The push is ended. It is all in the log.")
        self.page.line(f"Write it up: advisor report {self.job.folder}")
        return True

    # -- the plan -----------------------------------------------------------------------------------

    def _disagreement(self, now: Now) -> None:
        """When reality and plan part, the plan is made from here, once for each way in which they part."""
        parted = disagree(now)
        if parted and parted != self._told:
            self._told = parted
            self._show_anew(now)

    def _show_anew(self, now: Now) -> None:
        weights = weights_of(now.push.course, now.tries)
        made = planned_anew(self._case(), now.push.course, now.tries, now.wrong_port)
        show_plan_anew(now, made, onward(made, now), self.page)
        if effective(weights) < number(self.study.tables.where.sure.few_left) * len(weights):
            self.page.line("Little of what was thought possible fits this. Take these chances with care.")

    # -- the log ------------------------------------------------------------------------------------

    def _tell(self, kind: str, counter: float | None, data: dict[str, Value]) -> Entry:
        """Put an entry on disk; what fails is told, and the entry does not count."""
        told = {name: value for name, value in data.items() if value is not None}
        return self.log.append(kind, counter, told, self.clock(), self._late)

    def _resumed(self, entries: tuple[Entry, ...]) -> None:
        now = self.now()
        assert now is not None
        self.page.heading(f"Going on from {now.push.opening.name}")
        remind(self.study, now.push.opening.name, now.push.loadout.name, now.drains is True, self.page)
        for entry in entries[-3:]:
            self.page.line(short(entry, now))
        self._held.remind(now)
