"""A tap enters where the line of its fixture joins, also where that lies past the end of the way."""

from __future__ import annotations

import pytest

from advisor import demo
from advisor.card.outside import tap_lines
from advisor.quantity import Units
from advisor.result.build import plan_of
from tests.cases.jobs import studied

# The way up from the chamber ends where the yard line joins; the bath joins 3 m further up, the sink's water
# comes down the drain from its top, 2 m above that.
HOUSE = """
site: invented house
region: britain
lines:
  - line: drain
    kind: drain
    size: 100 mm
    material: clay
    pieces:
      - fixture: kitchen sink
      - pipe: 2 m
      - joined by: bath line
      - pipe: 3 m
      - joined by: yard line
      - pipe: 10 m
      - opening: chamber
        kind: inspection chamber
        there: yes
        opens: yes
        depth: 600 mm
      - pipe: 5 m
      - end: public sewer
  - line: bath line
    kind: branch
    size: 100 mm
    pieces:
      - fixture: bath
      - pipe: 1 m
  - line: yard line
    kind: branch
    size: 100 mm
    pieces:
      - fixture: basin
      - pipe: 1 m
task:
  look at: drain, from yard line to chamber
  complaint: {holding: no, chemicals: no, gas smell: no}
"""


def test_water_from_past_the_end_is_told_where_it_comes_in():
    """The lengths of the sheet: the end is where the basin's line joins, the bath 3 m and the sink 5 m on."""
    routes = plan_of(studied(HOUSE, demo.KIT.read_text(), 50)).routes
    route = next(each for each in routes if each.opening == "chamber")
    taps = {tap.fixture: tap for tap in route.taps}
    end = taps["basin"].at_m
    assert (taps["basin"].beyond_end, taps["basin"].joins) == (False, "yard line")
    assert (taps["bath"].beyond_end, taps["bath"].joins) == (True, "bath line")
    assert taps["bath"].at_m - end == pytest.approx(3)
    assert taps["kitchen sink"].beyond_end
    assert taps["kitchen sink"].at_m - end == pytest.approx(5)
    # It flows toward whoever looks up the drain, whether or not the head comes to its mouth.
    assert not any(tap.from_behind for tap in route.taps)
    told = [line.text for line in tap_lines(route, Units.METRIC)]
    assert [", beyond the end, then flows toward you." in text for text in told] == [False, True, True]
