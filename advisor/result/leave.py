"""When each hard spot of an attempt is left, and for what.

The order of attempts is that of the whole: it holds whatever ended a push. What roots hold stands in the way
of every push through the same pipe, so behind them it is found anew over the cases in which they held.
"""

from __future__ import annotations

from collections.abc import Sequence

from advisor.outcome.assess import RouteOutcome
from advisor.ranking.same_opening import after_roots, is_left, smaller
from advisor.result.spots import place_name
from advisor.result.study import Study
from advisor.result.way_model import LeaveNote

_SMALLER = "the same roots, a smaller head"


def leave_notes(outcome: RouteOutcome, later: Sequence[RouteOutcome], study: Study) -> list[LeaveNote]:
    """The hard spots at which it pays to leave an attempt, before those that come `later` in the order."""
    found = []
    for index, spot in enumerate(outcome.spots):
        if not is_left(outcome, index, study.settled.stops, study.drawn):
            continue
        name = place_name(spot, study.reader)
        onward = later[0].route.opening.name if later else None
        tries = study.settled.stops[outcome.route.id, index].tries
        note = LeaveNote(spot=name, tries=tries, onward=onward)
        found.append(_among_roots(outcome, index, later, study, note) if spot.spot.by_roots else note)
    return found


def _among_roots(
    outcome: RouteOutcome, index: int, later: Sequence[RouteOutcome], study: Study, note: LeaveNote
) -> LeaveNote:
    """What is left where these roots held."""
    after = after_roots(outcome, index, later, study.usable, study.drawn)
    change, then = after.change, after.then
    met = {passage.piece.id for passage in then.route.passages} if then else set()
    same = then is not None and outcome.spots[index].passage.piece.id in met
    return note.model_copy(
        update={
            "onward": then.route.opening.name if then else None,
            "passed_over": later[0].route.opening.name if later and then is None else None,
            "change": change.loadout.name if change else None,
            "why": _SMALLER if then and same and smaller(then, outcome, study.drawn) else None,
        }
    )
