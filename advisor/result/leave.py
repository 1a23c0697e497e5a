"""When each hard spot of an attempt is left, and for what.

The order of attempts is that of the whole: it holds whatever ended a push. What roots hold stands in the way
of every push through the same pipe, so behind them it is found anew over the cases in which they held.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.ranking.score import score
from advisor.result.spots import place_name
from advisor.result.study import Study
from advisor.result.way_model import LeaveNote
from advisor.worlds.draws import Array
from advisor.worlds.spread import middle

_SMALLER = "the same roots, a smaller head"


def leave_notes(outcome: RouteOutcome, later: Sequence[RouteOutcome], study: Study) -> list[LeaveNote]:
    """The hard spots at which it pays to leave an attempt, before those that come `later` in the order."""
    found = []
    for index, spot in enumerate(outcome.spots):
        rule = study.settled.stops.get((outcome.route.id, index))
        # A place that is listed only for a caution is left by nobody.
        if rule is None or spot.spot.plain.passes.mean() >= study.drawn.likely("hard_chance"):
            continue
        name = place_name(spot, study.reader)
        onward = later[0].route.opening.name if later else None
        note = LeaveNote(spot=name, tries=rule.tries, onward=onward)
        found.append(_among_roots(outcome, index, later, study, note) if spot.spot.by_roots else note)
    return found


def _among_roots(
    outcome: RouteOutcome, index: int, later: Sequence[RouteOutcome], study: Study, note: LeaveNote
) -> LeaveNote:
    """What is left where these roots held: something smaller at the same opening, then the next that pays."""
    held = np.maximum(outcome.walk.stood[index] - outcome.walk.survive[index + 1] - outcome.walk.lost, 0)
    if not held.any():
        held = np.ones_like(held)
    change = _change(outcome, later, held, study)
    if change is not None:
        held = held * np.maximum(1 - change.reached - change.walk.lost, 0)
    then = next((each for each in later if _pays(each, held, study)), None)
    met = {passage.piece.id for passage in then.route.passages} if then else set()
    same = then is not None and outcome.spots[index].passage.piece.id in met
    return note.model_copy(
        update={
            "onward": then.route.opening.name if then else None,
            "change": change.loadout.name if change else None,
            "why": _SMALLER if then and same and _head(then, study) < _head(outcome, study) else None,
        }
    )


def _change(
    outcome: RouteOutcome, later: Sequence[RouteOutcome], held: Array, study: Study
) -> RouteOutcome | None:
    """What else may go in at the same opening, where that costs less than to go on and pays at all."""
    others = [
        each
        for each in study.usable
        if each.route.id == outcome.route.id
        and each.loadout.name != outcome.loadout.name
        and _head(each, study) < _head(outcome, study)
        and _pays(each, held, study)
    ]
    best = min(others, key=lambda each: _cost(each, held, study), default=None)
    if best is None or (later and _cost(later[0], held, study) <= _cost(best, held, study)):
        return None
    return best


def _pays(outcome: RouteOutcome, held: Array, study: Study) -> bool:
    """Whether it may get there at all in those cases, and costs less than to leave the job undone."""
    total = max(float(held.sum()), 1e-9)
    likely = float((held * outcome.reached).sum()) / total
    failing = study.tables.costs["failing"].likely
    return likely >= study.drawn.likely("least_chance") and _cost(outcome, held, study) < failing


def _cost(outcome: RouteOutcome, held: Array, study: Study) -> float:
    """Minutes over those cases, the cost of failing with them."""
    return float((held * score(outcome, study.tables)).sum()) / max(float(held.sum()), 1e-9)


def _head(outcome: RouteOutcome, study: Study) -> float:
    return middle(study.drawn.kit(outcome.loadout).head_diameter)
