"""One number of many worlds: the middle one, or what a share of them lies below."""

from __future__ import annotations

from math import isnan, nan

import numpy as np

from advisor.mechanics.values import Values


def middle(values: Values) -> float:
    """The median of an array of worlds; a plain number is its own."""
    return below(values, 0.5)


def below(values: Values, share: float) -> float:
    """What a share, 0 to 1, of the worlds lies below: the quantile, straight between two worlds.

    A plan wants hundreds, and numpy's own, for any axes and kinds, take ten times as long.
    Errors: nan where any world has it. Source: compared with numpy's (tests/worlds/test_spread.py).
    """
    ordered = np.sort(values, axis=None)
    last = ordered.size - 1
    under = int(share * last)
    low, high = float(ordered[under]), float(ordered[min(under + 1, last)])
    if isnan(ordered[last]):
        return nan
    part = share * last - under
    # Of worlds in which a thing has no end none is taken from another.
    return low if low == high or not part else low + part * (high - low)
