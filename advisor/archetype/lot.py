"""Chance for random houses: every draw comes from one seeded stream of plain numbers."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random
from typing import TypeVar

T = TypeVar("T")


class Lot:
    """Draws that are the same for the same seed, whatever the version of Python: all come from `random()`."""

    def __init__(self, seed: int) -> None:
        self._random = Random(seed)

    def chance(self, share: float) -> bool:
        """True in that share of draws."""
        return self._random.random() < share

    def between(self, low: float, high: float) -> float:
        """Evenly between two values."""
        return low + (high - low) * self._random.random()

    def year(self, first: int, last: int) -> int:
        """A year from the first to the last."""
        return first + int(self._random.random() * (last - first + 1))

    def one_of(self, options: Sequence[T]) -> T:
        """Any of them, each as likely."""
        return options[int(self._random.random() * len(options))]

    def weighed(self, options: Sequence[tuple[T, float]]) -> T:
        """One of them by its share; the shares need not add up to one."""
        left = self._random.random() * sum(share for _, share in options)
        for option, share in options:
            left -= share
            if left < 0:
                return option
        return options[-1][0]
