"""Told as upstream from a chamber, the head may have gone into any mouth of its channel but the outlet.

Common practice, no source: one stands over the open channel and lays the head into a mouth by hand. What
fills a branch runs to the chamber through that branch alone, so that its water tells the branch.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import DOWN, SIGHTING, STOPPED, UNKNOWN, UP, WATER
from advisor.push.now.now import Now
from advisor.push.now.way_gone import way_gone
from tests.terminal.test_now_shown import pushed

HOUSE = """
site: invented
region: britain
map: guess
lines:
  - line: yard drain
    kind: drain
    size: 100 mm
    material: clay
    condition: sound
    pieces:
      - fixture: kitchen sink
      - pipe: 4 m
      - opening: pit
        kind: inspection chamber
      - joined by: annexe
        fitting: FITTING
      - joined by: gutter line
        fitting: chamber branch
      - pipe: 12 m
      - end: public sewer
  - line: annexe
    kind: branch
    size: 100 mm
    material: plastic
    condition: sound
    pieces:
      - opening: far toilet
        kind: P-outlet toilet
      - pipe: 6 m
  - line: gutter line
    size: 100 mm
    material: clay
    condition: sound
    pieces:
      - opening: gutter gully
        kind: gully
      - pipe: 2 m
task: {look at: "yard drain, from gutter line to public sewer", complaint: {holding: no, chemicals: no}}
"""
CHAMBER = HOUSE.replace("FITTING", "chamber branch")
CAME = (WATER, 3.0, {"fixture": "far toilet", "seconds": 4.0, "side": "ahead"})
NOT = (WATER, 3.0, {"fixture": "kitchen sink"})
NOTHING = (SIGHTING, 3.0, {"what": "nothing"})


def from_the_pit(*told, direction: str = UP, text: str = CHAMBER) -> Now:
    return pushed(text, "pit", *told, direction=direction)


def test_each_mouth_but_the_outlet_is_upstream():
    """By count: the drain's own and two branches, alike where the plan goes into none of them."""
    ways = from_the_pit().push.tracker.chart.ways
    shares = {}
    for way in ways:
        line = way.legs[-1].line
        shares[line, way.port] = shares.get((line, way.port), 0.0) + way.prior
    up = [shares[line, "up"] for line in ("yard drain", "annexe", "gutter line")]
    assert up == pytest.approx([0.97 / 3] * 3)  # rules/signs/where.yaml, first_way


def test_the_mouth_of_the_plan_is_the_likelier():
    """By hand, with as_planned 0.5 of rules/signs/where.yaml: half, and a third of the other half."""
    text = CHAMBER.replace("from gutter line to public sewer", "from kitchen sink to pit")
    ways = from_the_pit(text=text).push.tracker.chart.ways
    main = sum(way.prior for way in ways if way.port == "up" and way.legs[-1].line == "yard drain")
    assert main == pytest.approx(0.97 * (0.5 + 0.5 / 3))


def test_a_closed_fitting_beside_a_chamber_is_no_mouth_of_it():
    ways = from_the_pit(text=HOUSE.replace("FITTING", "45 degree branch")).push.tracker.chart.ways
    assert {way.port for way in ways if way.legs[-1].line == "annexe"} == {"down"}


@pytest.mark.parametrize("direction", [UP, UNKNOWN])
def test_its_own_water_from_ahead_tells_the_branch_and_not_a_pipe_off_the_map(direction):
    now = from_the_pit(NOTHING, CAME, NOT, direction=direction)
    assert (now.fix.best.line, now.fix.best.with_flow) == ("annexe", False)
    assert now.fix.best.share > 0.9
    assert not now.off_map
    assert now.contrary is None


def test_a_push_up_a_branch_of_the_chamber_went_as_it_was_told():
    now = from_the_pit(NOTHING, CAME, NOT)
    gone = way_gone(now.push.tracker, (now.push.began, *now.entries))
    assert (gone.told, gone.way, gone.doubted) == (UP, UP, "")


def test_told_as_downstream_it_is_shown_to_have_gone_up():
    now = from_the_pit(NOTHING, CAME, NOT, direction=DOWN)
    assert way_gone(now.push.tracker, (now.push.began, *now.entries)).doubted == "other"


def test_the_material_of_a_branch_is_seen_at_its_mouth_alone():
    """3.8 m in by the counter is 3.3 m up the branch: plastic told there begins nowhere near the chamber."""
    marks = [
        mark
        for way in from_the_pit().push.tracker.chart.ways
        if way.legs[-1].line == "annexe" and way.port == "up"
        for mark in way.landmarks
        if mark.kind == "material"
    ]
    assert marks
    assert all(mark.within <= mark.at + 0.5 for mark in marks)  # so near it counts as there


def test_a_rim_before_the_lens_does_not_put_the_head_at_the_end_of_the_pipe():
    """The chamber's entry is 0.5 m and the branch 6 m: at 4 m by the counter 2.5 m are left to the toilet."""
    left = {
        sign: from_the_pit(NOTHING, CAME, NOT, (STOPPED, 4.0, {"sign": sign})).fix.best
        for sign in ("wall ahead", "rim ahead")
    }
    assert left["rim ahead"].line == "annexe"
    assert left["rim ahead"].at > left["wall ahead"].at + 0.3
    assert left["rim ahead"].high > 2.5
