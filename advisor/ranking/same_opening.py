"""What goes in at the same opening where roots held the head, and whether anything else pays behind that.

Roots that held something stand before every push through the same pipe. So what is left once they held it is
found over the cases in which they did, and an order of openings may end there.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.outcome.drawn import Drawn
from advisor.ranking.score import score
from advisor.ranking.stop import StopRule
from advisor.worlds.draws import Array
from advisor.worlds.spread import middle

_TOLD = 0.005  # of all cases; layout: less would be told as "0 %"


@dataclass(frozen=True)
class AfterRoots:
    """Where roots `held`: `change` goes in at the same opening first, `then` comes another opening."""

    held: Array
    change: RouteOutcome | None
    then: RouteOutcome | None


def is_left(
    outcome: RouteOutcome, index: int, stops: Mapping[tuple[str, int], StopRule], drawn: Drawn
) -> bool:
    """Whether a hard spot is one to leave at: what is listed only for a caution is left by nobody."""
    plain = outcome.spots[index].spot.plain
    return (outcome.route.id, index) in stops and plain.passes.mean() < drawn.likely("hard_chance")


def after_roots(
    outcome: RouteOutcome,
    index: int,
    later: Sequence[RouteOutcome],
    usable: Sequence[RouteOutcome],
    drawn: Drawn,
) -> AfterRoots:
    """What is left where these roots held: something smaller at the same opening, then the next that pays."""
    held = np.maximum(outcome.walk.stood[index] - outcome.walk.survive[index + 1] - outcome.walk.lost, 0)
    still = held if held.any() else np.ones_like(held)
    change = _change(outcome, later, still, usable, drawn)
    if change is not None:
        still = still * np.maximum(1 - change.reached - change.walk.lost, 0)
    return AfterRoots(held, change, next((each for each in later if _pays(each, still, drawn)), None))


def ends_with_change(
    attempts: Sequence[RouteOutcome],
    usable: Sequence[RouteOutcome],
    stops: Mapping[tuple[str, int], StopRule],
    drawn: Drawn,
) -> tuple[int, RouteOutcome] | None:
    """How many of an order's attempts are made, and what goes in last at the opening of the last of them.

    Where all that ends one are roots at which a smaller head goes in and nothing pays behind it, it comes to
    none of the openings after it. What is too rare to be told is no reason to tell of another opening.
    """
    before = np.ones(drawn.worlds.n)
    for place, outcome in enumerate(attempts[:-1]):
        failed = np.maximum(1 - outcome.reached - outcome.walk.lost, 0)
        roots = [
            after_roots(outcome, index, attempts[place + 1 :], usable, drawn)
            for index, spot in enumerate(outcome.spots)
            if spot.spot.by_roots and is_left(outcome, index, stops, drawn)
        ]
        changes = {id(each.change): each.change for each in roots}
        change = next(iter(changes.values()), None)
        if change is not None and len(changes) == 1 and not any(each.then for each in roots):
            goes_on = before * np.maximum(failed - np.sum([each.held for each in roots], axis=0), 0)
            if goes_on.mean() < _TOLD:
                return place + 1, change
        before = before * failed
    return None


def smaller(one: RouteOutcome, other: RouteOutcome, drawn: Drawn) -> bool:
    """Whether the head of one is smaller than that of the other."""
    return _head(one, drawn) < _head(other, drawn)


def _change(
    outcome: RouteOutcome,
    later: Sequence[RouteOutcome],
    held: Array,
    usable: Sequence[RouteOutcome],
    drawn: Drawn,
) -> RouteOutcome | None:
    """What else may go in at the same opening, where that costs less than to go on and pays at all."""
    others = [
        each
        for each in usable
        if each.route.id == outcome.route.id
        and each.loadout.name != outcome.loadout.name
        and smaller(each, outcome, drawn)
        and _pays(each, held, drawn)
    ]
    best = min(others, key=lambda each: _cost(each, held, drawn), default=None)
    if best is None or (later and _cost(later[0], held, drawn) <= _cost(best, held, drawn)):
        return None
    return best


def _pays(outcome: RouteOutcome, held: Array, drawn: Drawn) -> bool:
    """Whether it may get there at all in those cases, and costs less than to leave the job undone."""
    total = max(float(held.sum()), 1e-9)
    likely = float((held * outcome.reached).sum()) / total
    failing = drawn.tables.costs["failing"].likely
    return likely >= drawn.likely("least_chance") and _cost(outcome, held, drawn) < failing


def _cost(outcome: RouteOutcome, held: Array, drawn: Drawn) -> float:
    """Minutes over those cases, the cost of failing with them."""
    return float((held * score(outcome, drawn.tables)).sum()) / max(float(held.sum()), 1e-9)


def _head(outcome: RouteOutcome, drawn: Drawn) -> float:
    return middle(drawn.kit(outcome.loadout).head_diameter)
