"""A cutter as it is told in a push: by which opening, which way, with all of the rod out."""

from __future__ import annotations

from advisor.push.log.kinds import MACHINE, Value
from tests.terminal.test_now_shown import Told


def cutter(to: float | None, by: str, way: str, **more: Value) -> Told:
    """One that went `to` m in, or nobody knows how far; what is None of `more` was not told."""
    told = {"what": "a cutter", "outside": True, "opening": by, "direction": way, "to": to, **more}
    return MACHINE, None, {name: value for name, value in told.items() if value is not None}
