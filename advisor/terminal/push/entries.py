"""What is asked for one entry beside the opening: a reading, water of a fixture, a find, mark or note."""

from __future__ import annotations

from collections.abc import Callable

from advisor.push.log.kinds import FIND, LOOKED, MACHINE, MARK, NOTE, SIGHTING, WATER, Value
from advisor.push.log.log import Entry
from advisor.push.now.now import Now
from advisor.push.now.then import at_reading, passed, stops_behind
from advisor.push.report.doubt import doubt_now, place_at
from advisor.push.track.checks import passes
from advisor.quantity import show_tape
from advisor.tables.where import number
from advisor.terminal.choose import BACK, DONT_KNOW, Choice, choose, yes_no
from advisor.terminal.page import Page
from advisor.terminal.push.asks import KINDS, SEEN, Asks, Data
from advisor.terminal.push.here import show_ground
from advisor.terminal.push.home import came_free
from advisor.terminal.push.look_first import look_first, to_be_seen
from advisor.terminal.push.machine import ask_machine, show_machine
from advisor.terminal.push.odd_depth import odd_depth
from advisor.terminal.push.open_past import ask_name, ask_open
from advisor.terminal.push.pool import ask_end_of_late, ask_end_of_pool, with_end
from advisor.terminal.push.steps import in_turn
from advisor.terminal.push.water import ask_instead, warn_before, warn_before_any
from advisor.terminal.push.words import Words

Tell = Callable[[str, float | None, dict[str, Value]], Entry]
_STOPS = 3  # told at a find
_HALF = 0.5  # more likely than not
_FOUND = (
    Choice("f", "a find: what is wrong or to be told"),
    Choice("m", "a mark above ground"),
    Choice("n", "a note"),
    Choice("c", "a cutter or another machine was run, by somebody licensed"),
)
_AS_FIND = (
    "That may be a gas pipe or a cable. It is kept as a find: no blow, no cutter, no jet there. "
    "Not so? Take it back."
)
_WHAT = {"f": "What did you find?", "m": "What is it called?", "n": "What is to be kept?"}


