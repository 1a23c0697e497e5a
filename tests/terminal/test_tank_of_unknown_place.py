"""A tank of which the sheet only knows a wide range: no place further in than rod, no chance told twice."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from advisor.push.kinds import BACK, SIGHTING, STOPPED
from advisor.push.now import Now
from advisor.terminal.page import Page
from advisor.terminal.push.screens import show_now
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
