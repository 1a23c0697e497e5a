"""What lies along a way and behind its end, as data of the plan."""

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
