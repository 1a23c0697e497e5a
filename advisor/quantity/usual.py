"""Whether a value is far from what is usual: a slip of the pen, or a thing to be asked about."""

from __future__ import annotations


def far_from(value: float, low: float, high: float, times: float) -> bool:
    """True over so many times the most that is usual, or under the least by as many."""
    return not low / times <= value <= times * high
