"""Stretches of a line, from where to where, m."""

from __future__ import annotations

from collections.abc import Iterable


def long(stretches: Iterable[tuple[float, float]]) -> float:
    """How long they are together."""
    return sum(end - start for start, end in stretches)


def joined(stretches: list[tuple[float, float]], low: float, high: float) -> tuple[tuple[float, float], ...]:
    """What of them lies from `low` to `high`, in their order; those that meet are one."""
    found: list[tuple[float, float]] = []
    for start, end in sorted((max(a, low), min(b, high)) for a, b in stretches):
        if end <= start:
            continue
        if found and start <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], end))
        else:
            found.append((start, end))
    return tuple(found)
