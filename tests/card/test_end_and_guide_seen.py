"""What a push saw of the end, and by what it came past a place, in the rows of the next card.

Rule of the trade: an end that was seen is the end, so nobody is sent on past it; what went by with a guide on
the head says nothing of a head without one.
"""

from __future__ import annotations

import pytest

from advisor.card.build import card_of
from advisor.push.log.kinds import SIGHTING, START, TRY, UP
from advisor.push.met_before import met_before
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.told import found_elsewhere, found_on
from tests.card.test_rows_of_pushes import OUT, ROOTS, SITE
from tests.cases.jobs import tables
from tests.push.test_earlier_stop import numbered
from tests.push.test_found_again import BEGUN
from tests.push.test_other_mouth import into_the_annexe
from tests.terminal.test_now_shown import Told, study_of

# The sheet has the toilet 6 m of pipe behind the chamber.
BEGUN_AT_PIT: Told = (START, 0.0, {"opening": "pit", "direction": UP, "mouth": "annexe"})
END_SEEN: Told = (SIGHTING, 6.4, {"what": "end"})
PAST: Told = (SIGHTING, 7.0, {"what": "nothing"})


def by(technique: str) -> Told:
    return TRY, 5.0, {"technique": technique, "outcome": "passed", "outside": True}


@pytest.mark.parametrize("seen", [True, False])
def test_where_the_end_was_seen_the_line_is_no_longer(seen):
    study = into_the_annexe().push.study
    told = [END_SEEN] if seen else []
    plan = plan_of(study, met_before(study, numbered(BEGUN_AT_PIT, *told, OUT)))
    way = next(each for each in plan.routes if each.opening == "pit")
    card = card_of(plan, way, tables().card, Units.METRIC, "", False)
    (end,) = (row.missed for row in card.sights if row.see.startswith("the end: "))
    assert ("longer" in end, "No further than 6.4 m" in end) == (not seen, seen)


@pytest.mark.parametrize(("technique", "says"), [("guide", True), ("turn the rod", False)])
def test_gear_without_the_guide_that_came_past_is_told_that_it_has_none(technique, says):
    study = study_of(SITE)
    plan = plan_of(study, met_before(study, numbered(BEGUN, ROOTS, by(technique), PAST, OUT)))
    way = plan.routes[0]
    for guide in (None, "a guide"):
        gear = way.model_copy(update={"loadout": way.loadout.model_copy(update={"guide": guide})})
        (note,) = found_on(plan, gear)
        assert f"by this: {technique}" in note.do
        assert ("this gear has none" in note.do) is (says and guide is None)
        assert not found_elsewhere(plan, gear), "and it is told once"
