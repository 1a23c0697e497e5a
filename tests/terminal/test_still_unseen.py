"""What is still to be seen: nobody is told to be at it, and it comes at no reading behind the head."""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.push.log.kinds import SIGHTING
from advisor.push.now.now import Now
from advisor.terminal.page import Page
from advisor.terminal.push.coming import next_seen
from advisor.terminal.push.here import show_now
from advisor.terminal.push.words import Words
from tests.terminal.test_now_shown import pushed

YARD = """
site: invented
region: britain
map: guess
lines:
  - line: back drain
    size: 100 mm
    material: clay
    pieces:
      - fixture: kitchen sink
        trap: in wall
      - pipe: assumed 300 mm to 2 m
      - opening: kitchen gully
        kind: gully
      - pipe: assumed 1 to 4 m
      - opening: back chamber
        kind: inspection chamber
        there: yes
        depth: 600 mm
        opens: yes
      - pipe: about 14 m
      - opening: front chamber
        kind: inspection chamber
        there: yes
        opens: yes
      - pipe: 9 m
      - end: public sewer
task: {look at: back drain, complaint: {holding: no, chemicals: no}}
"""


def screen(now: Now, capsys: pytest.CaptureFixture[str]) -> str:
    capsys.readouterr()
    show_now(now, Page())
    return " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize("direction", ["upstream", "unknown"])
@pytest.mark.parametrize("at", [0.0, 1.5, 2.0, 2.5, 3.1])
def test_nobody_is_at_what_comes_next(at, direction, capsys):
    """By the sheet the gully is 1 to 4 m off: all of these readings may be at it, and none was told to be."""
    told = ((SIGHTING, at, {"what": "nothing"}),) if at else ()
    now = pushed(YARD, "back chamber", *told, direction=direction)
    said = screen(now, capsys)
    assert not ("the kitchen gully, from below" in said and "at kitchen gully" in said)


def test_what_is_still_to_be_seen_comes_at_no_reading_behind_the_head():
    now = pushed(YARD, "back chamber", (SIGHTING, 3.1, {"what": "nothing"}), direction="upstream")
    following, words = next_seen(now), Words(now)
    assert following is not None
    behind = replace(following, low=2.0, likely=2.5, high=4.0)
    assert words.reading(behind) == "counter 3.1 m to 4 m"
    assert words.reading(replace(behind, high=2.9)) == "counter 3.1 m"
