"""What if, what matters and what would change it: the same plan with one value told otherwise."""

from __future__ import annotations

import pytest

from advisor.errors import BadInput
from advisor.explain.change import cures
from advisor.explain.matters import in_words, what_matters
from advisor.explain.vary import replaced, value_at
from advisor.explain.what_if import what_if
from advisor.kit.loadouts import kit_of
from advisor.outcome.memory import Memory
from advisor.plan import Case
from advisor.quantity import Units
from advisor.site.sheet import site_of_text
from advisor.strict_yaml import plain
from tests.cases.jobs import rules, tables
from tests.explain import test_explain as others
from tests.explain.test_explain import KIT_SHEET, case

made = others.made  # a fixture
study = others.study  # a fixture


@pytest.mark.parametrize("prefix", ["", "assumed "])
def test_what_if_turns_the_lead_and_says_where(prefix):
    # Two ways to one point, in one pipe: whoever is nearer leads (fewer metres, all else alike).
    text = """
site: two ways
region: britain
map: measured
lines:
  - line: run
    kind: drain
    size: 100 mm
    material: clay
    condition: sound
    slope: level
    pieces:
      - opening: upper chamber
        kind: inspection chamber
        opens: yes
      - pipe: 8 m
        landmark: wall
      - pipe: 12 m
        name: lower run
      - opening: lower chamber
        kind: inspection chamber
        opens: yes
      - pipe: 1 m
      - end: public sewer
task: {look at: "run, 0.1 m below wall", complaint: {holding: no}}
"""
    text = text.replace("pipe: 8 m", f"pipe: {prefix}8 m")
    made = Case(site_of_text(text, "site", tables()), kit_of(KIT_SHEET, tables()), Units.METRIC, 300)
    found = what_if(made, KIT_SHEET, "wall/pipe", "30 m", f"{prefix}8 m", tables(), rules())
    assert (found.leader_before, found.leader_after) == ("upper chamber", "lower chamber")
    assert found.turns_at is not None
    # By hand the lead turns where the two ways are as long: near 12 m.
    assert 10 < float(found.turns_at.split()[0]) < 14


def test_what_if_with_the_same_value_changes_nothing():
    found = what_if(case(), KIT_SHEET, "toilet branch/size", "3 in", "3 in", tables(), rules())
    assert found.leader_before == found.leader_after
    assert all(each.chance_before == each.chance_after for each in found.changes)


def test_what_if_on_the_kit():
    found = what_if(case(), KIT_SHEET, "small head/diameter", "60 mm", "25 mm", tables(), rules())
    best = max(found.changes, key=lambda each: each.chance_before)
    assert best.chance_after != best.chance_before


@pytest.mark.parametrize("path", ["nowhere/size", "house drain", "house drain/size/deeper"])
def test_what_if_about_nothing_is_bad_input(path):
    with pytest.raises(BadInput):
        what_if(case(), KIT_SHEET, path, "3 in", None, tables(), rules())


def test_replacing_names_a_line_before_where_it_joins():
    tree = plain(case().sheet.tree)
    assert value_at(tree, "toilet branch/size", "") == "3 in"
    assert "size: 5 in" in replaced(tree, "toilet branch/size", "5 in", "")


def test_what_matters_is_worth_minutes_and_worthiest_first(study):
    found = what_matters(study)
    assert found == tuple(sorted(found, key=lambda each: (-each.minutes, each.unknown)))
    assert all(each.minutes >= 0.5 for each in found)


def test_unknowns_are_told_in_words():
    assert in_words("house drain/opening:foot plug/opens") == "whether foot plug, house drain opens"
    assert in_words("limit/push_force") == "our figure for push force"
    assert in_words("model error/far wall") == "how far the model of the far wall is off"
    assert in_words("offset/quick push/wye") == "how this crew's quick push does at a wye"


def test_cures_raise_the_chance_and_leave_the_plan_alone(made, study):
    before = study.settled.order.chance
    told: list[tuple[int, int]] = []
    found = cures(made, study, tables(), rules(), Memory(), lambda done, of: told.append((done, of)))
    assert found
    assert told == [(number, len(told)) for number in range(1, len(told) + 1)] != [], "how far it is"
    assert all(each.chance_after >= before + 0.05 for each in found)
    assert study.settled.order.chance == before
