"""The push companion: follows a push entry by entry. Every entry is on disk before the next question."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from functools import partial

from advisor.errors import BadInput, Fault
from advisor.job.folder import Job
from advisor.push.before.elsewhere import Before, pushes_before
from advisor.push.before.end_reached import last_hardly_reached
from advisor.push.disagree import disagree
from advisor.push.log.kinds import ANEW, END, HAD_OUT, RESET, SHUT, START, TRY, Value
from advisor.push.log.kinds import BACK as DRAWN_BACK
from advisor.push.log.log import Entry, Log, open_push
from advisor.push.now.evidence import effective, planned_anew, weights_of
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.onward import onward
from advisor.result.build import plan_of
from advisor.result.out import left_words
from advisor.result.study import Study
from advisor.tables.where import number
from advisor.terminal.choose import choose
from advisor.terminal.page import Page
from advisor.terminal.push.asks import Asks
from advisor.terminal.push.begin import DoesNotOpen, begin
from advisor.terminal.push.cleaned_out import cleaned_out
from advisor.terminal.push.entries import Telling
from advisor.terminal.push.gates import GONE_ON, Gates, pass_gates
from advisor.terminal.push.had_out import had_out
from advisor.terminal.push.held import Held
from advisor.terminal.push.here import show_now
from advisor.terminal.push.home import came_back, how_it_ends
from advisor.terminal.push.keys import HANDS_ON, LED_ANEW, MORE, offered
from advisor.terminal.push.late import before_which, between
from advisor.terminal.push.led_into import ask_led_anew
from advisor.terminal.push.plan_anew import show_plan_anew
from advisor.terminal.push.planned import Planned
from advisor.terminal.push.remind import remind
from advisor.terminal.push.short import short
from advisor.terminal.push.steps import in_turn
from advisor.terminal.push.undo import Clock, take_back
from advisor.terminal.ready import Ready

_BEFORE = timedelta(microseconds=1)  # a late entry stands just before the one it came before


class Session:
    """One sitting at one terminal."""

    def __init__(self, job: Job, ready: Ready, log: Log, page: Page, clock: Clock) -> None:
        self.job, self.log, self.page, self.clock = job, log, page, clock
        self.asks = Asks(page, ready.case.units)
        self.planned = Planned(ready, log, clock())
        self._push: Push | None = None
        self._pushes: Before = ((), (), ())
        self._late: datetime | None = None
        self._told: tuple[str, ...] = ()
        self._asked_plan = False

    def run(self) -> int:
        """Until it is ended or left; gives 0."""
        if not self.study.kit.loadouts:
            raise BadInput([Fault(str(self.job.folder), 0, "the kit has nothing that can go in")])
        entries = open_push(self.log.standing())
        if entries:
            if not self._resumed(entries):
                return 0
        else:
            begun = self._begun()
            if begun is None:
                return 0
            # Looked at before it is told: a push that cannot be followed would stand in the way of others.
            at = self.clock()
            self._push = Push(self.study, Entry(0, at, at, START, *begun))
            self._tell(START, *begun)
            self.planned.passed = None
            self._renew()
        while True:
            now = self.now()
            if now is None:
                self.page.line("The push is taken back. Nothing is open.")
                return 0
            self._disagreement(now)
            if not self._asked_plan:  # its answer is not to scroll off above what stood there already
                show_now(now, self.page)
            self._asked_plan = False
            if not self._step(now):
                return 0

    def _begun(self) -> tuple[float, dict[str, Value]] | None:
        """How the push begins; an opening that does not open is put on the log, and planned without."""
        if not had_out(self.study, self.log, self.page, self.clock):
            return None
        self._renew()
        if not cleaned_out(self.study, self.log, self.asks, self.clock):
            return None
        self._renew()
        while True:
            standing, passed = self.log.standing(), self.planned.passed
            begun = begin(self.study, self.page, self.asks, standing, passed, self._settle)
            if not isinstance(begun, DoesNotOpen):
                return begun
            self._tell(SHUT, None, {"opening": begun.opening})
            self._renew()
            self.page.line(f"Noted: {begun.opening} does not open. The plan without it:")

    @property
    def study(self) -> Study:
        """The plan as it stands."""
        return self.planned.study

    def _settle(self, passed: Gates) -> Study:
        """The plan with what was told before hands go on."""
        self.planned.passed = passed
        self._renew()
        return self.study

    def _renew(self) -> None:
        """Plan anew where the plan does not know what the log does, or what was told just now."""
        if self.planned.renew():
            self._push = None

    def now(self) -> Now | None:
        """The push as the log has it."""
        entries = open_push(self.log.standing())
        if not entries:
            return None
        if self._push is None or self._push.began != entries[0]:
            self._push = Push(self.study, entries[0], self.planned.begun())
            self._pushes = pushes_before(self._push, self.log.standing())
            self.asks.go_by(self.study, self._push.loadout)
            if self._push.gone is not None:
                self.page.line(
                    f"The kit has no {self._push.gone} any more. From here it is worked out for "
                    f"{self._push.loadout.name}."
                )
            if self._push.cut:
                self.page.line("The rod could go more ways than can be followed: the likeliest are.")
        now = Now(self._push, entries[1:], *self._pushes)
        self.asks.below = now.counted(0.0) < 0
        return now

    def _step(self, now: Now) -> bool:
        key = choose(self.page, "What now?", offered(now), MORE)
        does: dict[str, Callable[[Now], object]] = {
            "r": self._reading,
            "w": lambda now: self._telling(now).water(),
            "s": self._stuck,
            "p": self._back,
            "f": lambda now: self._telling(now).found(),
            "u": self._undo,
            "l": self._earlier,
            "x": self._reset,
            LED_ANEW: self._led_anew,
            "a": self._plan_again,
        }
        if key == "q":
            self.page.line(f"All is kept. Go on with: advisor push {self.job.folder}")
            return False
        if key == "e":
            return not self._end(now)
        if key in HANDS_ON and self.planned.lapsed(self.clock()):
            self._renew()
            return self._resumed(open_push(self.log.standing()))
        does[key](now)
        self._late = None
        return True

    # -- the entries --------------------------------------------------------------------------------

    def _reading(self, now: Now) -> bool:
        return self._telling(now).reading(self._held.begin)

    def _stuck(self, now: Now) -> bool:
        return self._telling(now).stuck(self._held.begin)

    def _telling(self, now: Now) -> Telling:
        return Telling(self.asks, self.page, self._tell, now)

    @property
    def _held(self) -> Held:
        return Held(self.asks, self.page, self._tell, self.now)

    def _back(self, now: Now) -> None:
        counter = self.asks.drawn_back(now.counter)
        if counter is not None:
            self._tell(DRAWN_BACK, counter, {})
            came_back(now, self.page)

    def _reset(self, now: Now) -> None:
        counter = self.asks.counter("What does the counter show now? Empty: 0", 0.0)
        if counter is not None:
            self._tell(RESET, now.counter, {"now": counter})

    def _led_anew(self, now: Now) -> None:
        """One push ends and another begins: what the first passed is no place of the second."""
        for kind, counter, data in ask_led_anew(now, self.asks, self.page):
            self._tell(kind, counter, data)
            self._told = ()
        self._renew()

    def _undo(self, now: Now) -> None:
        entry, before = take_back(now, self.log, self.page, self.clock), self.now()
        if entry is None:
            self._renew()  # of a push that was led in anew that before it is open again
        elif entry.kind == HAD_OUT or entry not in now.entries:
            self._push = None  # and with it what is known of earlier pushes
            self._renew()
            for told in left_words(self.study):
                self.page.strong(told)
        elif entry.kind == TRY and before is not None and before.held_at[1]:
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
        hardly = partial(last_hardly_reached, now, self.log.standing())
        told = how_it_ends(now, self.asks, self.page, self._stuck, hardly)
        if told is None:
            return False
        counter, data = told
        self._tell(END, counter, data)
        if data["out"] is False:
            self.page.boxed("warning", [self.study.tables.in_pipe.left_in.home])
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

    def _plan_again(self, now: Now) -> None:
        self._show_anew(now)
        self._asked_plan = True

    def _show_anew(self, now: Now) -> None:
        weights = weights_of(now.push.course, now.tries)
        made = planned_anew(self.planned.case_from_here(), now.push.course, now.tries, now.wrong_port)
        show_plan_anew(now, made, onward(made, now), self.page)
        if effective(weights) < number(self.study.tables.where.sure.few_left) * len(weights):
            self.page.line("Little of what was thought possible fits this. Take these chances with care.")

    # -- the log ------------------------------------------------------------------------------------

    def _tell(self, kind: str, counter: float | None, data: dict[str, Value]) -> Entry:
        """Put an entry on disk; what fails is told, and the entry does not count."""
        told = {name: value for name, value in data.items() if value is not None}
        return self.log.append(kind, counter, told, self.clock(), self._late)

    def _resumed(self, entries: tuple[Entry, ...]) -> bool:
        """The open push told again; False where nobody says that what must be so before any push is so."""
        now, ask = self.now(), self.planned.unsaid
        assert now is not None
        remind(self.study, now.push.opening.name, now.push.loadout.name, entries, ask, self.page)
        if ask and not self._asked_anew():
            return False
        now = self.now() or now
        for entry in entries[-3:]:
            self.page.line(short(entry, now))
        self._held.remind(now)
        return True

    def _asked_anew(self) -> bool:
        """Whether what nobody has said since is so now; what is told of it is kept, and planned with."""
        passed = pass_gates(self.study, plan_of(self.study), self.page, GONE_ON)
        if passed is None:
            return False
        if passed.told:
            self._tell(ANEW, None, {"told": passed.told, "drains": passed.drains})
        self.planned.asked(self.clock())
        self._renew()
        return True
