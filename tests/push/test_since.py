"""Drawn back within one push: how far past a landmark is what the counter ran, whatever the sheet's length.

By hand, from a technician's push: the edge of the slab read at 15.9 ft, a branch at 28.5 ft, stops further
on, then drawn back to 20 ft: 20 - 15.9 = 4.1 ft past the edge. On the drawing that is 4.1 of the 12.6 ft
between the two: a third of whatever length the sheet has there.
"""

from __future__ import annotations

from functools import cache
from math import exp, log, pi, sqrt

import pytest

from advisor.push.log.kinds import BACK, SIGHTING, STOPPED, Value
from advisor.push.now.now import Now
from advisor.push.now.since import read_at, read_twice, since
from advisor.push.report.doubt import doubt_now
from advisor.push.track.fix import named
from advisor.terminal.page import Page
from advisor.terminal.push.here import show_now
from advisor.terminal.push.words import Words
from tests.push.sites import WALK
from tests.terminal.test_now_shown import pushed

FT = 0.3048
HOUSE = """
site: invented
region: north america
built: 1954
map: sketch
lines:
  - line: house drain
    kind: drain
    size: 3 in
    material: cast iron
    pieces:
      - fixture: toilet
        label: hall toilet
      - bend: closet bend
      - pipe: 4 to 10 ft
      - joined by: front stack
        fitting: unknown
      - pipe: unknown
      - joined by: back drain
        fitting: unknown
      - pipe: about 14 ft
        landmark: edge of the slab
      - change: {kind: sewer, size: 4 in, material: clay, condition: roots}
      - pipe: 12 ft
      - opening: yard cleanout
        kind: yard cleanout
        size: 4 in
        opens: yes
        depth: 2 ft
      - pipe: about 50 ft
      - end: public sewer
  - line: front stack
    kind: stack
    size: 2 in
    pieces:
      - opening: roof vent
        kind: roof vent
      - drop: 9 ft
  - line: back drain
    size: 3 in
    material: abs
    pieces:
      - fixture: toilet
        label: back toilet
      - bend: closet bend
      - pipe: 6 ft
task:
  look at: house drain, from yard cleanout to public sewer
  complaint: {backs up: [hall toilet], holding: no, chemicals: no}
"""
Told = tuple[str, float, dict[str, Value]]
EDGE: Told = (SIGHTING, 15.9 * FT, {"what": "bore", "size": 3 / 12 * FT})
BRANCH: Told = (SIGHTING, 28.5 * FT, {"what": "tie-in", "clock": 3.0, "size": 2 / 12 * FT})
STUCK: tuple[Told, ...] = (
    (STOPPED, 33 * FT, {"sign": "blocked", "feel": "soft"}),
    (STOPPED, 37.2 * FT, {"sign": "both ways dark", "feel": "springs back"}),
)
DRAWN: Told = (BACK, 20 * FT, {})


@cache
def after(length: str, *more: str) -> Now:
    as_drawn: Told = (*BRANCH[:2], {**BRANCH[2], "size": 3 / 12 * FT})
    told = {"edge": EDGE, "branch": BRANCH, "as drawn": as_drawn, "back": DRAWN}
    chosen = [each for name in more for each in (STUCK if name == "stuck" else (told[name],))]
    house = HOUSE.replace("about 14 ft", f"about {length}")
    return pushed(house, "yard cleanout", *chosen, direction="unknown")


ALL = ("edge", "branch", "stuck", "back")


@pytest.mark.parametrize("length", ["14 ft", "22 ft"])
def test_past_a_landmark_by_the_counter_whatever_the_sheet_says(length):
    found = since(after(length, *ALL))
    assert found is not None
    assert found.thing.name == "edge of the slab"
    assert found.run == pytest.approx(4.1 * FT)
    assert found.off < 1.5 * FT


@pytest.mark.parametrize(("sheet", "told"), [(14, ALL), (22, ("edge", "as drawn", "back"))])
def test_on_the_drawing_it_lies_as_far_between_the_two_as_by_the_counter(sheet, told):
    """4.1 of 12.6 ft: 4.6 ft of the 14 that the sheet has between them, 7.2 of 22. It said 9 and 11.6 ft."""
    best = after(f"{sheet} ft", *told).fix.best
    branch = 7 * FT + 3.0  # 4 to 10 ft, and the usual length of an unknown pipe
    assert (best.line, best.with_flow) == ("house drain", False)
    assert best.at == pytest.approx(branch + sheet * (1 - 4.1 / 12.6) * FT, abs=0.4)


