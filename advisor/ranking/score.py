"""The expected minutes of an attempt, a failure and a loss counted at their graded costs."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.tables.load import Tables
from advisor.worlds.draws import Array


@dataclass(frozen=True)
class Ranked:
    """One route with its best loadout, its score in minutes and how often it leads over the worlds."""

    outcome: RouteOutcome
    score: float
    leads: float


def score(outcome: RouteOutcome, tables: Tables) -> Array:
    """Minutes in each world: those spent, and the cost of harm and of failing where they happen."""
    return minutes_with(outcome, outcome.reached, tables)


def minutes_with(outcome: RouteOutcome, ends: Array, tables: Tables) -> Array:
    """The same where the push ends the job with the chance `ends` float32[N], 0 to 1."""
    failing = tables.costs["failing"].likely
    return np.asarray(outcome.walk.minutes + outcome.walk.harm_minutes + (1 - ends) * failing, np.float32)


def rank(outcomes: list[RouteOutcome], tables: Tables) -> tuple[Ranked, ...]:
    """One entry for each route, by its best loadout, fewest expected minutes first.

    A route that shows only part of the target stands behind those that show it all, and one at whose opening
    nothing goes in behind every other: it fails soonest, and is best in no world for that.
    """
    by_route: dict[str, list[RouteOutcome]] = {}
    for outcome in outcomes:
        by_route.setdefault(outcome.route.id, []).append(outcome)
    best = [min(each, key=lambda outcome: _loadout_order(outcome, tables)) for each in by_route.values()]
    if not best:
        return ()
    means = {outcome.route.id: float(score(outcome, tables).mean()) for outcome in best}
    ordered = sorted(best, key=lambda o: (o.shut, o.route.covers < 1, means[o.route.id], o.route.id))
    table = np.stack([score(outcome, tables) + (np.inf if outcome.shut else 0) for outcome in ordered])
    leaders = np.argmin(table, axis=0)
    return tuple(
        Ranked(outcome, means[outcome.route.id], 0.0 if outcome.shut else float((leaders == index).mean()))
        for index, outcome in enumerate(ordered)
    )


def _loadout_order(outcome: RouteOutcome, tables: Tables) -> tuple[bool, float, str]:
    """Fewest minutes; where hardly any world passes, how far it gets, for failing fast is no merit."""
    hopeless = float(outcome.walk.survive[-1].mean()) < tables.limits["least_passing"].likely
    merit = -float(outcome.walk.survive.mean()) if hopeless else float(score(outcome, tables).mean())
    return hopeless, merit, outcome.loadout.name
