"""At the end of what is to be seen: said only as sure as it is, and else how to make sure.

From a trial: a wad at the lens 6 ft short of the tie-in that ends the look, the place likely at
68 %, and it read "the head is at the end of what is to be seen. Draw back." Distances are those of the sheet.
"""

from __future__ import annotations

import re

import pytest

from advisor.push.log.kinds import FIND
from advisor.push.now.evidence import planned_anew
from advisor.push.onward import onward
from advisor.terminal.push.plan_anew import show_plan_anew
from tests.push.test_drains import FLOOR_PLUG, walk
from tests.push.test_found_again import read
from tests.push.test_wad_holds_water import WAD
from tests.terminal.test_now_shown import Told, case_of, pushed, shown

__all__ = ["shown"]  # fixture
# Down from the floor plug the kitchen line joins after 3 m and the bath line after 7 m.
SHEET = walk().replace("look at: house drain,", 'look at: "house drain, from kitchen line to bath line",')
KITCHEN: Told = ("sighting", 3.0, {"what": "tie-in", "clock": 9.0})
BATH: Told = ("sighting", 7.0, {"what": "tie-in", "clock": 3.0})
END = "The head is at the end of what is to be seen."


def said(shown, *told: Told) -> str:
    now = pushed(SHEET, FLOOR_PLUG, *told, direction="downstream")
    made = planned_anew(case_of(SHEET), now.push.course, now.tries, now.wrong_port)
    return shown(lambda page: show_plan_anew(now, made, onward(made, now), page))


def test_seen_it_is_told_plainly(shown):
    assert END in said(shown, KITCHEN, BATH, read(7.5))


def test_by_the_counter_alone_it_goes_on_until_it_is_seen(shown):
    told = said(shown, KITCHEN, read(7.5))
    assert END not in told
    assert "Slowly on until that end comes into view" in told
    (furthest,) = re.findall(r"no further than ([\d.]+) m", told)
    assert 7.5 < float(furthest) < 8.5, "by the sheet it comes at 7 m: within a fifth of that it was passed"


def test_what_was_met_there_comes_first(shown):
    told = said(shown, KITCHEN, read(7.5), (FIND, 7.5, {"what": WAD}))
    assert END not in told
    assert "Draw back slowly and look. What was met here comes first." in told
    assert "Slowly on" not in told


@pytest.mark.parametrize("at", [4.0, 6.0])
def test_before_it_nothing_is_told_of_an_end(shown, at):
    assert "end of what is to be seen" not in said(shown, KITCHEN, read(at))
