"""Means over sites with bootstrap intervals, differences in pairs, and stated chances against outcomes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

import numpy as np

from tests.bench.simulation.policies import PLANNER
from tests.bench.simulation.run import SiteResult, Told

RESAMPLES = 2000
WITHIN = (2.5, 97.5)  # percentiles
LEAST_IN_BIN = 200  # outcomes
BIN = 0.1


@dataclass(frozen=True)
class Interval:
    """A mean and its 95 % bootstrap interval; sites are drawn, for worlds of one site are no new sites."""

    mean: float
    low: float
    high: float


@dataclass(frozen=True)
class Row:
    """One policy under one truth."""

    policy: str
    minutes: Interval
    seen: Interval
    planner_less: Interval  # minutes of the planner minus those of this policy, site by site


@dataclass(frozen=True)
class Bin:
    """Attempts that were stated about alike."""

    sites: int
    outcomes: int
    stated: float
    seen: Interval
    chance: float  # mean true chance: the same without luck

    @property
    def off(self) -> float:
        """Stated less seen."""
        return self.stated - self.seen.mean


def interval(values: Sequence[float], weights: Sequence[float] | None = None) -> Interval:
    """Mean and interval over sites."""
    found, weigh = np.array(values), np.ones(len(values)) if weights is None else np.array(weights)
    picks = np.random.default_rng(1).integers(len(found), size=(RESAMPLES, len(found)))
    means = (found * weigh)[picks].sum(axis=1) / weigh[picks].sum(axis=1)
    low, high = np.percentile(means, WITHIN)
    return Interval(float((found * weigh).sum() / weigh.sum()), float(low), float(high))


def rows(results: Sequence[SiteResult], twist: str) -> list[Row]:
    """Every policy under one twist of the truth."""
    sites = [r for r in results if twist in r.minutes]
    found = []
    for policy in sites[0].minutes[twist]:
        minutes = [r.minutes[twist][policy] for r in sites]
        less = [r.minutes[twist][PLANNER] - m for r, m in zip(sites, minutes, strict=True)]
        seen = interval([r.seen[twist][policy] for r in sites])
        found.append(Row(policy, interval(minutes), seen, interval(less)))
    return found


def calibration(told: Sequence[Told]) -> list[Bin]:
    """Bins of a tenth, joined upward until each holds enough outcomes."""
    ranked = sorted(told, key=lambda t: t.stated)
    tenths: dict[int, list[Told]] = {}
    for each in ranked:
        tenths.setdefault(min(int(each.stated / BIN), round(1 / BIN) - 1), []).append(each)
    groups: list[list[Told]] = []
    waiting: list[Told] = []
    for tenth in tenths.values():
        waiting = [*waiting, *tenth]
        if sum(t.worlds for t in waiting) >= LEAST_IN_BIN:
            groups.append(waiting)
            waiting = []
    if waiting:  # too few at the top join the bin below
        groups[-1:] = [[*(groups[-1] if groups else []), *waiting]]
    return [_bin(group) for group in groups]


def _bin(group: list[Told]) -> Bin:
    weights = [float(t.worlds) for t in group]
    return Bin(
        len(group),
        sum(t.worlds for t in group),
        float(np.average([t.stated for t in group], weights=weights)),
        interval([t.seen for t in group], weights),
        float(np.average([t.chance for t in group], weights=weights)),
    )


def as_json(tables: dict[str, list[Row]], bins: dict[str, list[Bin]]) -> dict[str, Any]:
    """All figures, for keeping."""
    return {
        "policies": {twist: [asdict(row) for row in found] for twist, found in tables.items()},
        "calibration": {name: [asdict(each) for each in found] for name, found in bins.items()},
    }
