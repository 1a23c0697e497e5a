"""What lies along a way and behind its end, and what is left where it is shut, as data of the plan."""

from __future__ import annotations

from advisor.result.frozen import Frozen
from advisor.result.tries import count_words


class NotPastNote(Frozen):
    """What the head must not go past: a trap, valve or tank (`holds`), what a push saw, or where it ends.

    It lies on the way or straight on behind its end: whoever misses the end pushes on into it. It may begin
    at `at_low_m` at the least; `unless`, where it may lie further on too, is what lets anybody go on there.
    Where a push `met` it on the way, no chance worked out from the sheet knows of it, and none is told.
    """

    name: str
    holds: bool
    behind: bool  # straight on behind the end of the way
    why: str
    instead: str
    unless: str
    at_m: float
    at_low_m: float
    at_high_m: float
    met: bool = False


class BehindNote(Frozen):
    """What may hold or hurt the head straight on behind the end of a way, at `at_low_m` at the least."""

    names: tuple[str, ...]
    at_low_m: float


class FoundNote(Frozen):
    """What a push of the job told of the way in from an opening by one of these ports of it, and where.

    `missed` is what it means when it does not come into view, `not_past` that no head goes past it, `left`
    all of it in a sentence, for a plan or card that does not go that way: empty where every one tells it.
    `gear` is the only gear for which it holds, if not for any; `instead` what to do where no way is left that
    does not end at such a thing.
    """

    opening: str
    ports: tuple[str, ...]
    at_m: float
    at_low_m: float
    what: str
    see: str
    do: str
    missed: str
    not_past: bool
    left: str
    gear: str | None = None
    instead: str = ""
    pipe_end: bool = False  # which a way may end at by the sheet as well
    till_cut: bool = False  # what bars there is taken away by a cutter or cleaning
    trap: bool = False  # that came into view: the lens saw all before it open, whatever the sheet has there
    at_opening: bool = False  # the opening itself does not lead that way: no other way comes to it
    mouth: str | None = None  # of an open channel, by the line that begins there; without it any of that port
    bare: str = ""  # what to do, where it was passed with a guide, with gear that has none
    first: str = ""  # what is done with it before a camera goes in again, as "cleaned out"
    drain_first: bool = False  # cleaned since, and no water was seen to run away after that
    not_into: bool = False  # it fills a good part of the bore: no head is pushed into it
    mild: bool = False  # it held no push, and asks for no more than the care that every find does
    counted: bool = False  # a stop that has a row only where the chance of a way knows of it
    open_past: str | None = None  # how much of the pipe was told to be open past it; `see` and `left` say it
    said: tuple[str, ...] = ()  # sentences of the plan on the stop that it is, where it tells them whole
    turn: bool = False  # a bend that came into view: it has no row but the one that the sheet gives it
    undrawn: str = ""  # a bend or tie-in that the sheet draws nowhere: the line that it was seen in
    turns_on: bool = False  # such a bend: it counts beside the turns
    desk: str = ""  # of such a bend, what is done before the next plan: on no card
    elsewhere: str = ""  # of such a bend, what is told on other ways through that pipe
    span_m: tuple[float, float] | None = None  # of it there: where it may lie by the lengths of the sheet, m

    def lies_on(self, opening: str, leaves: str, mouth: str, gear: str) -> bool:
        """Whether it is on the way in from an opening by that port and mouth of it, with that gear."""
        there = self.opening == opening and leaves in self.ports and self.mouth in (None, mouth)
        return there and self.gear in (None, gear)

    def bars(self, length_m: float) -> bool:
        """Whether no head comes to the end of a way of that length that it lies on."""
        return self.not_past and not (self.pipe_end and 2 * self.at_m - self.at_low_m >= length_m)


class MetStopNote(Frozen):
    """A place on a way that held a push, where the plan has nothing hard: the chance of its gear to pass.

    `says` tells it and how it is known, `told` by which opening it was met and where; `elsewhere` is whether
    by another than that of this way, so that it stands by the sheet's lengths. The rest is for a row of its
    own.
    """

    at_m: float
    at_low_m: float
    chance: float
    says: str
    see: str
    do: str
    missed: str
    told: str
    elsewhere: bool


class RunNote(Frozen):
    """A stretch of the way of one nominal size and one lie."""

    from_m: float
    to_m: float
    nominal_m: float
    upright: bool
    sag: bool
    line: str


class TapNote(Frozen):
    """A fixture to run, and where its water enters the line of the way; `beyond_end` no head comes to it."""

    fixture: str
    at_m: float
    joins: str
    beyond_end: bool
    from_behind: bool
    looks: str


class ShutNote(Frozen):
    """An opening that may well not be there or not open, 0 to 1: what is left to do then.

    `there` is true where it is in no doubt that it is there. `onward_chance` is given that it comes to it.
    """

    chance: float
    there: bool
    onward: str | None  # nothing where no other opening is worth the minutes
    onward_chance: float


def onward_words(onward: str | None) -> str:
    """Where to go from an opening that is left."""
    return f"go to the {onward}" if onward else "stop: no other opening is worth the minutes"


class LeaveNote(Frozen):
    """When to leave a hard spot: after how many tries, the gentle one counted, and for what.

    `change` goes in at the same opening first: what is held there may let something smaller through.
    `passed_over` is next in the order where something else ends the push, and not worth its minutes here.
    """

    spot: str
    tries: int
    onward: str | None  # nothing where no other opening is worth the minutes
    change: str | None = None
    passed_over: str | None = None
    why: str | None = None  # the opening after it is no vain walk to the same spot

    def say(self) -> str:
        """The rule in words."""
        return f"{count_words(self.tries)}, then {self.then()}"

    def then(self) -> str:
        """What comes after the tries."""
        onward = onward_words(self.onward) + (f" ({self.why})" if self.why else "")
        if self.onward is None and self.passed_over:
            onward = f"stop: behind these roots the {self.passed_over} is not worth the minutes"
        return f"draw out, go in with {self.change}; then {onward}" if self.change else onward
