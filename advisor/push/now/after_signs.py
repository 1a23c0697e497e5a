"""A hard spot as its rules read it once the signs are seen: with the chances that are told beside it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from advisor.outcome.facts import Facts
from advisor.outcome.rulings import ruled_anew
from advisor.outcome.walk import HardSpot
from advisor.result.study import Study

# Which fact of a rule a trouble of the matrix is. Of a push to come the planner counts to the far wall what
# only sets off from it and then folds or goes astray; of a head that is held that is told apart.
FACT_OF = {
    "runs at far wall": "passage.runs_at_far_wall",
    "rod end sticks": "passage.rod_end_sticks",
    "folds back": "passage.folds_back",
    "wrong way": "passage.wrong_way",
    "crosses over": "passage.crosses_over",
    "head jams": "passage.head_jams",
    "bore too small": "passage.bore_blocked",
    "roots": "passage.roots_hold",
    "under water": "passage.under_water",
}
# And which is of pushes that are held there.
_HOLDS = {"runs at far wall": "passage.far_wall_holds", "rod end sticks": "passage.rod_end_holds"}


def facts_of(chances: Mapping[str, float]) -> Facts:
    """What rules are told of what holds the head; `chances` by trouble, 0 to 1."""
    return {fact: chances[each] for of in (FACT_OF, _HOLDS) for each, fact in of.items() if each in chances}


def after_signs(hard: HardSpot, chances: Mapping[str, float], study: Study) -> HardSpot:
    """The spot with its rules put anew to what holds the head there now; `chances` by trouble, 0 to 1.

    What the plan allows and thinks of each try stays as it was: the signs change what is said, and may
    forbid more, but they take back nothing that a rule forbade before.
    """
    changed = {**facts_of(chances), "passage.held_by": "By what was told here"}
    rulings = (ruled_anew(ruling, changed, study.base, study.reader) for ruling in hard.rulings)
    return replace(hard, rulings=tuple(rulings))
