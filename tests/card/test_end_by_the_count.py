"""A part may end in the midst of a pipe: nothing shows there, and nobody goes on because nothing came.

What can be seen there follows from the sheet: plain pipe on both sides.
"""

from __future__ import annotations

from functools import cache

import pytest

from advisor.card.build import card_of
from advisor.card.content import Sight
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.model import Plan
from tests.card.cards import DATE
from tests.cases.jobs import kit_text, studied, tables

HOUSE = """
site: an invented house
region: britain
map: guess
septic: no
pumps: no
lines:
  - line: drain
    kind: drain
    size: 100 mm
    material: pvc
    condition: sound
    pieces:
      - opening: cellar plug
        kind: end cleanout
        opens: yes
      - pipe: 6 m
      - joined by: sink line
        drawn: no
      - pipe: BEHIND
      - end: public sewer
task:
  look at: drain, from cellar plug to END
  complaint: {holding: no, chemicals: no, gas smell: no}
"""


@cache
def made(end: str, behind: str = "30 m") -> Plan:
    return plan_of(studied(HOUSE.replace("END", end).replace("BEHIND", behind), kit_text(), 50))


def row(end: str, behind: str = "30 m") -> Sight:
    plan = made(end, behind)
    card = card_of(plan, plan.routes[0], tables().card, Units.METRIC, DATE, True)
    return next(sight for sight in card.sights if sight.see.startswith("the end"))


def test_a_place_in_plain_pipe_is_told_as_one_that_only_the_count_tells():
    end = row("4 m below sink line")
    assert end.see == "the end, by the count alone: 4 m below sink line"
    # 6 m and 4 m, and the way from the rim of the plug into the line.
    assert float(end.reading.removesuffix(" m")) == pytest.approx(10, abs=0.3)
    assert "springy" not in end.do
    assert end.missed.startswith("Stop")


def test_where_the_sewer_may_come_before_it_the_sewer_is_told():
    assert row("4 m below sink line", "assumed 3 to 20 m").missed == "Stop. Ahead may be: public sewer."


def test_a_thing_that_shows_is_told_by_its_name():
    there = row("sink line")
    assert there.see == "the end: where sink line joins; the line goes on"
    assert there.missed.startswith("Go on")


def test_a_mark_above_it_is_told_by_where_it_lies():
    plan = made("4 m below sink line")
    card = card_of(plan, plan.routes[0], tables().card, Units.METRIC, DATE, True)
    marks = [line.text for block in card.blocks for line in block.lines if line.text.startswith("Mark ")]
    assert any(": 4 m below sink line" in text for text in marks)
    assert not any(": pipe" in text for text in marks)