class Telling:
    """The questions for one entry; `data` is what it will say, and nothing is told before the last answer."""

    def __init__(
        self, asks: Asks, page: Page, tell: Tell, now: Now, within: tuple[float, float] | None = None
    ) -> None:
        """A reading outside what it must lie `within`, m, is asked about: what was seen earlier."""
        self.asks, self.page, self.tell, self.now, self.within = asks, page, tell, now, within
        self.key = self.text = ""
        self.counter: float | None = None
        self.data: Data = {}
        self.free: bool | None = None  # of a head that came neither way
        self.look = now.push.study.tables.in_pipe.drained_before.look
        self.then = now  # the push as it was where a find was seen

    # -- a reading ----------------------------------------------------------------------------------

    def reading(self, held: Callable[[float, Data], bool]) -> bool:
        """A reading and what is seen there; `held` asks on where it goes no further. False: left."""
        answered = in_turn(
            self._counter,
            self._sight,
            lambda: self.asks.hour(self.data) if self.key == "t" else None,
            lambda: self.asks.size("How big is its mouth, about?", self.data) if self.key == "t" else None,
            lambda: self.asks.new_size(self.data) if self.key == "c" else None,
            lambda: self.asks.material(self.now.push.study.tables, self.data) if self.key == "m" else None,
            lambda: held(self.counter or 0.0, {"free": self.free}) if self.key == "s" else None,
            self._end_of_pool,
        )
        if answered and self.key != "s":
            says: Data = {"what": KINDS.get(self.key, "nothing"), **self.data, "free": self.free}
            for at, seen in with_end(self.counter, says):
                self.tell(SIGHTING, at, seen)
        return answered

    def stuck(self, held: Callable[[float, Data], bool]) -> bool:
        """The reading at which it goes no further, then what `held` asks. False: left."""
        self.counter = self.now.counter
        return in_turn(self._counter, lambda: held(self.counter or 0.0, {"free": self.free}))

    def _counter(self) -> bool:
        asked = "Counter?" if self.counter is None else "Counter? Empty: as before"
        read = self.asks.counter(asked, self.counter)
        while read is not None and not self._may_be(read):
            read = self.asks.counter(asked, self.counter)
        self.counter = self.counter if read is None else read
        return read is not None

    def _may_be(self, read: float) -> bool:
        """Whether a reading fits those told before and after it, or is right all the same."""
        sure, last = self.now.push.study.tables.where.sure, self.now.counter
        if self.within is not None:
            return self.asks.lies_within(read, *self.within, number(sure.at))
        shown, before = map(Words(self.now).length, (read, last))
        self.free = None
        if self.now.neither_way and abs(read - last) >= self.now.push.tracker.chart.cell:
            self.free = came_free(self.now, read, self.asks)
            return self.free is not None
        if read < last - number(sure.far_back):
            odd = f"{shown} is far behind {before}, told last, and no drawing back was told."
            return self.asks.right(odd, shown)
        asked = self.asks.reel is not None and read > self.asks.reel  # about that already
        # Without its point a reading is ten times itself: from 1.5 to 6.2, and 62 was typed.
        soon = number(sure.point_left_out if 0 < 10 * last <= read else sure.far_ahead)
        if read > last + soon and not asked:
            return self.asks.right(f"{shown} is far ahead of {before}, told last.", shown)
        return True

    def _sight(self) -> bool:
        self.data.clear()
        self.key = choose(self.page, "What do you see?", SEEN, (BACK,))
        return self.key != BACK.key

    def _end_of_pool(self) -> bool | None:
        """What was seen earlier tells no end of a pool that was told since; one told late, its own."""
        if self.key == "w" and self.within is not None and self.counter is not None:
            return ask_end_of_late(self.asks, self.counter, max(self.within), self.data)
        if self.key != "n" or self.within is not None or self.counter is None:
            return None
        return ask_end_of_pool(self.now, self.asks, self.counter, self.data)

    # -- water --------------------------------------------------------------------------------------

    def water(self) -> None:
        """A fixture was run: whether its water came by, when, and from which side."""
        now = self.now
        warn_before_any(now, self.page)
        if not now.push.tracker.chart.fixtures and not to_be_seen(now):
            self.page.line("The sheet shows no fixture.")
            return
        if in_turn(self._fixture, self._came, self._seconds, self._side, self._drains):
            share = passes(self.now.push.tracker, self.now.belief, str(self.data["fixture"]))
            self.tell(WATER, self.now.counter, self.data)
            self._why_dry(share)
        elif self.data.get("fixture") == self.look and (drains := look_first(now, self.page)) is not None:
            self.data = {"drains": drains}
            self.tell(LOOKED, now.counter, self.data)
        if self.data.get("drains") is False:
            self.page.boxed("warning", ["Stop all water now. No more until it is seen to drain."])

    def _fixture(self) -> bool:
        # In one order, whatever is proposed: a key means the same fixture all through a push.
        push = self.now.push
        if (said := ask_instead(self.now, self.page)) is not None and not said.ran:
            self.data["fixture"] = self.look if said.look else None
            return False
        order = push.smallest if self.now.line.ordered else push.tracker.chart.fixtures
        names = [name for name in order if name != push.opening.name]  # the rod is in there
        fixture = self.asks.one_of(
            "Which fixture?", [*names, *([self.look] if said is None and to_be_seen(self.now) else [])]
        )
        self.data["fixture"] = fixture
        if fixture is None or fixture == self.look:
            return False  # no fixture is run
        warn_before(fixture, self.now, self.page)
        return True

    def _came(self) -> bool:
        self.key = self.asks.came(self.now.push.tracker.chart.where.water)
        self.data["dye"] = self.key in "co"
        if not self._comes:
            self.data.pop("seconds", None)
            self.data.pop("side", None)
        return self.key != BACK.key

    @property
    def _comes(self) -> bool:
        return self.key in ("y", "c")

    def _seconds(self) -> bool | None:
        if not self._comes:
            return None
        before = self.data.get("seconds")
        asked = "After how many seconds?" + ("" if before is None else " Empty: as before")
        most = number(self.now.push.tracker.chart.where.water.dye_wait)
        read = self.asks.seconds(asked, most, None if before is None else float(before))
        self.data["seconds"] = before if read is None else read
        return read is not None

    def _side(self) -> bool | None:
        return self.asks.side(self.data) if self._comes else None

    def _drains(self) -> bool | None:
        """Whether it ran away again: asked where that is in doubt."""
        if not self.now.doubtful:
            return None
        asked = "Did you see the water run away, at the lowest opening?"
        key = choose(self.page, asked, yes_no("yes, it ran away", "no, it stood or rose"), (DONT_KNOW, BACK))
        self.data["drains"] = {"y": True, "n": False}.get(key)
        return key != BACK.key

    def _why_dry(self, share: float) -> None:
        """What it means that none was seen, where its water must pass that share of the likely places."""
        if self._comes:
            return
        name = self.data["fixture"]
        if share < number(self.now.push.study.tables.where.sure.must_pass):
            self.page.line(
                f"Water of the {name} cannot pass the lens: it joins further down than the head. "
                "So none was to be seen, and that tells nothing."
            )
        elif share < _HALF:
            self.page.line(
                f"Water of the {name} joins further down than the head most likely is. "
                "That none was seen tells little."
            )
        elif not self.data["dye"]:
            self.page.line("It may run another way: a second main. Dye tells.")

    # -- finds, marks, notes ------------------------------------------------------------------------

    def found(self) -> None:
        """A find, a mark above ground or a note, tied to where the head is; a find to where it was seen."""
        if not in_turn(self._kind, self._text, self._seen_at, self._open_past, self._more):
            return
        if self.key == "c":
            self.tell(MACHINE, None, self.data)
            show_machine(self.data, self.now.push.study, self.page)
            return
        then = self.then
        there = place_at(then, then.fix)
        counter = self.now.counter if then is self.now else self.counter
        if self._a_find:
            self.tell(FIND, counter, {"what": self.text, **there, **doubt_now(then), **self.data})
        elif self.key == "n":
            self.tell(NOTE, counter, {"text": self.text})
        else:
            self.tell(MARK, counter, {"name": self.text, **there, **doubt_now(self.now), **self.data})
        self.page.line(f"Noted: {self.text}")

    @property
    def _warnings(self) -> frozenset[str]:
        return self.now.push.study.tables.finds.warnings(self.text)

    @property
    def _a_find(self) -> bool:
        """So is a note that warns: told as one only it would bar nothing."""
        return self.key == "f" or (self.key == "n" and bool(self._warnings))

    def _kind(self) -> bool:
        self.data.clear()
        self.key = choose(self.page, "What?", _FOUND, (BACK,))
        return self.key != BACK.key

    def _text(self) -> bool | None:
        if self.key == "c":
            return None
        typed = ask_name(self.page, _WHAT[self.key], self.text)
        self.text = typed or self.text
        if typed and self.key == "n" and self._a_find:
            self.page.line(_AS_FIND)
        return typed is not None and bool(self.text)

    def _seen_at(self) -> bool | None:
        """At which reading a find was seen: the head may have been drawn back since."""
        if not self._a_find:
            return None
        words, here = Words(self.now), self.now.counter
        told = here if self.counter is None else self.counter  # what was typed before going back stays
        stops = ", ".join(words.length(at) for at in stops_behind(self.now)[:_STOPS])
        if stops:
            self.page.line(f"In this push it was stopped at {stops}.")
        while True:
            empty = words.length(told) + (", as now" if told == here else "")
            read = self.asks.counter(f"At which reading was it seen? Empty: {empty}", told)
            if read is None:
                return False
            then = self.now if read == here else at_reading(self.now, read)
            if then is not None:
                self.counter, self.then = read, then
                return True
            first, last = map(words.length, passed(self.now))
            self.page.line(f"In this push the lens has been from {first} to {last}. Type a reading of these.")

    def _open_past(self) -> bool | None:
        return ask_open(self.page, self.data) if self._a_find else None

    def _more(self) -> bool | None:
        if self._a_find:
            return self.asks.hour_of_find(self.data)
        if self.key == "c":
            push = self.now.push
            return ask_machine(self.asks, push.study, push.opening.name, self.data)
        if self.key == "n":
            return None
        show_ground(self.now, self.page)
        asked = "Depth of the pipe below the ground here, read above it? Empty: not taken"
        while True:
            depth = self.asks.length(asked, 0.0)
            odd = odd_depth(self.now, depth) if depth else None
            if odd is None or self.asks.right(odd, show_tape(depth or 0.0, self.asks.units)):
                self.data["depth"] = depth or None
                return depth is not None
