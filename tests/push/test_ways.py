"""Every way of the rod: both directions, every fork, and loops, until the rod is out."""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.push.track.ways import MOST_WAYS, Intent, ways_from
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables
from tests.push.sites import UNKNOWN, WALK

LOOP = """
site: loop
region: north america
map: measured
lines:
  - line: drain
    kind: drain
    size: 4 in
    pieces:
      - opening: top plug
        kind: end cleanout
        depth: 0.2 m
      - pipe: 2 m
      - joined by: stack
        fitting: wye
      - pipe: 3 m
      - joined by: branch
        fitting: wye
      - pipe: 5 m
      - end: public sewer
  - line: stack
    kind: stack
    size: 3 in
    pieces:
      - opening: roof vent
        kind: roof vent
      - drop: 3 m
      - joined by: loop
        fitting: vent tee
        upside down: yes
      - drop: 3 m
  - line: branch
    size: 2 in
    pieces:
      - fixture: bath
      - pipe: 1 m
      - joined by: loop
        fitting: vent tee
      - pipe: 2 m
  - line: loop
    kind: vent
    size: 1-1/2 in
    pieces:
      - tied to: stack
      - pipe: 2 m
      - drop: 1 m
task: {look at: drain, complaint: {holding: no}}
"""


def ways_of(sheet: str, opening: str, rod: float, intent: Intent | None = None):
    network = network_of(site_of_text(sheet, "site", tables()), tables())
    way_in = next(piece for piece in network.openings() if piece.name == opening)
    return ways_from(network, way_in, rod, tables(), intent)


def test_every_fork_both_ways():
    """By hand: down to the sewer, up the kitchen or bath line; up to the cap, or up the laundry."""
    ways, cut = ways_of(WALK, "floor plug", 40.0, UNKNOWN)
    assert not cut
    ends = {way.legs[-1].line: way for way in ways}
    assert set(ends) == {"public sewer", "kitchen line", "bath line", "house drain", "laundry line"}
    assert sum(way.prior for way in ways) == pytest.approx(1)
    up = sum(way.prior for way in ways if way.legs[0].leaves == "up")
    assert up == pytest.approx(0.5)
    # To the foot of the bath line: 0.4 m of riser, 3 and 4 m of drain, then its own 4 m.
    assert ends["bath line"].length == pytest.approx(11.4)
    assert ends["bath line"].closed
    assert not ends["public sewer"].closed


def test_an_opening_that_leads_one_way_may_yet_lead_the_other():
    ways, _ = ways_of(WALK, "floor plug", 40.0)  # a floor cleanout is made to lead down
    up = sum(way.prior for way in ways if way.legs[0].leaves == "up")
    assert 0 < up < 0.1


def test_the_rods_end_ends_a_way():
    ways, _ = ways_of(WALK, "floor plug", 5.0, UNKNOWN)
    assert all(way.legs[-1].start < 5.0 for way in ways)
    assert {leg.line for way in ways for leg in way.legs} == {"house drain", "kitchen line", "laundry line"}


def test_a_loop_is_gone_round_both_ways():
    ways, cut = ways_of(LOOP, "roof vent", 60.0)
    assert not cut
    for way in (each for each in ways if each.longer <= 0):  # not those that go on past the drawing
        met = [(leg.piece.id, leg.enters) for leg in way.legs if leg.line != "public sewer"]
        assert len(met) == len(set(met))
    # The bath is reached down the loop, and down the stack, on along the drain and up the branch.
    to_bath = [way for way in ways if way.legs[-1].piece.name == "bath"]
    through = {tuple(dict.fromkeys(leg.line for leg in way.legs)) for way in to_bath}
    assert ("stack", "loop", "branch") in through
    assert ("stack", "drain", "branch") in through
    # By hand, the short one: the vent end, in the middle of a triangle from 0.15 by 0.4 to 1 m (its table),
    # 3 m of stack, 3 m of loop, 1 m of branch.
    vent = 1 - (0.5 * 0.85 * 0.6) ** 0.5
    assert min(way.length for way in to_bath) == pytest.approx(vent + 3 + 3 + 1, abs=1e-4)


def test_too_many_ways_are_cut_and_said_to_be():
    lines = "".join(
        f"      - pipe: 0.3 m\n      - joined by: b{i}\n        fitting: wye\n" for i in range(MOST_WAYS + 5)
    )
    text = "site: s\nregion: north america\nlines:\n  - line: drain\n    size: 4 in\n    pieces:\n"
    text += "      - opening: top\n        kind: end cleanout\n" + lines + "      - end: sewer\n"
    text += "".join(
        f"  - line: b{i}\n    size: 2 in\n    pieces:\n      - pipe: 1 m\n" for i in range(MOST_WAYS + 5)
    )
    ways, cut = ways_of(text + "task: {look at: drain}\n", "top", 1000.0)
    assert cut
    assert len(ways) <= MOST_WAYS


def test_the_plan_steers_and_sticks():
    network = network_of(site_of_text(WALK, "site", tables()), tables())
    fork = next(p for p in network.pieces.values() if p.name == "kitchen line" and p.kind == "junction")
    plain, _ = ways_of(WALK, "floor plug", 40.0)
    steered, _ = ways_of(WALK, "floor plug", 40.0, Intent(steers={(fork.id, "up"): "branch"}))

    def into_kitchen(ways):
        return sum(way.prior for way in ways if way.legs[-1].line == "kitchen line")

    assert into_kitchen(steered) > 5 * into_kitchen(plain)
    stuck, _ = ways_of(WALK, "floor plug", 40.0, Intent(sticks={(fork.id, "up", "down"): 0.6}))
    marks = [mark for way in stuck for mark in way.landmarks if mark.piece.id == fork.id]
    assert max(mark.stops for mark in marks) == 0.6


def test_where_no_pipe_leads_on_there_is_no_way():
    network = replace(network_of(site_of_text(WALK, "site", tables()), tables()), links={})
    way_in = next(piece for piece in network.openings() if piece.name == "floor plug")
    assert ways_from(network, way_in, 40.0, tables()) == ((), False)
