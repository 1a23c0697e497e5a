"""Which check tells most for its minutes: which fixture to run, plain or with dye."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from advisor.push.log.sighting import AHEAD, BEHIND, Back, Seen, Sighting, Stopped, Water
from advisor.push.track.chart import Array
from advisor.push.track.likelihood import water
from advisor.push.track.track import Belief, Tracker
from advisor.tables.where import number

_TIMES = 8  # how many arrival times are told apart
_LEAST = 1e-9


@dataclass(frozen=True)
class Check:
    """One fixture run: what it is expected to tell, in bits, and bits a minute."""

    fixture: str
    dye: bool
    bits: float
    minutes: float
    arrives: float  # chance that its water comes by
    passes: float  # share of the places on the map where the head may be that its water must pass

    @property
    def worth(self) -> float:
        """Bits a minute."""
        return self.bits / self.minutes


def checks(
    tracker: Tracker,
    belief: Belief,
    without: frozenset[str] = frozenset(),
    dyes: tuple[bool, ...] = (False, True),
) -> tuple[Check, ...]:
    """Every fixture that can be run, the most telling a minute first; `without` are left out."""
    made = [
        _check(tracker, belief, fixture, dye)
        for fixture in tracker.chart.fixtures
        if fixture not in without
        for dye in dyes
    ]
    return tuple(sorted(made, key=lambda check: (-check.worth, check.fixture, check.dye)))


def worth_making(
    found: Sequence[Check], least: float, faced: Collection[str], order: Mapping[str, int] | None = None
) -> Check | None:
    """The first that tells; one whose water comes across to the opening in use only where no other does.

    What joins further down than the head shows nothing, whatever its silence is worth in bits: water of a
    fixture must pass at `least` that share of the places where the head may be. `order` is in which they
    are run where water may come up: it goes before what tells most.
    """
    told = [each for each in found if each.bits > 0 and each.passes >= least]
    order = order or {}
    return min(told, key=lambda each: (each.fixture in faced, order.get(each.fixture, 0)), default=None)


def passes(tracker: Tracker, belief: Belief, fixture: str) -> float:
    """The share of the places on the map where the head may be that water of a fixture must pass.

    Where it joins further down than the head it passes none; raises KeyError for one that is not drawn.
    """
    mass = belief.mass.sum(axis=0)
    total = float(mass.sum())
    return float(mass[np.isfinite(tracker.chart.path(fixture).away)].sum()) / total if total > 0 else 0.0


def run_here(sightings: Sequence[Sighting]) -> set[str]:
    """The fixtures run since the head last moved."""
    run: set[str] = set()
    for sighting in reversed(sightings):
        if isinstance(sighting, Water):
            run.add(sighting.fixture)
        elif isinstance(sighting, Seen | Back | Stopped):
            break
    return run


def _check(tracker: Tracker, belief: Belief, fixture: str, dye: bool) -> Check:
    chart = tracker.chart
    mass = belief.mass.sum(axis=0)
    live = mass > _LEAST
    runs, shares = chart.run[live], mass[live]
    answers = len(chart.runs) + 1
    prior = np.append(np.bincount(runs, shares, len(chart.runs)), belief.off_map)
    row = chart.where.water
    wait = number(row.dye_wait if dye else row.wait)
    edges = np.geomspace(1.0, wait, _TIMES + 1)

    def joint(sighting: Water, width: float) -> Array:
        on_map, off_map = water(chart, sighting, live)
        found = np.bincount(runs, shares * on_map, len(chart.runs))
        return np.append(found, belief.off_map * off_map) * width

    none = joint(Water(None, fixture, None, dye=dye), 1.0)
    comes = [
        joint(Water(None, fixture, float(np.sqrt(low * high)), side=side, dye=dye), high - low)
        for low, high in pairwise(edges)
        for side in (AHEAD, BEHIND)
    ]
    # The times are a coarse grid: its shares are brought to what the wait leaves for arriving.
    left = np.maximum(prior - none, 0)
    total = np.sum(comes, axis=0)
    factor = np.divide(left, total, out=np.zeros(answers), where=total > 0)
    outcomes = [none, *(each * factor for each in comes)]
    bits = _entropy(prior) - sum(
        float(each.sum()) * _entropy(each / each.sum()) for each in outcomes if each.sum() > 0
    )
    minutes = number(chart.where.checks.dye if dye else chart.where.checks.water)
    arrives = 1 - float(none.sum())
    return Check(fixture, dye, max(bits, 0.0), minutes, arrives, passes(tracker, belief, fixture))


def _entropy(shares: Array) -> float:
    some = shares[shares > 0]
    return float(-(some * np.log2(some)).sum())
