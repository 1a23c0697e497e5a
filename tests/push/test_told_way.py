"""What a push has shown hangs on the way that was told: rod that went the other way has shown none of it."""

from __future__ import annotations

import pytest

from tests.push.test_counted import said, seen
from tests.push.test_report import TASK


@pytest.mark.parametrize(
    ("told", "counted"), [("downstream", True), ("known", True), ("upstream", False), ("unknown", False)]
)
def test_the_counter_counts_only_the_way_that_was_told(told, counted):
    """The drain lies downstream of the cleanout: 10.5 m of counter less 0.5 m down to the line are 10 m."""
    start = ("start", 0.0, {"opening": "yard cleanout", "direction": told, "loadout": "large reel"})
    assert ("Seen: 10 m of the 26 m" in said(start, seen(10.5))) is counted


def test_a_counter_that_ran_on_upstream_does_not_say_that_the_sheet_is_short():
    start = ("start", 0.0, {"opening": "yard cleanout", "direction": "upstream", "loadout": "large reel"})
    assert "draws no more than" not in said(start, seen(40.0))


MIDWAY = """
site: midway
region: north america
map: guess
lines:
  - line: house drain
    kind: drain
    size: 4 in
    pieces:
      - fixture: laundry tub
      - pipe: 10 m
      - joined by: side line
        fitting: wye
      - pipe: 6 m
      - opening: yard cleanout
        kind: floor cleanout
        depth: 0.5 m
      - pipe: 30 m
      - end: septic tank
  - line: side line
    size: 2 in
    pieces:
      - fixture: washing machine
      - pipe: 3 m
"""


@pytest.mark.parametrize(
    ("told", "span"),
    [("downstream", "from yard cleanout to 10 m down it from yard cleanout"), ("unknown", None)],
)
def test_from_an_opening_inside_the_stretch_the_way_that_was_told_counts(told, span):
    """10.5 m by the counter are 10 m of pipe, from 16 m down the drain on."""
    start = ("start", 0.0, {"opening": "yard cleanout", "direction": told, "loadout": "large reel"})
    words = said(start, seen(10.5), text=MIDWAY + TASK)
    assert ("Seen: 10 m of the 46 m" in words) is (span is not None)
    if span is not None:
        assert span in words
        assert "How far is known by the counter." in words
        assert "not sure which way" not in words


def test_more_counter_than_pipe_shows_no_end_of_it():
    """The joint 6 m up is read at 8.5 m and the head stops at 20.5 m: by the sheet the tub is 16.5 m in. What
    it stopped at was a rim: nobody saw the tub."""
    start = ("start", 0.0, {"opening": "yard cleanout", "direction": "unknown", "loadout": "large reel"})
    stop = ("stopped", 20.5, {"sign": "rim ahead"})
    words = said(start, seen(8.5, "tie-in"), stop, text=MIDWAY + TASK)
    assert "One of them is off" in words
    assert "from laundry tub" not in words.partition("Not shown")[0]
    assert "(from laundry tub" in words
