"""From a trial: with no kit given a card had "Mark 0.35 m: open channel at front chamber, about 900 mm deep".

By hand: with 0.35 m of rod let down a pit the head is 0.35 m deep, and the opening is in view: no mark.
Plain pipe that is hard stood in its row where it begins, and under what to do when stuck along all of it.
"""

from __future__ import annotations

import pytest

from advisor.card.build import card_of
from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import rules, tables

YARD = """
site: two chambers
region: britain
map: guess
built: 1930
lines:
  - line: drain
    size: 75 mm
    material: cast iron
    pieces:
      - opening: side chamber
        kind: inspection chamber
      - pipe: 8 m
      - opening: front chamber
        kind: inspection chamber
        depth: 900 mm
      - pipe: 9 m
      - end: public sewer
task: {look at: "drain, from side chamber to front chamber"}
deep pits: no
"""


@pytest.fixture(scope="module")
def told():
    sheet = site_of_text(YARD, "site", tables())
    return plan_of(plan(Case(sheet, default_kit(tables()), Units.METRIC, 100), tables(), rules()))


@pytest.fixture(scope="module")
def way(told):
    return next(each for each in told.routes if each.opening == "front chamber")


def test_in_the_pit_the_head_is_as_deep_as_the_rod_is_in(way):
    (channel,) = (each for each in way.sights if each.name.startswith("open channel"))
    assert 0 < channel.at_m < 0.9
    assert channel.depth_m == pytest.approx(channel.at_m)


def test_nobody_marks_what_is_in_view_nor_pipe_that_holds_anywhere(told, way):
    card = card_of(told, way, tables().card, Units.METRIC, "", False)
    marks = [line.text for each in card.blocks for line in each.lines if line.text.startswith("Mark ")]
    assert marks
    assert not [text for text in marks if "channel" in text or ": pipe" in text or "0 mm along" in text]


def test_its_row_stands_where_the_steps_for_it_do(way):
    (row,) = (each for each in way.sights if each.name == "pipe")
    spot = way.passages[row.hard]
    assert row.somewhere
    assert (row.at_m, row.at_low_m, row.at_high_m) == (spot.at_m, spot.at_low_m, spot.at_high_m)
    assert row.at_m > 1.5, "not 0.9 m in, where the pipe begins"
