"""Whether a value is far from what is usual: a slip of the pen, or a thing to be asked about."""

from __future__ import annotations

_TIMES = 2.0


def far_from(value: float, low: float, high: float) -> bool:
    """True over twice the most that is usual, or under half the least."""
    return not low / _TIMES <= value <= _TIMES * high
