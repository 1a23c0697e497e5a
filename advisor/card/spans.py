"""Stretches of the counter that meet, told as one."""

from __future__ import annotations

from collections.abc import Callable, Iterable

Span = tuple[float, float]


def joined(spans: Iterable[Span], shown: Callable[[float], str]) -> tuple[Span, ...]:
    """The spans in their order; two are one where the end of the first reads as the beginning of the next."""
    found: list[Span] = []
    for low, high in spans:
        meets = bool(found) and shown(low) == shown(found[-1][1])
        found.append((found.pop()[0] if meets else low, high))
    return tuple(found)


def span_words(low: float, high: float, shown: Callable[[float], str]) -> str:
    """A range of readings, their unit told once."""
    return f"{shown(low).partition(' ')[0]} to {shown(high)}"
