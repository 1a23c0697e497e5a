"""Two plugs and the trap between them lie at one spot of the sheet: which of them the head is told at.

From a trial: pushed from the street-side plug away from the house, the screen said "at house-side
plug", which is on the other side of the trap's water. From the trade: the rod is at the plug that it went in
by, and what comes to a trap from the house comes to the house-side plug first.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.push.log.kinds import SIGHTING
from advisor.terminal.push.here import show_now
from advisor.terminal.push.words import Words
from tests.terminal.test_now_shown import pushed, shown

__all__ = ["shown"]
HOUSE = """
site: invented
region: north america
built: 1930
map: measured
lines:
  - line: house drain
    size: 4 in
    material: cast iron
    pieces:
      - opening: foot plug
        kind: end cleanout
      - pipe: 6 m
      - opening: house-side plug
        kind: house trap house-side plug
        there: yes
      - trap: house trap
      - opening: street-side plug
        kind: house trap street-side plug
        there: yes
      - pipe: 9 m
      - end: public sewer
task: {look at: "house drain", complaint: {holding: no, chemicals: no}}
"""


def where(shown, opening: str, direction: str, counter: float) -> str:
    told = (SIGHTING, counter, {"what": "nothing"})
    said = shown(show_now, pushed(HOUSE, opening, told, direction=direction))
    return said.partition("Where: ")[2].partition(" Likely")[0]


@pytest.mark.parametrize(
    ("opening", "direction", "own", "other"),
    [
        ("street-side plug", "downstream", "street-side plug", "house-side plug"),
        ("house-side plug", "upstream", "house-side plug", "street-side plug"),
    ],
)
@pytest.mark.parametrize("counter", [0.0, 2.0])
def test_it_is_told_by_the_plug_that_the_rod_went_in_by(shown, opening, direction, own, other, counter):
    said = where(shown, opening, direction, counter)
    assert own in said
    assert other not in said


@pytest.mark.parametrize(
    ("at", "told", "other"),
    [(6.0, "at house-side plug", "street-side"), (8.0, "2 m past street-side plug", "house-side")],
)
def test_from_the_house_the_street_side_is_beyond_the_trap(at, told, other):
    """What comes down to it has that plug before it; what is past it has that plug behind it."""
    now = pushed(HOUSE, "foot plug", (SIGHTING, 5.0, {"what": "nothing"}), direction="downstream")
    there = replace(now.fix.best, at=at, low=at, high=at, inside=at, least=at, most=at)
    said = Words(now).place(there, rod=at)
    assert told in said
    assert other not in said
