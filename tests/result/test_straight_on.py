"""Half the trouble may lie in the next section, straight on behind the chamber at which a push is to end.

From a trial: 47 % lay 9 m on through an open chamber, with 20 m of rod left on the reel, and plan
and card had no word of it: the push ended at 10.5 m.
"""

from __future__ import annotations

import pytest

from advisor.card.build import card_of
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.model import Plan
from advisor.result.straight_on import straight_on
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.jobs import kit_text, studied, tables

# All water comes in at the top, so that only the lengths count: 8 of 15 m lie before the front chamber.
SITE = """
site: two chambers
region: britain
built: 2005
lines:
  - line: drain
    kind: drain
    size: 110 mm
    material: pvc
    condition: sound
    pieces:
      - {opening: side chamber, kind: inspection chamber, depth: 0.6 m, there: yes, opens: yes}
      - pipe: 8 m
      - {opening: front chamber, kind: inspection chamber, depth: 0.6 m, there: yes, opens: no}
      - pipe: 7 m
      - end: public sewer
task: {look at: TARGET, complaint: {backs up: [side chamber], holding: no, gas smell: no, chemicals: no}}
"""
BOTH = "drain, from side chamber to public sewer"


def text(**other: str) -> str:
    made = SITE.replace("TARGET", "suspect section")
    for old, new in other.values():
        assert old in made
        made = made.replace(old, new)
    return made


def planned(made: str) -> Plan:
    return plan_of(studied(made, kit_text(), worlds=60))


def test_what_lies_straight_on_is_told_with_its_chance_and_what_to_say_for_both(capsys):
    """By hand: 7 of 15 m."""
    plan = planned(text())
    assert plan.target.words == "drain, from side chamber to front chamber"
    on = plan.target.straight_on
    assert on is not None
    assert on.chance == pytest.approx(7 / 15, abs=0.01)
    assert (on.behind, on.look_at) == ("front chamber", BOTH)
    show_plan(plan, Units.METRIC, Page())
    shown = " ".join(capsys.readouterr().out.split())
    assert "It may lie straight on behind front chamber as well, 47%: drain, from front chamber" in shown
    assert f"look at: {BOTH}" in shown
    card = card_of(plan, plan.routes[0], tables().card, Units.METRIC, "", False)
    assert card.target.endswith("(53%). As well straight on: drain, from front chamber to public sewer (47%)")
    other = plan.routes[0].model_copy(update={"opening": "front chamber"})
    assert "straight on" not in card_of(plan, other, tables().card, Units.METRIC, "", False).target
    both = planned(text(of=("suspect section", f'"{BOTH}"')))
    assert both.routes[0].length_m == pytest.approx(15.3, abs=0.4), "the words lead where they say"
    assert both.target.straight_on is None


@pytest.mark.parametrize(
    "other",
    [
        ("- pipe: 7 m", "- pipe: 3 m"),  # 3 of 11 m: less than half as likely
        ("- pipe: 8 m", "- pipe: 13 m"),  # 7 of 20 m, and this reel mostly lasts no 20 m
        ("- pipe: 7 m", "- pipe: 1.5 m\n      - bend: 45 degree bend\n      - pipe: 1.5 m"),
        ("- pipe: 7 m", "- trap: house trap\n      - pipe: 7 m"),
        ("opening: front chamber, kind: inspection chamber", "opening: front chamber, kind: rodding eye"),
    ],
)
def test_it_is_told_only_where_it_is_likely_and_the_rod_goes_there_freely(other):
    assert planned(text(one=other)).target.straight_on is None


def test_a_way_that_ends_at_what_a_push_met_leads_to_nothing_behind_it():
    study = studied(text(), kit_text(), worlds=60)
    assert straight_on(study, {each.outcome.route.id for each in study.ranked}) is None
