"""A pit told to be deeper than a chest, beside a chamber of which nobody saw the depth: the safe side holds.

A first-time user told so, and plan and card had the only chamber 700 mm deep, as if somebody had seen it.
"""

from __future__ import annotations

import pytest

from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import rules, tables

YARD = """
site: two chambers
region: britain
lines:
  - line: drain
    size: 100 mm
    pieces:
      - opening: gully
        kind: gully
      - pipe: 3 m
      - opening: yard chamber
        kind: inspection chamber{yard}
      - pipe: 9 m
      - opening: front chamber
        kind: inspection chamber{front}
      - pipe: 9 m
      - end: public sewer
task: {{look at: drain}}
deep pits: {deep}
"""
CHEST = 5 * 0.3048  # m: OSHA 1910.146(k)(3)(ii), the vertical depth from which retrieval takes a device


def depths(deep: str, yard: str = "", front: str = "") -> list[float | None]:
    told = [f"\n        depth: {each}" if each else "" for each in (yard, front)]
    text = YARD.format(deep=deep, yard=told[0], front=told[1])
    openings = network_of(site_of_text(text, "site", tables()), tables()).openings()
    return [each.hole.depth for each in openings if each.hole is not None]


@pytest.mark.parametrize(
    ("deep", "yard", "front", "expected"),
    [
        ("yes", "assumed 700 mm", "assumed 1 m", [None, CHEST, CHEST]),
        ("yes", "", "assumed 2 m", [None, CHEST, 2.0]),  # either may be the one
        ("yes", "700 mm", "assumed 1 m", [None, 0.7, CHEST]),  # what was seen stays as it was seen
        ("yes", "assumed 700 mm", "1.8 m", [None, 0.7, 1.8]),  # that is the one
        ("no", "assumed 700 mm", "assumed 1 m", [None, 0.7, 1.0]),
        ("unknown", "assumed 700 mm", "", [None, 0.7, None]),
    ],
)
def test_the_depth_that_nobody_saw_follows_what_was_told(deep, yard, front, expected):
    assert depths(deep, yard, front) == [each if each is None else pytest.approx(each) for each in expected]


def test_it_stays_assumed_and_says_why():
    text = YARD.format(deep="yes", yard="\n        depth: assumed 700 mm", front="")
    network = network_of(site_of_text(text, "site", tables()), tables())
    told = [each.about for each in network.assumed if each.about.startswith("depth of")]
    why = ", as a pit here is, or may be, deeper than a chest"
    assert told == [f"depth of yard chamber{why}", f"depth of front chamber{why}"]
    assert [each.hole.deepest for each in network.openings() if each.hole] == [None, None, None]


@pytest.mark.parametrize(
    ("depth", "told"),
    [("assumed 700 mm", "1.5 m below the hand (assumed"), ("1.8 m", "1.8 m below the hand (as told)")],
)
def test_whoever_reads_a_depth_is_told_whether_it_is_assumed(depth, told):
    sheet = site_of_text(
        YARD.format(deep="yes", yard=f"\n        depth: {depth}", front=""), "site", tables()
    )
    made = plan(Case(sheet, default_kit(tables()), Units.METRIC, 50), tables(), rules())
    ways = [way for way in plan_of(made).routes if way.opening == "yard chamber"]
    assert ways
    assert all(told in " ".join(way.difficulty) for way in ways)
