"""A bend that no sheet draws: it is one of the explanations where a bend is told, above all where one held.

From a trial: running down the main the head was held, came past, and a bend was seen a foot on.
The sheet drew none. It was told as the turn into a wye, up which no head turns that goes with the flow; one
screen told the head to be past that wye and the wye to come next.
"""

from __future__ import annotations

from math import exp, pi, sqrt
from types import SimpleNamespace

import numpy as np
import pytest

from advisor.push.log.kinds import SIGHTING, STOPPED, WATER
from advisor.push.log.sighting import Seen, Stopped
from advisor.push.now.since import since
from advisor.push.report.doubt import doubt_now
from advisor.push.track.fix import called, named, on_no_sheet
from advisor.push.track.undrawn_bend import one_bend
from advisor.terminal.page import Page
from advisor.terminal.push.coming import show_seen
from advisor.terminal.push.words import Words
from tests.push.sites import tracker_on
from tests.terminal.test_now_shown import pushed

SITE = """
site: invented
region: north america
built: 1973
map: guess
lines:
  - line: house drain
    size: 3 in
    material: abs
    condition: sound
    pieces:
      - opening: foot plug
        kind: end cleanout
      - pipe: 1 m
      - joined by: bath line
        fitting: wye
      - pipe: 3 m
      - joined by: laundry line
        fitting: wye
        side: left
      - pipe: 2 to 6 m
      - joined by: kitchen line
        fitting: FITTING
      - pipe: 4 m
      - end: public sewer
  - {line: bath line, size: 2 in, pieces: [{fixture: bath}, {pipe: 2 m}]}
  - {line: laundry line, size: 2 in, pieces: [{fixture: laundry tub}, {pipe: 2 m}]}
  - {line: kitchen line, size: 2 in, pieces: [{fixture: kitchen sink}, {pipe: 6 m}]}
task: {look at: house drain, complaint: {holding: no, chemicals: no}}
"""
WYE, TEE = (SITE.replace("FITTING", each) for each in ("wye", "straight tee"))
# The operator wants into the kitchen line, a metre on by tape.
KNOWN = TEE.replace("map: guess", "map: measured").replace("2 to 6 m", "1 m")
KNOWN = KNOWN.replace("look at: house drain", "look at: kitchen line")
KITCHEN = "house drain/junction:kitchen line"
PLAIN = """
site: invented
region: north america
built: 1973
map: measured
lines:
  - line: drain
    size: 3 in
    material: abs
    pieces: [{opening: foot plug, kind: end cleanout}, {pipe: 6 m}, DRAWN {pipe: 20 m}, {end: public sewer}]
task: {look at: drain}
"""
LAUNDRY = (SIGHTING, 4.1, {"what": "tie-in", "clock": 9.0})
HELD = (STOPPED, 7.0, {"sign": "wall ahead"})
BEND = (SIGHTING, 7.3, {"what": "bend"})
HELD_THERE, BEND_THERE = (STOPPED, 5.1, HELD[2]), (SIGHTING, 5.1, BEND[2])
ON = (SIGHTING, 6.6, {"what": "nothing"})
BATH = (WATER, 6.6, {"fixture": "bath", "seconds": 14.0, "side": "behind"})


def test_with_the_flow_it_is_not_told_as_the_turn_into_a_wye(capsys):
    """The trade: a wye's branch leans down the line, so a head that comes down it runs past."""
    now = pushed(WYE, "foot plug", LAUNDRY, HELD, BEND)
    last = now.sightings[-1]
    assert called(now.push.tracker, now.belief, last) is None
    turn = {each.landmark.piece.id: each.chance for each in named(now.push.tracker, now.belief, last)}[
        KITCHEN
    ]
    assert on_no_sheet(now.push.tracker, now.belief, last) > 10 * turn
    assert (now.fix.best.line, now.fix.best.with_flow) == ("house drain", True)
    show_seen(SimpleNamespace(past=False, at=False), now, Page(), Words(now))
    assert "That is: a bend that the sheet does not draw. Likely" in " ".join(capsys.readouterr().out.split())


def test_nobody_is_past_a_tie_in_that_comes_next():
    """Told as the turn into a line and then water from behind, which comes down the main alone: straight on,
    the head is counted from what it passed on its way."""
    turned = pushed(KNOWN, "foot plug", LAUNDRY, HELD_THERE, BEND_THERE)
    seen = since(turned)
    assert seen is not None
    assert seen.name == "where kitchen line joins"
    now = pushed(KNOWN, "foot plug", LAUNDRY, HELD_THERE, BEND_THERE, ON, BATH)
    seen = since(now)
    assert (now.fix.best.line, now.fix.best.with_flow) == ("house drain", True)
    assert seen is not None
    assert seen.name == "where laundry line joins"


def test_the_log_is_as_sure_of_a_place_as_the_screen():
    """Both tell it by a thing that was seen: no surer than that it was that."""
    now = pushed(KNOWN, "foot plug", LAUNDRY, HELD_THERE, BEND_THERE)
    seen = since(now)
    assert seen is not None
    assert seen.chance < now.fix.best.chance
    assert doubt_now(now)["sure"] == seen.chance == Words(now).chance(now.fix.best)


