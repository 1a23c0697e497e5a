"""The gamma distribution: how far a head has come in a pipe of which the length is hardly known.

It never goes back, and its mean and variance both grow as the rod.
"""

from __future__ import annotations

from math import lgamma

import numpy as np

from advisor.push.track.chart import Array

_TERMS = 60  # beyond twice x its terms fall by half each


def share_below(shape: float, x: Array) -> Array:
    """Regularized lower incomplete gamma function P(shape, x) by its series; x to some 500."""
    x = np.maximum(x, 0.0)
    term = total = np.full_like(x, 1 / shape)
    for n in range(1, _TERMS + int(2 * x.max(initial=0.0))):
        term = term * x / (shape + n)
        total = total + term
    with np.errstate(divide="ignore"):
        lead = np.where(x > 0, np.exp(shape * np.log(x) - x - lgamma(shape)), 0.0)
    return np.minimum(lead * total, 1.0)


def on_cells(mean: float, vary: float, cell: float, count: int) -> Array:
    """The chance of each of `count` cells from 0 on; what falls between two is shared, so the mean stays.

    The share of a cell is the second difference of the integral of the distribution over x:
    x P(a, x/s) - a s P(a+1, x/s), with shape a and scale s.
    """
    shape, scale = mean * mean / vary, vary / mean
    x = np.arange(-1, count + 1) * cell
    area = np.maximum(x, 0) * share_below(shape, x / scale) - shape * scale * share_below(
        shape + 1, x / scale
    )
    return np.asarray(np.maximum(np.diff(area, 2), 0.0) / cell)
