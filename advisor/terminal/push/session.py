"""The push companion: follows a push entry by entry. Every entry is on disk before the next question."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

from advisor.errors import BadInput, Fault
from advisor.job.folder import Job
from advisor.plan import plan
from advisor.push.evidence import effective, planned_anew, weights_of
from advisor.push.kinds import BACK as DRAWN_BACK
from advisor.push.kinds import END, FIND, MARK, NOTE, RESET, SIGHTING, START, WATER, Value
from advisor.push.log import Entry, Log
from advisor.push.now import Now, Push, open_push
from advisor.push.onward import onward
from advisor.result.study import Study
from advisor.tables.where import number
from advisor.terminal.choose import BACK, DONT_KNOW, Choice, choose, type_in, yes_no
from advisor.terminal.page import Page
from advisor.terminal.push.asks import KINDS, SEEN, Asks
from advisor.terminal.push.begin import begin, remind
from advisor.terminal.push.held import Held
from advisor.terminal.push.screens import show_now, show_plan_anew
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
_LAST = 5  # entries shown where one is to be chosen
_BEFORE = timedelta(microseconds=1)  # a late entry stands just before the one it came before


class Session:
    """One sitting at one terminal."""

    def __init__(self, job: Job, ready: Ready, log: Log, page: Page, clock: Clock) -> None:
        self.job, self.ready, self.log, self.page, self.clock = job, ready, log, page, clock
        self.asks = Asks(page, ready.case.units)
        self.study: Study = plan(ready.case, ready.tables, ready.base)
        self._push: Push | None = None
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
            begun = begin(self.study, self.page, self.asks, self._last_operator())
            if begun is None:
                return 0
            # Looked at before it is told: a push that cannot be followed would stand in the way of others.
            at = self.clock()
            self._push = Push(self.study, Entry(0, at, at, START, *begun))
            self._tell(START, *begun)
        while True:
            now = self.now()
            if now is None:
                self.page.line("The push is taken back. Nothing is open.")
                return 0
            self._disagreement(now)
            show_now(now, self.page)
            if not self._step(now):
                return 0

    def _last_operator(self) -> str | None:
        """Who pushed last on this job; None where nobody was named."""
        starts = (entry for entry in reversed(self.log.standing()) if entry.kind == START)
        return next((str(entry.data["operator"]) for entry in starts if entry.data.get("operator")), None)

    def now(self) -> Now | None:
        """The push as the log has it."""
        entries = open_push(self.log.standing())
        if not entries:
            return None
        if self._push is None or self._push.began != entries[0]:
            self._push = Push(self.study, entries[0])
            self.asks.reel = float(self.study.drawn.kit(self._push.loadout).reel.max())
            if self._push.gone is not None:
                self.page.line(
                    f"The kit has no {self._push.gone} any more. From here it is worked out for "
                    f"{self._push.loadout.name}."
                )
            if self._push.cut:
                self.page.line("The rod could go more ways than can be followed: the likeliest are.")
        return Now(self._push, entries[1:])

    def _step(self, now: Now) -> bool:
        key = choose(self.page, "What now?", _FIRST, _MORE)
        does: dict[str, Callable[[Now], None]] = {
            "r": self._reading,
            "w": self._water,
            "s": self._stuck,
            "p": self._back,
            "f": self._found,
            "u": self._undo,
            "l": self._earlier,
            "x": self._reset,
            "a": self._plan_again,
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

    def _reading(self, now: Now) -> None:
        counter = self.asks.counter("Counter?")
        if counter is None:
            return
        key = choose(self.page, "What do you see?", SEEN, (BACK,))
        if key == BACK.key:
            return
        if key == "s":
            self._held(now).begin(counter)
            return
        if key == "n":
            self._tell(SIGHTING, counter, {"what": "nothing"})
            return
        data: dict[str, Value] = {"what": KINDS[key]}
        if key == "t":
            data["clock"] = self.asks.hour()
            data["size"] = self.asks.size("How big is its mouth, about?")
        elif key == "c":
            data["size"] = self.asks.size("To what size?")
        elif key == "m":
            names = list(self.study.tables.materials)
            data["material"] = self.asks.one_of("To what?", names, (DONT_KNOW,))
        self._tell(SIGHTING, counter, data)

    def _water(self, now: Now) -> None:
        if now.water_allowed is False:
            self.page.boxed(
                "warning", ["No water may be run in this line now. Tell only what came by itself."]
            )
        fixtures = list(now.push.tracker.chart.fixtures)
        if now.check is not None:
            fixtures.sort(key=lambda name: name != now.check.fixture)  # type: ignore[union-attr]
        if not fixtures:
            self.page.line("The sheet shows no fixture.")
            return
        fixture = self.asks.one_of("Which fixture?", fixtures)
        if fixture is None:
            return
        came = self.asks.came(now.push.tracker.chart.where.water)
        if came == BACK.key:
            return
        data: dict[str, Value] = {"fixture": fixture, "dye": came in "co"}
        if came in "yc":
            data["seconds"] = self.asks.seconds("After how many seconds?")
            if data["seconds"] is None:
                return
            data["side"] = self.asks.side()
        self._tell(WATER, now.counter, data)
        if came == "n":
            self.page.line("It may run another way: a second main. Dye tells.")

    def _stuck(self, now: Now) -> None:
        counter = self.asks.counter("Counter? Empty: as before", now.counter)
        if counter is not None:
            self._held(now).begin(counter)

    def _held(self, now: Now) -> Held:
        return Held(self.asks, self.page, self._tell, self.now)

    def _back(self, now: Now) -> None:
        counter = self.asks.counter("Counter after pulling back?")
        if counter is not None and counter > now.counter and self._late is None:
            self.page.line("That is more than it shows now, so nothing was drawn back: told nothing.")
        elif counter is not None:
            self._tell(DRAWN_BACK, counter, {})

    def _reset(self, now: Now) -> None:
        counter = self.asks.counter("What does the counter show now? Empty: 0", 0.0)
        if counter is not None:
            self._tell(RESET, now.counter, {"now": counter})

    def _found(self, now: Now) -> None:
        kinds = (Choice("f", "a find: what is wrong or to be told"), Choice("m", "a mark above ground"),
                 Choice("n", "a note"))  # fmt: skip
        key = choose(self.page, "What?", kinds, (BACK,))
        if key == BACK.key:
            return
        question = {"f": "What did you find?", "m": "What is it called?", "n": "What is to be kept?"}[key]
        text = type_in(self.page, question, lambda _: None)
        if not text:
            return
        best = now.fix.best
        there: dict[str, Value] = {}
        if best.line in now.push.study.network.lines and not now.off_map:
            there = {"line": best.line, "distance": best.at}
        if key == "n":
            self._tell(NOTE, now.counter, {"text": text})
        elif key == "f":
            self._tell(
                FIND, now.counter, {"what": text, **there, "clock": self.asks.hour(), "sure": best.chance}
            )
        else:
            depth = self.asks.counter("Depth read above ground? Empty: not taken", 0.0)
            if depth is None:
                return
            self._tell(MARK, now.counter, {"name": text, **there, "depth": depth or None})
        self.page.line(f"Noted: {text}")

    def _undo(self, now: Now) -> None:
        if not now.entries:
            key = choose(self.page, "Take the whole push back?", yes_no())
            if key == "y":
                self.log.undo(now.push.began.number, self.clock())
            return
        last = max(now.entries, key=lambda entry: entry.number)
        self.log.undo(last.number, self.clock())
        self.page.line(f"Taken back: {self._short(last, now)}")

    def _earlier(self, now: Now) -> None:
        """What was seen earlier: it counts as told just before the entry that is chosen."""
        shown = now.entries[-_LAST:]
        if not shown:
            self.page.line("There is nothing yet that it could come before.")
            return
        choices = [Choice(str(i), self._short(entry, now)) for i, entry in enumerate(shown, start=1)]
        key = choose(self.page, "Before which of these was it?", choices, (BACK,))
        if key != BACK.key:
            self._late = shown[int(key) - 1].happened_at - _BEFORE
            self._reading(now)

    def _end(self, now: Now) -> bool:
        key = choose(self.page, "Was the target reached?", yes_no("yes, all of it seen"), (BACK,))
        if key == BACK.key:
            return False
        why = None if key == "y" else type_in(self.page, "Why not?", lambda _: None, "not told") or None
        self._tell(END, now.counter, {"reached": key == "y", "why": why})
        self.page.line("The push is ended. It is all in the log.")
        return True

    # -- the plan -----------------------------------------------------------------------------------

    def _disagreement(self, now: Now) -> None:
        """When reality and plan part, the plan is made from here, once for each way in which they part."""
        if now.disagree and now.disagree != self._told:
            self._told = now.disagree
            self._show_anew(now)

    def _plan_again(self, now: Now) -> None:
        self._show_anew(now)

    def _show_anew(self, now: Now) -> None:
        weights = weights_of(now.push.course, now.tries)
        made = planned_anew(self.ready.case, now.push.course, now.tries, now.wrong_port)
        show_plan_anew(now.disagree, made, onward(made, now), self.page, Words(now))
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
        remind(self.study, now.push.opening.name, now.push.loadout.name, self.page)
        for entry in entries[-3:]:
            self.page.line(self._short(entry, now))

    def _short(self, entry: Entry, now: Now) -> str:
        words = Words(now)
        at = "" if entry.counter is None else f" at {words.length(entry.counter)}"
        says = ("opening", "what", "fixture", "technique", "outcome", "sign", "name", "text")
        what = ", ".join(str(entry.data[name]) for name in says if entry.data.get(name))
        return f"{entry.kind}{at}" + (f": {what}" if what else "")
