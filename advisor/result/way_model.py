"""What lies along a way and behind its end, and what is left where it is shut, as data of the plan."""

from __future__ import annotations

from advisor.result.frozen import Frozen


class NotPastNote(Frozen):
    """What the head must not go past: a trap, valve or tank (`holds`), or where the drain ends.

    It lies on the way or straight on behind its end: whoever misses the end pushes on into it.
    """

    name: str
    holds: bool
    behind: bool  # straight on behind the end of the way
    why: str
    instead: str
    at_m: float
    at_low_m: float
    at_high_m: float


class RunNote(Frozen):
    """A stretch of the way of one nominal size and one lie."""

    from_m: float
    to_m: float
    nominal_m: float
    upright: bool
    sag: bool
    line: str


class TapNote(Frozen):
    """A fixture to run, and where its water meets the way."""

    fixture: str
    at_m: float
    joins: str
    from_behind: bool
    looks: str


class ShutNote(Frozen):
    """An opening that may well not be there or not open, 0 to 1: what is left to do then.

    `onward_chance` is given that it comes to it.
    """

    chance: float
    onward: str | None  # nothing where no other opening is worth the minutes
    onward_chance: float
