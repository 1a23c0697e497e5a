"""From a trial: a pit that counts as deep until it is measured has one depth in plan, card and push.

The readings of a plan took the 600 mm that the sheet assumed, the marks above ground took off the 1.5 m that
the pit was told with: whoever stood at the mark stood 0.9 m short of the end of an 8 m pipe.
"""

from __future__ import annotations

import pytest

from advisor.kit.loadouts import default_kit
from advisor.outcome.entry import entry_length, entry_upright
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import rules, tables

YARD = """
site: two chambers
region: britain
map: measured
lines:
  - line: drain
    size: 100 mm
    slope: 1:60
    pieces:
      - opening: side chamber
        kind: inspection chamber
        depth: assumed 600 mm
      - pipe: 8 m
      - opening: front chamber
        kind: inspection chamber
        depth: 900 mm
      - pipe: 9 m
      - end: public sewer
task: {look at: "drain, from side chamber to front chamber"}
deep pits: yes
"""
CHEST = 5 * 0.3048  # m: OSHA 1910.146(k)(3)(ii), the vertical depth from which retrieval takes a device


@pytest.fixture(scope="module")
def made():
    sheet = site_of_text(YARD, "site", tables())
    return plan(Case(sheet, default_kit(tables()), Units.METRIC, 100), tables(), rules())


def way(made, opening):
    return next(each for each in plan_of(made).routes if each.opening == opening)


def test_the_counter_at_the_far_end_is_the_depth_told_and_the_pipe(made):
    end = way(made, "side chamber").sights[-1]
    assert end.at_m == pytest.approx(CHEST + 8.0, abs=0.05)
    assert end.along_m == pytest.approx(8.0, abs=0.05)
    # It may as well be as shallow as the sheet assumed, so that reading is no surprise.
    assert end.at_low_m < CHEST + 8.0 - 0.3


def test_the_push_counts_the_way_in_as_the_plan_does(made):
    opening = next(each for each in made.network.openings() if each.name == "side chamber")
    assert entry_length(opening, "down", tables()) == pytest.approx(CHEST)
    assert entry_upright(opening, "down", tables()) == pytest.approx(CHEST)


def test_a_depth_that_nobody_measured_is_told_as_no_measured_one(made):
    for opening, measured in (("side chamber", False), ("front chamber", True)):
        first = way(made, opening).sights[0]
        assert first.depth_m is None or first.depth_measured is measured
    assert any(each.depth_m is not None for each in way(made, "side chamber").sights)