def turned_in(site: str) -> float:
    """The chance beforehand that a head from the plug turns off the main into the kitchen line."""
    ways = tracker_on(site, "foot plug").chart.ways
    assert all(way.port == "down" for way in ways)
    into = (way.prior for way in ways if any(leg.line == "kitchen line" for leg in way.legs))
    return sum(into) / sum(way.prior for way in ways if any(leg.piece.id == KITCHEN for leg in way.legs))


def test_a_head_with_the_flow_hardly_turns_back_up_a_sweep():
    """Of a straight tee the table's 4 in 100; of a wye 5 in 1000; one put in the wrong way round throws
    nothing back."""
    wrong_way = WYE.replace(
        "fitting: wye\n      - pipe: 4 m", "fitting: wye\n        upside down: yes\n      - pipe: 4 m"
    )
    assert turned_in(TEE) == pytest.approx(0.04)
    assert turned_in(WYE) == pytest.approx(0.005)
    assert turned_in(wrong_way) == pytest.approx(0.04)


def test_a_bend_where_one_held_counts_by_the_chance_that_a_bend_holds():
    """0.08 of the bends hold a head; 0.3 and 0.25 m are the spreads of the two; 0.004 stops a metre are
    anywhere, 0.02 bends a metre nowhere on a measured sheet; 0.03 and 0.12 in an unknown pipe (the table)."""
    chart = tracker_on(PLAIN.replace("DRAWN ", ""), "foot plug").chart
    spread = sqrt(0.3**2 + 0.25**2)
    near = 0.08 * exp(-0.5 * (0.4 / spread) ** 2) / (spread * sqrt(2 * pi))
    row = next(r for r, way in enumerate(chart.ways) if way.length > 20)
    (then,) = one_bend(chart, [(5.0, Stopped(5.0), ())], Seen(5.4, "bend"), 5.4)
    assert then.much[row, 50] == pytest.approx(0.02 * near / 0.004)
    assert then.off == pytest.approx(0.12 * near / 0.03)
    (other,) = one_bend(chart, [(5.0, Seen(5.0, "bend"), ())], Stopped(5.4), 5.4)
    assert other.much[row, 50] == pytest.approx(near)
    assert other.off == pytest.approx(near)


def test_far_apart_or_of_another_kind_they_are_two():
    chart = tracker_on(PLAIN.replace("DRAWN ", ""), "foot plug").chart
    bend = Seen(7.0, "bend")
    assert one_bend(chart, [(5.0, Stopped(5.0), ())], bend, 7.0) == ()
    assert one_bend(chart, [(5.0, Seen(5.0, "bend"), ())], bend, 7.0) == ()
    assert one_bend(chart, [(6.9, Stopped(6.9), ())], Stopped(7.0), 7.0) == ()
    assert one_bend(chart, [(7.0, bend, ())], Stopped(7.0, by_rim=True), 7.0) == ()


def test_told_again_it_is_told_as_one_that_is_drawn():
    """0.5 of the bends are told, so one that is there as often as one is missed; twice 0.25 m of eye."""
    chart = tracker_on(PLAIN.replace("DRAWN ", ""), "foot plug").chart
    spread = 0.25 * sqrt(2)
    (again,) = one_bend(chart, [(5.0, Seen(5.0, "bend"), ())], Seen(5.4, "bend"), 5.4)
    assert again.off == pytest.approx(exp(-0.5 * (0.4 / spread) ** 2) / (spread * sqrt(2 * pi)))
    assert again.much[0, 50] == pytest.approx(again.off)


def test_seen_ahead_held_at_and_passed_it_is_still_on_no_sheet():
    """Three tellings of one bend that the sheet leaves out are no three reasons for the turn up a wye."""
    now = pushed(WYE, "foot plug", LAUNDRY, (SIGHTING, 6.9, BEND[2]), HELD, BEND)
    last = now.sightings[-1]
    assert called(now.push.tracker, now.belief, last) is None
    assert on_no_sheet(now.push.tracker, now.belief, last) > 0.6
    assert (now.fix.best.line, now.fix.best.with_flow) == ("house drain", True)


def test_both_orders_tell_the_same():
    """One and the same pair at one reading: which was told first is no evidence."""
    tracker = tracker_on(WYE, "foot plug")
    pair = (Stopped(7.0), Seen(7.0, "bend"))
    one, other = (tracker.replay(each) for each in (pair, pair[::-1]))
    assert np.allclose(one.mass, other.mass)
    assert one.off_map == pytest.approx(other.off_map)


def test_a_bend_that_the_sheet_draws_is_called_by_its_name():
    tracker = tracker_on(PLAIN.replace("DRAWN", "{bend: 1/4 bend},"), "foot plug")
    sightings = (Stopped(6.1), Seen(6.3, "bend"))
    found = called(tracker, tracker.replay(sightings), sightings[-1])
    assert found is not None
    assert found.landmark.piece.kind == "bend"
