"""Where a push comes in shows nothing of the end that it goes for: from a trial.

He came out of a branch into the drain, which he saw, and ran as much rod as the sheet has pipe to the kitchen
line, which he never saw. By hand: 3 m of branch, 10 m of drain; 14 m in are 11 m down it, more than there is.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import SIGHTING
from advisor.push.now.since import since
from advisor.push.report.doubt import doubt_now
from tests.push.test_report import Told, report, section
from tests.terminal.test_now_shown import pushed

SITE = """
site: invented
region: north america
map: sketch
lines:
  - line: house drain
    kind: drain
    size: 3 in
    material: abs
    pieces:
      - fixture: basin
      - pipe: 5 m
      - joined by: bath line
        fitting: wye
        side: left
      - pipe: 10 m
      - joined by: kitchen line
        fitting: wye
        side: left
      - pipe: 20 m
      - end: public sewer
  - line: bath line
    size: 3 in
    pieces:
      - opening: bath plug
        kind: floor cleanout
      - pipe: 3 m
  - line: kitchen line
    size: 2 in
    pieces:
      - fixture: kitchen sink
      - pipe: 5 m
task: {look at: "house drain, from bath line to kitchen line", complaint: {slow: [basin]}}
"""
START: Told = ("start", 0.0, {"opening": "bath plug", "direction": "downstream", "loadout": "large reel"})
INTO: Told = (SIGHTING, 3.0, {"what": "bend"})
KITCHEN: Told = (SIGHTING, 13.0, {"what": "tie-in", "clock": 9.0, "size": 0.05})
FAR: Told = (SIGHTING, 14.0, {"what": "nothing"})
WHY = "wipes in the way, kitchen tie-in not seen"
NOT_REACHED: Told = ("end", 14.0, {"reached": False, "why": WHY, "out": True})


def told(*entries: Told, heading: str = "In short") -> str:
    return section(report(START, *entries, text=SITE), heading)


@pytest.mark.parametrize("heading", ["In short", "What was not seen"])
def test_rod_enough_to_an_end_that_nobody_saw_is_no_stretch_seen(heading):
    says = told(INTO, FAR, NOT_REACHED, heading=heading)
    assert "Seen: 10 m" not in says
    assert "as much rod went in as there is pipe: 10 m of the 10 m" in says
    assert "The end was not seen." in says
    assert "The operator says that the end of it was not reached." in says


def test_with_nothing_told_of_the_end_it_may_be_longer():
    assert "The end was not seen: the line may be longer." in told(INTO, FAR)


def test_the_far_end_seen_and_told_as_reached_is_all_of_it():
    says = told(INTO, KITCHEN, FAR, ("end", 14.0, {"reached": True}))
    assert "Seen: 10 m of the 10 m" in says
    assert "The end was not seen" not in says
    assert "not reached" not in says


def test_why_a_push_ended_is_told_in_its_own_words_and_once():
    """`Passed without being seen at 47.5 ft: end; out yes; reached no; why wipes in the way, kitchen tie-in
    not seen` stood in a customer's report: nothing was passed there."""
    says = told(INTO, FAR, NOT_REACHED, heading="What was not seen")
    assert "Passed without being seen" not in says
    assert "out yes" not in says
    assert says.count(WHY) == 1
    seen_all: Told = ("end", 14.0, {"reached": True, "why": WHY})
    assert f"The push ended at 14 m: {WHY}." in told(
        INTO, KITCHEN, FAR, seen_all, heading="What was not seen"
    )


def test_a_place_is_written_down_as_counted_from_what_was_surely_seen():
    """The kitchen line joins 3 to 15 m down; a tie-in at 8 m in is likely that, and no more. The bend at 3 m
    is where the bath line joins: 9 - 3 = 6 m before the head."""
    vague = SITE.replace("- pipe: 10 m", "- pipe: 3 to 15 m")
    tie_in, on = (SIGHTING, 8.0, {"what": "tie-in"}), (SIGHTING, 9.0, {"what": "nothing"})
    now = pushed(vague, "bath plug", INTO, tie_in, on, direction="downstream")
    beside, kept = since(now), doubt_now(now)
    assert beside is not None
    assert beside.name == "where kitchen line joins"
    assert beside.chance < 0.8, "else this shows nothing"
    assert kept["past"] == "where bath line joins"
    assert kept["run"] == pytest.approx(6.0)
