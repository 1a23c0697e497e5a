"""Common random numbers: one stream of its own for each named quantity, hashed from the name.

A key is made of stable names, so a bend that is added or an answer that comes in changes only its own
stream. The first n numbers of a stream are the same for every length: a preview is a prefix. A hash
(SHAKE128, FIPS 202) rather than a library's generator, whose streams are promised to nobody.
"""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import shake_128
from typing import Any

import numpy as np
from numpy.typing import NDArray

from advisor.quantity import Belief, Chances, Estimate, Known

Array = NDArray[np.floating[Any]]  # float32[n], one value for each world
Choice = NDArray[np.intp]


class Worlds:
    """`n` equally likely truths; `value` gives one quantity in each of them."""

    def __init__(self, seed: int, n: int, chosen: tuple[int, ...] | None = None) -> None:
        """With `chosen` only the truths of those numbers are kept, one perhaps more than once.

        That is how evidence on what follows from many quantities is taken in: truths that fit it are
        kept more often. A single number gives one hidden truth, as a simulator wants it.
        """
        self.seed, self.n, self.chosen = seed, n if chosen is None else len(chosen), chosen
        self._kept = None if chosen is None else np.asarray(chosen, np.intp)
        self._length = n if chosen is None else max(chosen) + 1
        self._drawn: dict[str, Array] = {}

    def uniform(self, key: str) -> Array:
        """float32[n] in (0, 1) for a key; the same key always gives the same numbers."""
        found = self._drawn.get(key)
        if found is None:
            stream = shake_128(f"{self.seed}|{key}".encode()).digest(4 * self._length)
            bits = np.frombuffer(stream, "<u4") >> np.uint32(8)
            # 24 bits fill a float32; the half keeps 0 and 1 out, where quantiles have their ends.
            found = (bits.astype(np.float32) + np.float32(0.5)) * np.float32(2**-24)
            if self._kept is not None:
                found = found[self._kept]
            found.flags.writeable = False
            self._drawn[key] = found
        return found

    def drawn_keys(self) -> tuple[str, ...]:
        """The keys that have been asked for so far, in the order of their names."""
        return tuple(sorted(self._drawn))

    def value(self, key: str, belief: Known | Estimate) -> Array:
        """float32[n] of a quantity in SI; an estimate is a triangle between its ends."""
        if isinstance(belief, Known) or belief.low == belief.high:
            return np.full(self.n, belief.likely, np.float32)
        return quantile(self.uniform(key), belief)

    def choice(self, key: str, chances: Chances) -> Choice:
        """intp[n]: which option holds in each world."""
        if len(chances.options) == 1:
            return np.zeros(self.n, np.intp)
        ends = np.cumsum([share for _, share in chances.options])
        return np.minimum(np.searchsorted(ends / ends[-1], self.uniform(key)), len(ends) - 1)

    def mixed(self, key: str, choice: Choice, beliefs: Sequence[Known | Estimate]) -> Array:
        """float32[n] of a quantity that depends on which option holds; one uniform serves all options."""
        if len(beliefs) == 1:
            return self.value(key, beliefs[0])
        low, mode, high = np.array([_ends(belief) for belief in beliefs], np.float32).T
        return _triangle(self.uniform(key), low[choice], mode[choice], high[choice])


def quantile(uniform: Array, belief: Known | Estimate) -> Array:
    """Quantiles of a quantity at `uniform`, 0 to 1."""
    if isinstance(belief, Known) or belief.low == belief.high:
        return np.full_like(uniform, belief.likely)
    return triangle(uniform, belief)


def triangle(uniform: Array, belief: Estimate) -> Array:
    """Quantiles of the triangular distribution (low, likely, high) at `uniform`."""
    return _triangle(uniform, *(np.float32(end) for end in _ends(belief)))


def _triangle(
    uniform: Array, low: Array | np.float32, mode: Array | np.float32, high: Array | np.float32
) -> Array:
    width = high - low
    rising = low + np.sqrt(uniform * (width * (mode - low)))
    falling = high - np.sqrt((1 - uniform) * (width * (high - mode)))
    return np.asarray(np.where(uniform * width < mode - low, rising, falling))


def _ends(belief: Known | Estimate) -> tuple[float, float, float]:
    if isinstance(belief, Known):
        return belief.value, belief.value, belief.value
    return belief.low, belief.likely, belief.high


__all__ = ["Array", "Belief", "Choice", "Worlds", "quantile", "triangle"]
