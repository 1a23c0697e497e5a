"""Water that comes as it cannot come where the head is said to be: never taken without a word.

Rule of the trade: dye of what runs above overtakes the head only where the lens looks downstream.
"""

from __future__ import annotations

import pytest

from advisor.push.disagree import disagree
from advisor.push.log.kinds import BACK, SIGHTING, WATER
from advisor.push.now.now import Now
from advisor.push.report.doubt import doubt_now
from advisor.terminal.push.here import show_now
from advisor.terminal.push.plan_anew import show_plan_anew
from tests.push.sites import WALK
from tests.push.test_report import report, section
from tests.terminal.test_now_shown import pushed, shown

__all__ = ["shown"]
FREE = WALK.replace("holding: no", "holding: no, chemicals: no, gas smell: no")
# Downstream of the plug as told, past both branches: the laundry runs from behind the lens.
TOLD = (
    (SIGHTING, 3.8, {"what": "tie-in", "clock": 9.0, "size": 0.05}),
    (SIGHTING, 7.8, {"what": "tie-in", "clock": 3.0, "size": 0.05}),
)


def screen(shown, told: Now) -> str:
    return " ".join(shown(show_now, told).replace("│", "").split())


def dye(fixture: str, side: str | None, seconds: float = 25.0, at: float = 7.8):
    return WATER, at, {"fixture": fixture, "dye": True, "seconds": seconds, "side": side}


def now(*told) -> Now:
    return pushed(FREE, "floor plug", *TOLD, *told, direction="downstream")


WRONG, RIGHT = dye("laundry tub", "ahead"), dye("laundry tub", "behind")
FURTHER = dye("bath", "behind", at=5.0)


def test_the_right_side_is_taken_without_a_word(shown):
    told = now(RIGHT)
    assert told.contrary is None
    assert "One of the two is wrong" not in screen(shown, told)
    assert told.ground is not None


def test_the_wrong_side_is_told_and_what_settles_it(shown):
    told = now(WRONG)
    said = screen(shown, told)
    assert "came from ahead: then downstream is behind the lens" in said
    assert "Run it once more, with dye" in said
    assert "light" in said
    assert "99" not in said  # no place or way is told as sure beside it
    assert any("laundry tub" in line for line in disagree(told))
    assert told.ground is None  # nobody digs by it
    assert float(doubt_now(told)["sure"] or 0) <= 0.5


def test_the_plan_from_there_is_to_settle_it(shown):
    said = shown(show_plan_anew, now(WRONG), now(WRONG).push.study, None)
    assert "NOT AS PLANNED" in said
    assert "Run it once more, with dye" in said
    assert "Go on here" not in said


def test_nobody_is_told_to_run_what_came_up(shown):
    rose = (WRONG[0], WRONG[1], {**WRONG[2], "drains": False})
    said = screen(shown, now(rose))
    assert "One of the two is wrong" in said
    assert "Run it once more" not in said
    assert "light" in said


def test_water_of_what_joins_further_down_is_told_too(shown):
    back = (BACK, 5.0, {})
    assert "does not pass the lens here" in screen(shown, now(back, FURTHER))


@pytest.mark.parametrize("since", [(RIGHT,), ((BACK, 0.0, {}), (SIGHTING, 1.0, {"what": "nothing"}))])
def test_seen_rightly_or_begun_anew_it_is_settled(since):
    assert now(WRONG, *since).contrary is None


def test_the_report_does_not_call_the_way_settled():
    start = ("start", 0.0, {"opening": "floor plug", "direction": "downstream", "loadout": "large reel"})
    told = [section(report(start, *TOLD, water, text=FREE), "Pushes") for water in (WRONG, RIGHT)]
    settled = ["not settled which way: laundry tub water" not in each for each in told]
    assert settled == [False, True]
