"""Turns by their ports, and the plain numbers of a way, by hand on a small drain."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest

from advisor.outcome.facts import opening_facts, route_facts
from advisor.outcome.geometry import cleaned, wetted
from advisor.outcome.spot_facts import SpotFacts
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


def test_a_branch_that_is_set_upside_down_looks_up_the_line():
    study, found = ways("side", "45 degree branch\n        upside down: yes")
    leg = turn_of(found["upper", "up", "branch"][1], study.drawn)
    back = turn_of(found["lower", "down", "branch"][1], study.drawn)
    assert (leg.way, back.way) == ("leg", "hairpin")


def test_a_hairpin_goes_round_an_edge_and_a_straight_tee_is_alike_both_ways():
    """The sweep of a tee lies on one side: against it there is none, so the radius is nothing. A straight
    tee has no sweep: from above and from below it is the same quarter turn."""
    study, found = ways("side", "sanitary tee")
    leg, back = (
        turn_of(found[name, port, "branch"][1], study.drawn)
        for name, port in (("upper", "up"), ("lower", "down"))
    )
    legs = {turn.way: turn for turn in (leg, back)}
    assert set(legs) == {"leg", "hairpin"}
    assert float(np.mean(legs["leg"].radius)) > 0
    assert float(np.max(np.asarray(legs["hairpin"].radius))) == 0
    study, found = ways("side", "straight tee")
    down = turn_of(found["upper", "up", "branch"][1], study.drawn)
    up = turn_of(found["lower", "down", "branch"][1], study.drawn)
    assert (down.way, up.way) == ("leg", "leg")
    assert np.asarray(down.angle) == pytest.approx(np.asarray(up.angle))


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


def test_only_a_chamber_that_the_head_goes_on_through_leaves_the_rod_open():
    """Not where it is put in, nor where the way ends; and behind a plug the rod lies in pipe."""
    chamber = "      - {{opening: {}, kind: {}, depth: 600 mm}}\n      - pipe: 3 m\n".format
    kinds = (("top", "inspection chamber"), ("mid", "inspection chamber"), ("plug", "rodding eye"))
    pieces = "".join(chamber(*each) for each in kinds)
    sheet = (
        "site: a\nregion: britain\nlines:\n  - line: run\n    size: 100 mm\n    pieces:\n"
        + pieces
        + "      - {opening: low, kind: inspection chamber}\n      - pipe: 1 m\n      - end: public sewer\n"
        "task: {look at: 'run, from mid to low', complaint: {holding: no}}\n"
    )
    study = studied(sheet, kit_text(), 60)
    facts = {
        o.route.opening.name: route_facts(o.route, o.march, study.drawn, o.loadout)["route.open_at"]
        for o in study.outcomes
    }
    assert facts["top"] == "mid"
    assert facts["mid"] is None


def test_the_plain_numbers_of_a_way():
    # From the lower opening 3 m up the main and into the side line: 3 m of pipe, 1 m of sag, 2.5 m upright.
    study, found = ways("side")
    outcome, _ = found["lower", "down", "branch"]
    facts = route_facts(outcome.route, outcome.march, study.drawn, outcome.loadout)
    assert facts["route.under_water"] == pytest.approx(1 / 6.5, rel=0.02)
    assert facts["route.drop"] == 0  # it rises
    assert facts["route.flow"] == "against"
    assert facts["route.bends"] == 2  # the curve of the opening, and out into the branch
    study, found = ways("main, from side to public sewer")
    outcome, _ = found["upper", "up", "down"]
    facts = route_facts(outcome.route, outcome.march, study.drawn, outcome.loadout)
    assert facts["route.under_water"] == 0
    # Through the curve of the two-way opening, and straight on: one turn.
    assert facts["route.bends"] == 1
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


def test_once_cleaned_the_whole_bore_is_back():
    scaled = SITE.replace("material: pvc", "material: cast iron\n    condition: heavy scale")
    study = studied(scaled.replace("LOOK", "side").replace("FITTING", "unknown"), kit_text(), 200)
    outcome = next(o for o in study.outcomes if o.route.opening.name == "lower")
    kit = study.drawn.kit(outcome.loadout)
    for shape in outcome.geometries:
        clean = cleaned(shape, kit, study.drawn)
        assert np.asarray(clean.fits) == pytest.approx(
            np.asarray(clean.bore) / np.asarray(kit.head_diameter), rel=1e-4
        )
        assert (np.asarray(clean.bore) >= np.asarray(shape.bore) - 1e-6).all()
    pipe = next(s for s in outcome.geometries if s.passage.piece.kind == "pipe")
    sound = float(study.tables.bore("cast iron", 0.1).likely)
    assert float(np.mean(cleaned(pipe, kit, study.drawn).bore)) == pytest.approx(sound, rel=0.05)
    assert float(np.mean(pipe.bore)) < 0.9 * sound


@pytest.mark.parametrize(
    ("kind", "fixed"),
    [
        ("junction", {"passage.enters": "down", "passage.leaves": "branch", "passage.lie": "flat",
                      "passage.must_steer": True, "passage.fragile": "none", "passage.under_water": 0.0,
                      "passage.flow": "against", "passage.stopper": "none"}),
        ("belly", {"passage.under_water": 1.0, "passage.must_steer": False}),
        ("stopper", {"passage.stopper": "backwater valve", "passage.shape": "stopper"}),
    ],
)  # fmt: skip
def test_what_rules_are_told_of_a_place(kind, fixed):
    """What stands on the sheet, in the words of facts.yaml."""
    valve = "      - valve: backwater valve\n      - pipe: 3 m\ntask"
    site = SITE.replace("      - pipe: 3 m\ntask", valve) if kind == "stopper" else SITE
    study = studied(site.replace("LOOK", "side").replace("FITTING", "45 degree branch"), kit_text(), 200)
    spots = [s for o in study.outcomes if o.route.opening.name == "lower" for s in o.spots]
    hard = next(s for s in spots if s.passage.piece.kind == kind)
    (ruling, *_) = hard.rulings
    told = SpotFacts(hard.spot, study.kit.besides(study.outcomes[0].loadout), study.outcomes[0].loadout).of(
        ruling.variant, None
    )
    assert {name: told[name] for name in fixed} == fixed


def test_a_rod_that_bears_no_pull_does_not_come_out_again():
    """The weaker of coupling and arm counts: a spring that bears 1 N, whatever the arm could."""
    pulls = {}
    for bears in ("1 N", "2000 N"):
        text = SITE.replace("LOOK", "side").replace("FITTING", "45 degree branch")
        study = studied(text, kit_text(f"feel: soft, pull limit: {bears}"), 200)
        outcome = next(o for o in study.outcomes if o.route.opening.name == "lower")
        facts = route_facts(outcome.route, outcome.march, study.drawn, outcome.loadout)
        pulls[bears] = facts["route.pulls_out"]
    assert pulls == {"1 N": 0.0, "2000 N": 1.0}


def test_a_wet_rim_and_a_clean_one_are_slid_over_more_easily():
    """A rim stops the nose by friction: with less of it the margin over the same rim is wider."""
    text = (
        "site: rims\nregion: britain\nlines:\n  - line: drain\n    size: 100 mm\n    material: clay\n"
        "    condition: heavy scale\n    pieces:\n      - {opening: top, kind: end cleanout}\n"
        "      - pipe: 2 m\n"
        "      - {joint: offset, step: 15 mm}\n      - pipe: 2 m\n      - end: public sewer\n"
        "task: {look at: drain, complaint: {holding: unknown}}\n"
    )
    study = studied(text, kit_text(), 200)
    kit = study.drawn.kit(study.outcomes[0].loadout)
    rim = next(s for s in study.outcomes[0].geometries if s.passage.piece.kind == "joint")
    easier = wetted(rim, kit, study.drawn)
    slips = np.asarray(easier.friction) < np.asarray(rim.friction)
    assert slips.any()
    assert (np.asarray(easier.ledge) > np.asarray(rim.ledge))[slips].all()
    clean = cleaned(rim, kit, study.drawn)
    smoother = np.asarray(clean.friction) < np.asarray(rim.friction)
    assert (np.asarray(clean.ledge) > np.asarray(rim.ledge))[smoother].all()
