"""Turns by their ports, and the plain numbers of a way, by hand on a small drain."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest

from advisor.outcome.facts import opening_facts, route_facts
from advisor.outcome.turns import turn_of
from tests.cases.jobs import kit_text, rules, studied, tables

SITE = """
site: by hand
region: britain
built: 1995
lines:
  - line: main
    kind: drain
    size: 100 mm
    material: pvc
    slope: 1 %
    pieces:
      - opening: upper
        kind: two-way cleanout
        opens: yes
      - pipe: 4 m
      - joined by: side
        fitting: FITTING
      - pipe: 3 m
      - opening: lower
        kind: two-way cleanout
        opens: yes
      - pipe: 2 m
      - end: public sewer
  - line: side
    size: 100 mm
    material: pvc
    slope: 1 %
    pieces:
      - capped: yes
      - drop: 2.5 m
      - belly: 1 m
      - pipe: 3 m
task: {look at: "LOOK"}
"""


def ways(look: str, fitting: str = "45 degree branch"):
    study = studied(SITE.replace("LOOK", look).replace("FITTING", fitting), kit_text(), 200)
    return study, {
        (o.route.opening.name, p.enters, p.leaves): (o, p)
        for o in study.outcomes
        for p in o.route.passages
        if p.piece.kind == "junction"
    }


def test_into_a_branch_that_looks_at_you_or_away_from_you():
    # A branch of 45 degrees points downstream. From below its mouth lies 45 degrees aside; from above the
    # head would have to double back through the rest of the half circle.
    study, found = ways("side")
    leg = turn_of(found["lower", "down", "branch"][1], study.drawn)
    back = turn_of(found["upper", "up", "branch"][1], study.drawn)
    assert (leg.way, back.way) == ("leg", "hairpin")
    assert np.asarray(leg.angle) == pytest.approx(pi / 4, rel=0.02)
    assert np.asarray(back.angle) == pytest.approx(3 * pi / 4, rel=0.02)
    assert not leg.merges
    assert not back.merges


def test_past_a_branch_down_and_up():
    study, found = ways("main")
    assert turn_of(found["upper", "up", "down"][1], study.drawn).way == "past"
    # Against the flow the branch is the other mouth of a fork.
    study, found = ways("main, from upper to side")
    assert turn_of(found["lower", "down", "up"][1], study.drawn).way == "fork"


def test_every_fact_that_rules_may_ask_of_an_opening_or_a_way_is_told():
    study, found = ways("side")
    outcome, _ = found["lower", "down", "branch"]
    told = {
        "opening": opening_facts(outcome.route.opening, outcome.loadout, study.drawn),
        "route": route_facts(outcome.route, outcome.march, study.drawn, outcome.loadout),
    }
    for about, facts in told.items():
        asked = {name for name in rules().facts if name.startswith(f"{about}.")}
        assert asked <= set(facts)


def test_the_plain_numbers_of_a_way():
    # From the lower opening 3 m up the main and into the side line: 3 m of pipe, 1 m of sag, 2.5 m upright.
    study, found = ways("side")
    outcome, _ = found["lower", "down", "branch"]
    facts = route_facts(outcome.route, outcome.march, study.drawn, outcome.loadout)
    assert facts["route.under_water"] == pytest.approx(1 / 6.5, rel=0.02)
    assert facts["route.drop"] == 0  # it rises
    assert facts["route.with_flow"] == "against"
    study, found = ways("main, from side to public sewer")
    outcome, _ = found["upper", "up", "down"]
    facts = route_facts(outcome.route, outcome.march, study.drawn, outcome.loadout)
    assert facts["route.under_water"] == 0
    assert facts["route.bends"] == outcome.march.end.bends
    # Both openings are of one kind, so their legs are alike, and 7 m lie between them.
    study, _ = ways("main, from lower to public sewer")
    length = {
        o.route.opening.name: route_facts(o.route, o.march, study.drawn, o.loadout)["route.length"]
        for o in study.outcomes
    }
    assert length["upper"] - length["lower"] == pytest.approx(7, abs=0.3)
    assert (
        tables().openings["two-way cleanout"].place
        == opening_facts(outcome.route.opening, outcome.loadout, study.drawn)["opening.place"]
    )
