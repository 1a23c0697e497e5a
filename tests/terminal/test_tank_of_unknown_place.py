"""A tank of which the sheet only knows a wide range: no place further in than rod, no chance told twice."""

from __future__ import annotations

import re
from dataclasses import replace
from math import inf

import pytest

from advisor.push.before.limit import shortest
from advisor.push.log.kinds import BACK, SIGHTING, STOPPED
from advisor.push.now.now import Now
from advisor.terminal.page import Page
from advisor.terminal.push.here import show_now
from advisor.terminal.push.words import Words
from tests.push.sites import WALK
from tests.terminal.test_now_shown import FLOOR_PLUG, pushed

# By hand: 8 m to the bend at the least and 24 m at the most, then 1.5 m to 4.5 m to the tank.
SEPTIC = """
site: invented
region: north america
map: guess
lines:
  - line: house drain
    kind: drain
    size: 4 in
    material: abs
    condition: sound
    pieces:
      - opening: wall plug
        kind: end cleanout
      - pipe: assumed 8 to 24 m
      - bend: assumed 1/8 bend
      - pipe: assumed 1.5 to 4.5 m
      - end: septic tank
task:
  look at: house drain
  complaint: {holding: no, chemicals: no}
"""
NOTHING = {"what": "nothing"}
STUCK = {"sign": "rim ahead", "feel": "gritty, will not come back"}
# Seen to 15.8 m with nothing new, drawn back, and held 2.1 m short of that.
BACK_AND_HELD = ((SIGHTING, 15.8, NOTHING), (BACK, 5.5, {}), (STOPPED, 13.7, STUCK))


def screen(capsys, now: Now) -> str:
    capsys.readouterr()
    show_now(now, Page())
    return " ".join(capsys.readouterr().out.replace("┃", " ").replace("│", " ").split())


def test_held_where_it_came_past_before_the_head_is_no_further_in_than_it_was_then():
    there, _, held = (pushed(SEPTIC, "wall plug", *BACK_AND_HELD[: n + 1]) for n in range(3))
    assert held.along < there.along
    assert held.along == pytest.approx(there.along * 13.7 / 15.8, rel=0.1)


def test_how_far_in_it_is_is_told_by_the_counter_and_never_further_than_there_is_rod(capsys):
    for count in (1, 3):
        now = pushed(SEPTIC, "wall plug", *BACK_AND_HELD[:count])
        told = re.search(r"Where: house drain, ([\d.]+) m past wall plug by the counter", screen(capsys, now))
        assert told is not None
        assert now.belief.rod - 0.5 <= float(told[1]) <= now.belief.rod


def test_the_chances_of_the_places_and_of_a_pipe_off_the_map_make_no_more_than_a_hundred(capsys):
    """Chambers that no map has, then held at what may be the tank or just before it."""
    chambers = [(SIGHTING, at, {"what": "chamber"}) for at in (4.0, 6.0, 8.0)]
    told = (*chambers, (STOPPED, 18.0, STUCK))
    said = screen(capsys, pushed(SEPTIC, "wall plug", *told))
    assert "Where: not sure. Either" in said
    shares = re.findall(r"\((?:under )?(\d+) %\)", said.partition("If it is in a pipe of the map")[0])
    assert len(shares) == 3
    assert sum(map(int, shares)) <= 101


def test_past_what_was_not_seen_no_place_is_told_further_on_than_there_is_rod():
    """By the sheet the kitchen line joins 3 m past the floor plug; 6 m of rod are out."""
    now = pushed(WALK, FLOOR_PLUG, (SIGHTING, 6.0, NOTHING))
    best = now.fix.best
    assert "past where kitchen line joins" in Words(now).place(best)
    beyond = Words(now).place(replace(best, at=best.at + 3, inside=best.inside + 3))
    assert re.search(r"[56](\.\d)? m past floor plug by the counter; by the sheet", beyond), beyond


CHAMBERS = tuple((SIGHTING, at, {"what": "chamber"}) for at in (3.0, 4.5, 6.0, 7.5))


@pytest.mark.parametrize("told", [(), CHAMBERS])
def test_the_limit_is_the_least_that_the_sheet_allows_and_stays_told_where_the_place_is_unsure(capsys, told):
    """By hand 8 m and 1.5 m, and 3 parts of 100 that a counter may run fast (rules/signs/where.yaml)."""
    now = pushed(SEPTIC, "wall plug", *told)
    assert (now.fix.off_map > 0.9) is bool(told)
    found = re.search(r"[Nn]ot past: septic tank, counter ([\d.]+) m", screen(capsys, now))
    assert found is not None
    assert 9.0 <= float(found[1]) <= 9.8


def test_past_a_landmark_the_limit_is_the_least_from_there_as_on_the_card(capsys):
    """1.5 m to 4.5 m of pipe behind the chamber, which was read at 16 m, a hand's breadth or two off."""
    text = SEPTIC.replace("bend: assumed 1/8 bend", "opening: front pit\n        kind: inspection chamber")
    now = pushed(text, "wall plug", (SIGHTING, 16.0, {"what": "chamber"}))
    found = re.search(r"[Ss]eptic tank, counter ([\d.]+) m", screen(capsys, now))
    assert found is not None
    assert 17.0 <= float(found[1]) <= 17.5


def test_light_from_above_on_a_job_with_a_tank_may_be_its_riser(capsys):
    """Its gas kills: common practice; the caution is that of the job."""
    light = (SIGHTING, 6.0, {"what": "chamber"})
    said = screen(capsys, pushed(SEPTIC, "wall plug", light))
    assert "may be the sky in a vent pipe" in said
    assert "Or it is the riser of the septic tank or a box before it: no further." in said
    assert "Tank gas will kill" in said.partition("DANGER")[2]
    sewer = screen(capsys, pushed(SEPTIC.replace("septic tank", "public sewer"), "wall plug", light))
    assert "may be the sky in a vent pipe" in sewer
    assert "septic tank" not in sewer
    assert "DANGER" not in sewer


@pytest.mark.parametrize(
    ("then", "told"),
    [
        ((), True),
        (((SIGHTING, 9.0, NOTHING),), True),
        (((SIGHTING, 9.0, NOTHING), (BACK, 5.0, {})), False),
        (((SIGHTING, 9.0, NOTHING), (BACK, 5.0, {}), (SIGHTING, 9.0, NOTHING)), False),
    ],
)
def test_who_pushes_on_past_light_from_above_is_told_until_it_is_drawn_back(capsys, then, told):
    light = (SIGHTING, 6.0, {"what": "chamber"})
    said = screen(capsys, pushed(SEPTIC, "wall plug", light, (SIGHTING, 8.0, NOTHING), *then))
    assert ("You pushed on past the light from above at 6 m" in said) is told


def test_a_way_that_does_not_pass_what_was_seen_bounds_nothing_from_there():
    """Nor what lies before it: from the bend on to the tank 1.5 m at the least, by the sheet."""
    way = pushed(SEPTIC, "wall plug").push.tracker.chart.ways[0]
    bend, tank = (next(m for m in way.landmarks if m.piece.kind == kind) for kind in ("bend", "end"))
    assert shortest(way, tank.piece, bend) == pytest.approx(1.5)
    assert shortest(way, bend.piece, tank) == inf
