"""At an end that only a length tells: nothing shows it, and past the end of a part the rest lies ahead.

From a trial: half a metre past where the plan's part ended by the sheet, the roots 2 m further on,
the pipe open, and it read "the head is at the end of what is to be seen. Draw back." Lengths are the sheet's.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

import pytest

from advisor.push.log.kinds import FIND
from advisor.push.now.evidence import planned_anew
from advisor.push.onward import onward
from advisor.ranking.part import Part
from advisor.result.study import Study
from advisor.site.target import target_in
from advisor.terminal.push.plan_anew import show_plan_anew
from tests.push.test_drains import FLOOR_PLUG, walk
from tests.push.test_found_again import read
from tests.push.test_wad_holds_water import WAD
from tests.terminal.test_now_shown import Told, case_of, pushed, shown

__all__ = ["shown"]  # fixture
# Down from the floor plug the kitchen line joins after 3 m, the bath line after 7 m, and the sewer is met
# after 22.5 m. The part ends a metre past the bath line: at 8 m in, where nothing is.
PART = "house drain, from kitchen line to 1 m below bath line"
SHEET = walk().replace("look at: house drain,", f'look at: "{PART}",')
KITCHEN: Told = ("sighting", 3.0, {"what": "tie-in", "clock": 9.0})
END = "The head is at the end of"
REST = "The rest of what is to be seen lies ahead."


@cache
def made_anew(part_of: str | None) -> Study:
    now = pushed(SHEET, FLOOR_PLUG, KITCHEN, direction="downstream")
    made = planned_anew(case_of(SHEET), now.push.course, now.tries, now.wrong_port)
    if part_of is None:
        return made
    network, whole = target_in(part_of, made.network)
    return replace(made, network=network, part=Part(made.target, whole, 0.3, 0.3, 30.0, ()))


def said(shown, *told: Told, part_of: str | None = None) -> str:
    now = pushed(SHEET, FLOOR_PLUG, KITCHEN, *told, direction="downstream")
    made = made_anew(part_of)
    return shown(lambda page: show_plan_anew(now, made, onward(made, now), page))


def test_no_end_that_nothing_shows_is_told_as_sure_by_the_counter_alone(shown):
    told = said(shown, read(8.2))
    assert END not in told
    assert "Nothing shows that end. To be sure of it: slowly on" in told
    assert "comes into view" not in told
    (furthest,) = re.findall(r"no further than ([\d.]+) m", told)
    assert 8.2 < float(furthest) < 9.6, "by the sheet it is at 8 m: within a fifth of that it was passed"
    assert "Then draw back and look." in told
    assert REST not in told, "it is all that the sheet asks for"


def test_past_the_end_of_a_part_the_rest_is_told_and_how_far(shown):
    told = said(shown, read(8.2), part_of="house drain")
    assert "At the end of the part planned, or past it" in told
    assert REST in told
    assert "Slowly on while the lens shows open pipe" in told
    *_, furthest = re.findall(r"no further than ([\d.]+) m", told)
    assert 8.2 < float(furthest) <= 22.5, "the sewer is met there: nobody is sent past it"


def test_the_rest_is_told_also_where_the_end_of_the_part_is_sure(shown):
    told = said(shown, read(11.0), part_of="house drain")
    assert "The head is at the end of the part planned." in told
    assert REST in told


@pytest.mark.parametrize("whole", ["house drain, from floor plug to 1 m below bath line"])
def test_what_lies_behind_is_not_ahead(shown, whole):
    assert REST not in said(shown, read(11.0), part_of=whole)


def test_nobody_is_sent_on_past_what_was_met_there(shown):
    told = said(shown, read(8.2), (FIND, 8.2, {"what": WAD}), part_of="house drain")
    assert "Slowly on" not in told
