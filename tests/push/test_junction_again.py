"""A tie-in on the right and one on the left, far apart, are two: neither the counter nor a size outweighs it.

From a trial: 2 in at 3 o'clock, and a metre on 2 in at 9 o'clock, were both told as the laundry
line, "likely (96 %)", and every later screen said that the counter had slipped. One junction stays on its
side.
"""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from advisor.push.log.kinds import SIGHTING
from advisor.push.log.sighting import Seen
from advisor.push.now.since import read_twice
from advisor.push.track.again import _by_counter
from advisor.push.track.fix import called, named
from advisor.push.track.likelihood import looks
from tests.cases.jobs import tables
from tests.terminal.test_now_shown import pushed

INCH = 0.0254
SITE = """
site: invented
region: north america
built: 1958
map: guess
lines:
  - line: house drain
    size: 4 in
    material: pvc
    condition: sound
    pieces:
      - opening: foot plug
        kind: end cleanout
      - pipe: 2.5 m
      - joined by: laundry line
        fitting: wye
      - pipe: 2.5 m
      - joined by: floor drain line
        fitting: wye
      - pipe: 12 m
      - end: public sewer
  - {line: laundry line, size: assumed 2 in, pieces: [{fixture: laundry tub}, {pipe: 2 m}]}
  - {line: floor drain line, size: assumed 3 in, pieces: [{fixture: floor drain}, {pipe: 2 m}]}
task: {look at: house drain, complaint: {holding: no, chemicals: no}}
"""
FIRST = (2.7, 3.0)


def told(*ties):
    made = [(SIGHTING, at, {"what": "tie-in", "clock": hours, "size": 2 * INCH}) for at, hours in ties]
    return pushed(SITE, "foot plug", *made)


def names(now) -> dict[str, float]:
    found = named(now.push.tracker, now.belief, now.sightings[-1])
    return {each.landmark.piece.name: each.chance for each in found}


def test_told_alone_it_is_the_nearer_one():
    assert names(told(FIRST))["laundry line"] > 0.8


@pytest.mark.parametrize("at", [3.7, 4.1])
def test_on_the_other_side_further_on_it_is_not_told_as_the_same_one(at):
    now = told(FIRST, (at, 9.0))
    best = called(now.push.tracker, now.belief, now.sightings[-1])
    assert best is None or best.landmark.piece.name == "floor drain line"
    assert read_twice(now) is None, "no counter slipped"


def test_where_the_next_one_of_the_map_is_near_it_is_that_one_though_its_size_was_assumed_otherwise():
    found = names(told(FIRST, (4.8, 9.0)))
    assert found["floor drain line"] > 0.8
    assert found["laundry line"] < 0.1


def test_seen_twice_on_its_side_within_a_hands_breadth_it_is_one():
    assert names(told(FIRST, (2.9, 3.0)))["laundry line"] > 0.9


def test_on_the_same_side_it_is_likelier_one_than_on_the_other():
    same, other = (names(told(FIRST, (3.5, hours)))["laundry line"] for hours in (3.0, 9.0))
    assert same > other + 0.2


def test_no_counter_slipped_where_it_was_told_on_opposite_sides():
    """However near: a slip of the counter turns no junction round."""
    assert read_twice(told(FIRST, (3.3, 9.0))) is None


def chart():
    return told(FIRST).push.tracker.chart


def test_between_two_looks_only_the_counter_moves_the_head():
    """2 in 100 slip by any part of the way, the rest come as far as the counter ran; nothing is lost."""
    where = tables().where
    was = np.zeros((1, 50))
    was[0, 10] = 1.0
    moved = _by_counter(SimpleNamespace(where=where, cell=0.2), was, 1.0)[0]
    assert moved.sum() == pytest.approx(1)
    assert moved[15] == pytest.approx(0.98 + 0.02 / 6)
    assert moved[10:15] == pytest.approx(0.02 / 6)


def test_an_assumed_size_speaks_less_for_a_junction_than_a_told_one():
    """Of ten assumed sizes five are as assumed: against another size they weigh by less."""
    now = told(FIRST)
    marks = {m.piece.name: m for way in now.push.tracker.chart.ways for m in way.landmarks if m.clocks}
    at = Seen(2.7, "tie-in", size=2 * INCH)

    def odds(assumed: bool) -> float:
        two, three = (replace(marks[name], assumed=assumed) for name in ("laundry line", "floor drain line"))
        return looks(chart(), at, two.look, 2.7) / looks(chart(), at, three.look, 2.7)

    assert marks["laundry line"].assumed
    assert 1 < odds(assumed=True) < odds(assumed=False) / 1.5
