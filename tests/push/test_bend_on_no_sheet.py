"""From a trial: a bend that a push recognized as on no sheet is told by plan, card and report after it.

The push said "a bend that the sheet does not draw"; the plan made after it told no turn, its card had no row.
Lengths here are by hand: what the counter ran, less the depth of the chamber that it was zeroed at.
"""

from __future__ import annotations

import pytest

from advisor.card.build import card_of
from advisor.push.before.turns_seen import undrawn_told
from advisor.push.log.kinds import END, SIGHTING, START
from advisor.push.met_before import met_before
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.model import Plan
from tests.cases.jobs import tables
from tests.push.test_earlier_stop import numbered
from tests.terminal.test_now_shown import Told, study_of

SITE = """
site: two chambers
region: britain
map: measured
lines:
  - line: drain
    size: 110 mm
    material: plastic
    condition: sound
    pieces:
      - opening: side chamber
        kind: inspection chamber
        depth: 600 mm
      - pipe: 4 m
      - pipe: 4 m
      - opening: front chamber
        kind: inspection chamber
        depth: 900 mm
      - pipe: 9 m
      - end: public sewer
task:
  look at: "drain, from side chamber to front chamber"
  complaint: {holding: no, chemicals: no}
deep pits: no
"""
DRAWN = SITE.replace("- pipe: 4 m\n", "- pipe: 4 m\n      - bend: 45 degree bend\n", 1)
BEGUN: Told = (START, 0.0, {"opening": "front chamber", "direction": "upstream"})
FIRST: Told = (SIGHTING, 4.9, {"what": "bend"})  # 4 m along the pipe
SECOND: Told = (SIGHTING, 6.4, {"what": "bend"})
OUT: Told = (END, 7.0, {"reached": False, "out": True})


def planned(text: str, *told: Told) -> Plan:
    study = study_of(text)
    return plan_of(study, met_before(study, numbered(*told)))


def rows(plan: Plan, opening: str) -> list[tuple[str, str]]:
    way = next(each for each in plan.routes if each.opening == opening)
    card = card_of(plan, way, tables().card, Units.METRIC, "", False)
    return [(row.reading, row.see) for row in card.sights if "not on the sheet" in row.see]


def test_on_the_way_of_that_push_it_stands_at_its_reading():
    found = rows(planned(SITE, BEGUN, FIRST, SECOND, OUT), "front chamber")
    assert [reading for reading, _ in found] == ["4.9 m", "6.4 m"]


def test_it_is_told_with_its_place_before_all_else():
    (told,) = (
        note.left for note in planned(SITE, BEGUN, FIRST, SECOND, OUT).found if note.undrawn and note.left
    )
    assert told.startswith("Not on your sheet: 2 bends seen in from front chamber")
    assert "at 4.9 m and 6.4 m. Draw each, 4 m and 5.5 m along the pipe from front chamber" in told


def test_from_the_other_chamber_it_stands_at_the_lengths_of_the_sheet():
    """8 m of pipe between them: 4 m from the one is 4 m from the other, 600 mm down."""
    ((reading, see),) = rows(planned(SITE, BEGUN, FIRST, OUT), "side chamber")
    assert reading == "4.6 m"
    assert "seen in from front chamber at 4.9 m" in see


def test_its_turn_is_counted_on_every_way_through_that_pipe():
    plan = planned(SITE, BEGUN, FIRST, SECOND, OUT)
    seen = {way.opening: (way.bends, way.turns_undrawn) for way in plan.routes}
    assert seen == {"front chamber": (0, 2), "side chamber": (0, 2)}


@pytest.mark.parametrize("told", [(), (FIRST,)])
def test_a_bend_that_the_sheet_draws_is_none(told):
    plan = planned(DRAWN, BEGUN, *told, OUT)
    assert not [note for note in plan.found if note.undrawn]
    assert {way.turns_undrawn for way in plan.routes} == {0}


def test_seen_again_by_another_push_it_is_one():
    """4.9 and 5.0 m are one place by any counter that is read by eye."""
    again: Told = (SIGHTING, 5.0, {"what": "bend"})
    plan = planned(SITE, BEGUN, FIRST, OUT, BEGUN, again, OUT)
    assert [reading for reading, _ in rows(plan, "front chamber")] == ["4.9 m"]
    assert {way.turns_undrawn for way in plan.routes} == {1}


def test_seen_from_both_ends_it_is_one():
    """4 m of pipe from either chamber: 4.9 m in from the one and 4.6 m in from the other."""
    begun: Told = (START, 0.0, {"opening": "side chamber", "direction": "downstream"})
    seen: Told = (SIGHTING, 4.7, {"what": "bend"})
    plan = planned(SITE, BEGUN, FIRST, OUT, begun, seen, OUT)
    assert {way.opening: way.turns_undrawn for way in plan.routes} == {"front chamber": 1, "side chamber": 1}


def test_the_report_tells_it():
    (told,) = undrawn_told(study_of(SITE), numbered(BEGUN, FIRST, OUT))
    assert told == (
        "Not on the sheet: the bend seen in from front chamber at 4.9 m, 4 m along the pipe from there. "
        "Draw it."
    )
