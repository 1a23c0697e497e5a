"""Stretches of a line, from where to where, m, and how much of a way lies behind the lens."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from advisor.push.track.leg import Leg


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


def inside(legs: Iterable[Leg], went_in: float, read: Mapping[str, float]) -> float:
    """How many m of a way lie behind the lens, counted on from what it read last on it, else from the rim."""
    drawn = ((read[leg.piece.id], leg.start) for leg in legs if leg.piece.id in read)
    at, behind = max((each for each in drawn if each[0] <= went_in), default=(0.0, 0.0))
    return behind + went_in - at
