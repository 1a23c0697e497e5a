"""A turn that bends the rod too tight is told where it lies, first, on plan, card and beside the opening."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from functools import cache

import pytest

from advisor.card.build import card_of
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.plan import Case, plan
from advisor.push.log.kinds import START
from advisor.push.log.log import Entry
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.spots import passage_note
from advisor.result.study import Study
from advisor.site.sheet import site_of_text
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from advisor.terminal.push.here import show_now
from tests.cases.jobs import rules, tables

HEED = "Draw out at the first crackle."
NOON = datetime(2026, 11, 2, 12, tzinfo=UTC)
# The least radius is told: in the one kit the rod lies in any bend of 3 in pipe, in the other in none.
KIT = """
kit: own
heads: [{head: head, diameter: 22 mm, length: 30 mm, nose: round}]
springs: [{spring: spring, like: small reel, length: 150 mm}]
rods: [{rod: rod, like: small reel, diameter: 6 mm, minimum radius: RADIUS}]
"""
LINE = """
site: invented
region: north america
built: 1994
map: measured
lines:
  - line: branch
    size: 3 in
    material: pvc
    condition: sound
    pieces:
      - opening: floor plug
        kind: end cleanout
        there: yes
        opens: yes
      - pipe: 2 m
      - bend: long sweep
      - pipe: 4 m
      - end: public sewer
task: {look at: branch, complaint: {holding: no, chemicals: no, gas smell: no}}
"""


@cache
def study(radius: str, line: str = LINE) -> Study:
    kit = kit_of(kit_of_text(KIT.replace("RADIUS", radius), "kit"), tables())
    return plan(Case(site_of_text(line, "site", tables()), kit, Units.METRIC, 200), tables(), rules())


def said(capsys) -> str:
    return " ".join(capsys.readouterr().out.replace("│", " ").split())


@pytest.mark.parametrize(("radius", "told"), [("900 mm", True), ("20 mm", False)])
def test_it_is_told_at_its_place_before_what_is_done_there(radius, told, capsys):
    """By hand: a long sweep of 3 in pipe has its middle line at about 115 mm, far under 900 and over 20."""
    made = plan_of(study(radius))
    show_plan(made, Units.METRIC, Page())
    shown = said(capsys)
    assert (HEED in shown) is told
    assert ("No spot on it is hard" in shown) is not told
    if told:
        spot = shown.index("long sweep, with the flow")
        assert spot < shown.index(HEED) < shown.index("Why: In a")
        assert "TAKE NOTE" not in shown or HEED not in shown.partition("TAKE NOTE")[2]
        assert "harm rod or spring" in shown
        assert "No spot on it is hard" not in shown


@pytest.mark.parametrize(("radius", "told"), [("900 mm", True), ("20 mm", False)])
def test_the_row_of_the_card_says_it_before_the_push(radius, told):
    made = plan_of(study(radius))
    card = card_of(made, made.routes[0], tables().card, Units.METRIC, "2026-11-26", False)
    rows = [row.do for row in card.sights if HEED in row.do]
    assert bool(rows) is told
    assert all(row.index(HEED) < row.index("Push gently") for row in rows)


@pytest.mark.parametrize(("radius", "told"), [("900 mm", True), ("20 mm", False)])
def test_beside_the_opening_it_stands_in_the_box_of_the_place(radius, told, capsys):
    start = Entry(0, NOON, NOON, START, 0.0, {"opening": "floor plug", "direction": "known"})
    sighting = replace(start, number=1, kind="sighting", counter=1.5, data={"what": "nothing"})
    show_now(Now(Push(study(radius), start), (sighting,)), Page())
    box = said(capsys).partition("HARD PLACE")[2]
    assert (HEED in box) is told
    if told:
        assert box.index(HEED) < box.index("gentle push")


def test_a_quick_stroke_is_told_only_where_a_quick_push_may_be_used(capsys):
    """No blow with a rod at its limit: then a length for one is no help."""
    made = plan_of(study("900 mm"))
    show_plan(made, Units.METRIC, Page())
    route = made.routes[0]
    verdicts = {t.verdict for spot in route.passages for t in spot.techniques if t.name == "quick push"}
    assert verdicts <= {"rejected", "useless", "not worth it"}
    assert "quick stroke" not in said(capsys)
    card = card_of(made, route, tables().card, Units.METRIC, "2026-11-26", False)
    assert not any("stroke" in what for _, what in card.keys)


# Where the branch joins it is a wye or something tighter: a rod may lie in the one and not in the other.
TWO = """
site: invented
region: north america
built: 1994
map: measured
lines:
  - line: house drain
    kind: drain
    size: 4 in
    material: pvc
    condition: sound
    pieces:
      - capped: yes
      - pipe: 3 m
      - joined by: branch
        fitting: unknown
        side: left
        lies: on its side
      - pipe: 9 m
      - end: public sewer
  - line: branch
    size: 2 in
    material: pvc
    condition: sound
    pieces:
      - opening: floor plug
        kind: end cleanout
        there: yes
        opens: yes
      - pipe: 2 m
task:
  look at: house drain, from branch to public sewer
  complaint: {holding: no, chemicals: no, gas smell: no}
"""


@pytest.mark.parametrize("radius", ["200 mm", "320 mm", "900 mm"])
def test_where_no_blow_is_told_none_is_proposed_whatever_the_fitting_may_be(radius):
    made = study(radius, TWO)
    told = [passage_note(spot, each, made.reader) for each in made.outcomes for spot in each.spots]
    assert told
    for note in told:
        blow = next(each for each in note.techniques if each.name == "quick push")
        assert any("no blow" in caution.text for caution in note.cautions)
        assert (blow.verdict, blow.chance) == ("rejected", 0)
        assert "kinks it" in blow.because