@pytest.mark.parametrize("length", ["14 ft", "22 ft"])
def test_the_screen_says_so_and_sends_nobody_to_dig_by_the_counter(length, capsys):
    show_now(after(length, *ALL), Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "1.2 m" in said  # 4.1 ft
    assert "past edge of the slab by the counter" in said
    assert "To dig, go by the counter" not in said


def test_what_was_read_is_next_at_that_reading():
    now = after("14 ft", *ALL)
    branch = next(
        m for way in now.push.tracker.chart.ways for m in way.landmarks if m.piece.name == "back drain"
    )
    found = read_at(now, branch)
    assert found is not None
    assert found[0] == pytest.approx(28.5 * FT)


def test_a_landmark_read_twice_tells_how_far_the_counter_is_off(capsys):
    """14.5 and 15.9 ft are 1.4 ft apart, and 3 % of 15.9 ft with a cell of 0.66 ft are 1.1 ft."""
    again = pushed(
        HOUSE, "yard cleanout", (SIGHTING, 14.5 * FT, {"what": "bore"}), (BACK, 0.5 * FT, {}), EDGE
    )
    found = read_twice(again)
    assert found is not None
    assert found.apart == pytest.approx(1.4 * FT)
    show_now(again, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "edge of the slab was read at 4.4 m and at 4.8 m" in said  # 14.5 and 15.9 ft
    assert "0.4 m off" in said
    near = pushed(HOUSE, "yard cleanout", (SIGHTING, 15.3 * FT, {"what": "bore"}), (BACK, 0.5 * FT, {}), EDGE)
    assert read_twice(near) is None


def test_a_find_keeps_range_chance_and_what_it_was_counted_from():
    told = doubt_now(after("14 ft", *ALL))
    best, seen = after("14 ft", *ALL).fix.best, since(after("14 ft", *ALL))
    assert seen is not None
    assert told["sure"] == min(best.chance, seen.chance)  # no surer than what it was counted from
    assert (told["low"], told["high"]) == (best.low, best.high)
    assert told["past"] == "edge of the slab"
    assert told["run"] == pytest.approx(4.1 * FT)


def test_dirt_that_holds_it_tells_nothing_of_the_fittings():
    before, after_ = after("14 ft", "edge", "branch"), after("14 ft", "edge", "branch", "stuck")
    blocked = pushed(HOUSE, "yard cleanout", EDGE, BRANCH, STUCK[0], direction="unknown")
    read = pushed(
        HOUSE, "yard cleanout", EDGE, BRANCH, (SIGHTING, 33 * FT, {"what": "nothing"}), direction="unknown"
    )
    assert (blocked.belief.mass == read.belief.mass).all()
    assert before.belief.rod < after_.belief.rod


def test_the_size_that_was_told_weighs():
    """Odds of back drain, 3 in on the sheet, against none that is drawn, told as 3 in and as 2 in.

    They are to one another as sizes are read: (0.9 phi(0) + 0.1/1.9) to (0.9 phi(ln 1.5 / 0.2) + 0.1/1.9).
    """

    def dense(z: float) -> float:
        return 0.9 * exp(-z * z / 2) / (0.2 * sqrt(2 * pi)) + 0.1 / 1.9

    odds = []
    for inches in (3, 2):
        told: Told = (SIGHTING, 24.0 * FT, {"what": "tie-in", "size": inches / 12 * FT})
        now = pushed(HOUSE, "yard cleanout", EDGE, told, direction="unknown")
        last = now.sightings[-1]
        best = named(now.push.tracker, now.belief, last)[0]  # type: ignore[arg-type]
        assert best.landmark.piece.name == "back drain"
        assert best.chance < 0.99
        odds.append(best.chance / (1 - best.chance))
    assert odds[0] / odds[1] == pytest.approx(dense(0) / dense(log(1.5) / 0.2), rel=0.05)


TRAPPED = """
site: invented
region: britain
built: 1905
map: guess
lines:
  - line: rear drain
    kind: drain
    size: 100 mm
    material: clay
    pieces:
      - opening: yard chamber
        kind: inspection chamber
        there: yes
        depth: 1 m
      - pipe: 8 to 12 m
      - trap: disconnecting trap
      - opening: rodding arm
        kind: disconnecting trap rodding arm
        there: no
      - pipe: 6 m
      - end: public sewer
task:
  look at: rear drain, from disconnecting trap to public sewer
  complaint: {holding: no, chemicals: no}
"""


def test_what_is_told_not_to_be_there_is_not_what_was_seen(capsys):
    """From a trial: `at rodding arm, as it was seen. Likely (93 %)`, and he had told that there is
    none; that what he saw was the trap beside it stood lower down, with 69 %."""
    now = pushed(TRAPPED, "yard chamber", (SIGHTING, 8.5, {"what": "trap"}), direction="downstream")
    found, best = since(now), named(now.push.tracker, now.belief, now.sightings[-1])[0]
    assert found is not None
    assert found.thing.kind == "stopper"
    assert best.chance < now.fix.best.chance
    show_now(now, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "rear drain, at interceptor trap, as it was seen" in said
    assert f"({best.chance:.0%})".replace("%", " %") in said.partition("Downstream is ahead")[0]


def test_nobody_is_told_that_the_head_is_past_a_trap(capsys):
    """A trap holds the head: pushed on 2 m, rod lies before it, or it was no trap."""
    told = (SIGHTING, 8.5, {"what": "trap"}), (SIGHTING, 10.5, {"what": "nothing"})
    now = pushed(TRAPPED, "yard chamber", *told, direction="downstream")
    show_now(now, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "more by the counter than where interceptor trap was seen: no head stands past that" in said


@pytest.mark.parametrize("counter", [3.2, 3.4, 3.9])
def test_by_the_sheet_is_where_the_sheet_has_what_was_seen(counter):
    """The kitchen joins 3 m down from the plug on the sheet. Read a little short of it and seen there, it was
    told as "by the sheet 2.8 m": that is the head's likeliest cell, and the sheet says no such thing."""
    now = pushed(WALK, "floor plug", (SIGHTING, counter, {"what": "tie-in"}), direction="downstream")
    told = Words(now).place(now.fix.best)
    assert "where kitchen line joins, as it was seen; by the sheet 3 m down it from floor plug" in told
