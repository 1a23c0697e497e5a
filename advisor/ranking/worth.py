"""What it is worth to know something, in minutes: grouped over the worlds already drawn.

EVPPI(phi) = min_d E[cost_d] - E_phi[ min_d E(cost_d | phi) ]: the worlds are grouped by the value of the
unknown, the best decision is taken in each group. For few answers that is exact for the sample. With
many groups and a dead heat between decisions even an irrelevant unknown scores a little, because each
group picks the decision that luck favours there; the same grouping of shuffled worlds measures that
bias, and it is taken off. (Strong & Oakley 2013, Medical Decision Making 33, for the blocks.)
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from advisor.worlds.draws import Array

BLOCKS = 5  # real answers are three to five choices
SHUFFLES = 20


@dataclass(frozen=True)
class Worth:
    """Minutes saved by knowing, with the bias of grouping taken off, and that bias with its spread."""

    minutes: float
    bias: float
    spread: float

    @property
    def real(self) -> bool:
        """True where it stands two spreads above what shuffled worlds score."""
        return self.minutes > 2 * self.spread


def worth(groups: NDArray[np.intp], costs: Array, weights: Array, seed: int = 1) -> Worth:
    """Worth of learning which group a world belongs to.

    `groups` intp[N] is the answer in each world, `costs` float[D, N] the minutes of each decision.
    """
    raw = _saved(groups, costs, weights)
    generator = np.random.Generator(np.random.Philox(seed))
    shuffled = np.array([_saved(generator.permutation(groups), costs, weights) for _ in range(SHUFFLES)])
    bias = float(shuffled.mean())
    return Worth(max(raw - bias, 0.0), bias, float(shuffled.std()))


def blocks(values: Array, count: int = BLOCKS) -> NDArray[np.intp]:
    """Worlds sorted into equal blocks by a value; equal values stay together."""
    edges = np.quantile(values, np.linspace(0, 1, count + 1)[1:-1])
    return np.searchsorted(edges, values, side="right")


def _saved(groups: NDArray[np.intp], costs: Array, weights: Array) -> float:
    share = weights / weights.sum()
    sums = np.stack([np.bincount(groups, weights=row * share) for row in costs])
    return float((costs @ share).min() - sums.min(axis=0).sum())
