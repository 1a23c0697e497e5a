"""Trees by the line: a sign of roots by Bayes' rule in odds, which weakens nothing and is asked of use.

That roots are the commonest cause of sewer blockages, in old pipe with joints first, and that trees and
shrubs within 10 m were counted as their cause: root-blockages and root-places in rules/sources.yaml.
"""

from __future__ import annotations

import numpy as np
import pytest

from advisor.interview.answers import Answer
from advisor.interview.subject import JOB, answer_in
from advisor.interview.worth import next_to_ask
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.result.build import plan_of
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import kit_text, studied, tables
from tests.interview.small_session import HOUSE, session
from tests.outcome.test_roots import BIG

KIT = kit_text()
CLAY = """
site: garden
region: north america
built: BUILT
TREES
lines:
  - line: drain
    material: MATERIAL
    pieces:
      - opening: plug
        kind: end cleanout
        opens: yes
        size: 4 in
        depth: 1 ft
      - pipe: 40 ft
      - joined by: arm
      - pipe: 10 ft
      - end: public sewer
  - line: arm
    kind: branch
    material: MATERIAL
    pieces:
      - fixture: toilet
      - pipe: 10 ft
task: {look at: "drain, from plug to public sewer", complaint: {holding: no}}
"""


def sheet(trees: str, built: str = "1950", material: str = "clay") -> str:
    told = f"trees: {trees}" if trees else "pumps: no"
    return CLAY.replace("BUILT", built).replace("TREES", told).replace("MATERIAL", material)


def condition(line: str, *told: str) -> dict[str, float]:
    network = network_of(site_of_text(sheet(*told), "site", tables()), tables())
    (wall,) = {piece.wall.condition for piece in network.pieces.values() if piece.line == line}
    return dict(wall.options)


@pytest.mark.parametrize(("built", "material"), [("1950", "clay"), ("1970", "clay"), ("1950", "cast iron")])
def test_the_odds_of_roots_rise_by_the_ratio_of_the_sign_and_no_scale_is_rarer(built, material):
    near, usual = (condition("drain", trees, built, material) for trees in ("yes", ""))
    signs = tables().signs
    ratio = signs["trees, there"].likely / signs["trees, not there"].likely
    odds, before = (shares["roots"] / (1 - shares["roots"]) for shares in (near, usual))
    assert ratio > 1
    assert odds == pytest.approx(ratio * before)
    assert sum(near.values()) == pytest.approx(1)
    others = usual.keys() - {"roots", "sound"}
    assert {name: near[name] for name in others} == {name: usual[name] for name in others}


@pytest.mark.parametrize("trees", ["no", "unknown"])
def test_that_none_stand_there_frees_no_joint(trees):
    assert condition("drain", trees) == condition("drain", "")


def test_pipe_indoors_and_pipe_that_roots_do_not_enter_stay_as_they_are():
    assert condition("arm", "yes") == condition("arm", "")
    galvanised = ("1950", "galvanised steel")
    assert condition("drain", "yes", *galvanised) == condition("drain", "", *galvanised)


@pytest.mark.parametrize("built", ["1950", "1970", "1995"])
def test_no_caution_of_a_plan_falls_away_by_them(built):
    near, usual = (plan_of(studied(sheet(trees, built), KIT, 200)) for trees in ("yes", ""))

    def cautions(plan) -> set[str]:
        ways = (note.id for route in plan.routes for note in route.cautions)
        return {*(note.id for note in plan.cautions), *ways}

    assert cautions(usual) <= cautions(near)
    assert near.routes[0].chance <= usual.routes[0].chance
    assert "condition of drain, trees by it" in {note.about for note in near.assumed}
    assert "condition of drain" in {note.about for note in usual.assumed}


# -- asked ------------------------------------------------------------------------------------

SAFE = {"gas-smell": "no", "holding": "no", "chemicals": "no", "roof": "yes", "deep": "no"}
TOLD = tuple(Answer(about, "job", (word,)) for about, word in SAFE.items())


def test_it_is_told_as_often_as_the_sign_says_in_worlds_with_roots_and_without():
    """Its worth is reckoned as of any question; to three sigma of so many worlds."""
    study = studied(sheet(""), KIT, 1500)
    words, told = answer_in(JOB, "trees", study)
    (wall,) = {piece.wall for piece in study.network.pieces.values() if piece.line == "drain"}
    rooted = study.drawn.wall(wall).rooted > 0
    assert words == ("no", "yes")
    for where, sign in ((rooted, "there"), (~rooted, "not there")):
        share = tables().signs[f"trees, {sign}"].likely
        off = 3 * np.sqrt(share * (1 - share) / where.sum())
        assert told[where].mean() == pytest.approx(share, abs=off)


def test_it_is_asked_only_where_roots_may_be_and_once():
    of = session(sheet=HOUSE)
    assert "trees" in {ask.question.id for ask in of.open(TOLD)}
    yes = (*TOLD, Answer("trees", "job", ("yes",)))
    assert of.sheets.drain(yes).sheet.model.trees is True
    assert "trees" not in {ask.question.id for ask in of.open(yes)}
    told = session(sheet=HOUSE.replace("region:", "trees: no\nregion:"))
    assert "trees" not in {ask.question.id for ask in told.open(TOLD)}
    galvanised = sheet("", "1950", "galvanised steel")
    assert "trees" not in {ask.question.id for ask in session(sheet=galvanised).open(TOLD)}
    assert answer_in(JOB, "trees", studied(galvanised, KIT, 60)) is None


TWO_WAYS = """
site: two ways
region: north america
built: 1950
map: measured
lines:
  - line: drain
    size: 4 in
    material: clay
    pieces:
      - {opening: hall, kind: end cleanout, size: 4 in, opens: yes, depth: 300 mm}
      - pipe: CLAY m
      - joined by: arm
      - pipe: 500 mm
      - change: {material: cast iron, condition: sound}
      - pipe: 500 mm
      - joined by: other
      - pipe: 10 m
      - {opening: yard, kind: inspection chamber, opens: yes, depth: 900 mm}
      - pipe: 3 m
      - end: public sewer
  - {line: arm, kind: branch, size: 2 in, pieces: [{fixture: basin}, {pipe: 2 m}]}
  - {line: other, kind: branch, size: 2 in, pieces: [{fixture: laundry tub}, {pipe: 2 m}]}
task: {look at: "drain, from arm to other"}
"""


@pytest.mark.parametrize(("clay", "asked"), [(14, True), (22, False)])
def test_it_is_put_where_roots_decide_between_two_ways(clay, asked):
    """By old clay or by sound iron: as long the one is worse by far, no tree changes that."""
    kit = kit_of(kit_of_text(BIG, "kit"), tables())
    of = session(sheet=TWO_WAYS.replace("CLAY", str(clay)), kit=kit)
    (trees,) = (ask for ask in of.open(TOLD) if ask.question.id == "trees")
    assert (next_to_ask([trees], of.standing(TOLD)) is trees) is asked
