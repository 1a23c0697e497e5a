"""Friction learned from how far pushes went: one factor on the tables, by weighing possible factors."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from advisor.push.track.normal import below

Floats = NDArray[np.float64]
# Possible factors, as logarithms: evenly from half to double, what lies between is read off straight lines.
GRID: Floats = np.linspace(-0.75, 0.75, 13)
_FINE: Floats = np.linspace(GRID[0], GRID[-1], 601)


@dataclass(frozen=True)
class How:
    """How readings are believed: numbers of rules/tables/limits.yaml."""

    spread: float  # of the logarithm of the factor, before any push
    share: float  # how far a stop lies from the reach, as a share of the reading
    slack: float  # and in m
    stray: float  # share of stops that have nothing to do with friction


@dataclass(frozen=True)
class Factor:
    """What the pushes say: the factor and between what 80 of 100 lie."""

    value: float
    low: float
    high: float


def chance_of_push(far: float, spent: bool, reach: Floats, reel: float, how: How) -> Floats:
    """How well each possible truth explains a push, given the reach in m that it has in that truth.

    Stopped at y: (1 - stray) N(y; reach, share y + slack) + stray/reel. Drawn back unstopped at d: the chance
    that the reach lies beyond d, with the same error.
    """
    error = how.share * far + how.slack
    off = (far - reach) / error
    if spent:
        return np.asarray(
            (1 - how.stray) * np.exp(-off * off / 2) / (error * np.sqrt(2 * np.pi)) + how.stray / reel
        )
    return np.asarray((1 - how.stray) * below(-off) + how.stray)


def factor_of(jobs: Sequence[Floats], how: How) -> Factor:
    """The factor from the log likelihoods over `GRID` of all jobs; 1 where there is none."""
    if not jobs:
        return Factor(1.0, 1.0, 1.0)
    log = np.interp(_FINE, GRID, np.sum(jobs, axis=0)) - _FINE**2 / (2 * how.spread**2)
    weight = np.exp(log - log.max())
    weight /= weight.sum()
    low, high = np.interp([0.1, 0.9], np.cumsum(weight), _FINE)
    return Factor(float(np.exp(weight @ _FINE)), float(np.exp(low)), float(np.exp(high)))


def gain(jobs: Sequence[Floats], how: How) -> float:
    """Log score won over the book when each job is foretold from the others; not below 0 is no worse."""
    won = 0.0
    for i, job in enumerate(jobs):
        factor = factor_of([*jobs[:i], *jobs[i + 1 :]], how)
        told, book = np.interp([np.log(factor.value), 0.0], GRID, job)
        won += float(told - book)
    return won
