"""What is told to be heeded of a find whenever a head comes there again is told in its own push too.

From a trial: a wad, 3/4 of the pipe shut, in standing water. The plan of that job and the next
push said "not into it: push packs it tighter", the screen on which he told it said how to go on through the
pool. The water at the same reading, told before it, hid the wad in the next push. And the plan made anew said
"go on here". Common practice, no source: it is cleaned out before a camera goes in.
"""

from __future__ import annotations

import pytest

from advisor.push.before.found_ahead import found_ahead
from advisor.push.log.kinds import BACK, FIND, SIGHTING
from advisor.push.log.sighting import POOL
from advisor.push.onward import onward
from advisor.terminal.push.here import show_now
from advisor.terminal.push.plan_anew import show_plan_anew
from tests.push.machines import cutter
from tests.push.test_earlier_stop import begun
from tests.push.test_elsewhere import OUT as OUT_THERE
from tests.push.test_elsewhere import YARD, met
from tests.push.test_found_again import BEGUN, OUT, again, read
from tests.push.test_wad_holds_water import WAD, told
from tests.terminal.test_now_shown import TEE_PLUG, Told, shown

__all__ = ["shown"]  # fixture
NOT_INTO = "not into it: push packs it tighter"
WATER: Told = (SIGHTING, 5.0, {"what": POOL})
THERE: Told = (FIND, 5.0, {"what": WAD})
SECTION = (BEGUN, read(5.0), WATER, THERE, OUT)


def screen(shown, now) -> str:
    return " ".join(shown(show_now, now).replace("│", " ").split())


@pytest.mark.parametrize(
    ("what", "since", "says"),
    [
        (WAD, (), True),
        (WAD, (read(8.0),), True),
        (WAD, ((SIGHTING, 8.0, {"what": POOL}),), True),
        (WAD, ((BACK, 7.0, {}),), True),
        (WAD, (read(9.5),), False),  # the lens is past it
        ("a few wipes on a joint", (), False),
    ],
)
def test_on_the_screen_of_the_find_and_until_the_lens_is_past_it(shown, what, since, says):
    assert (NOT_INTO in screen(shown, told(what, *since))) is says


@pytest.mark.parametrize("order", [(WATER, THERE), (THERE, WATER)])
def test_water_at_the_same_reading_hides_no_wad_in_the_next_push(order, shown):
    for at in (0.0, 4.6, 5.0):
        now = again(BEGUN, read(5.0), *order, OUT, BEGUN, read(at))
        assert [found.heed.what for found in found_ahead(now)] == [WAD]
        assert NOT_INTO in screen(shown, now)


def plan(shown, now) -> str:
    return " ".join(shown(show_plan_anew, now, now.push.study, onward(now.push.study, now)).split())


def test_the_plan_made_anew_has_it_cleaned_out_before_anything_goes_on(shown):
    for at in ((), (read(4.6),)):
        said = plan(shown, again(*SECTION, BEGUN, *at))
        assert f"First have cleaned out: {WAD}, at 5 m, and see the line drain." in said
        assert "Go on here" not in said


@pytest.mark.parametrize("since", [(cutter(7.0, TEE_PLUG, "downstream"), BEGUN), (BEGUN, read(7.0))])
def test_not_what_was_cleaned_since_or_lies_behind(since, shown):
    assert "cleaned out" not in plan(shown, again(*SECTION, *since))


def test_what_a_push_from_the_other_end_saw_is_cleaned_out_first_as_well(shown):
    now = met(YARD, read(4.0), (FIND, 4.0, {"what": WAD}), OUT_THERE, begun())
    said = plan(shown, now)
    assert f"First have cleaned out: {WAD}, seen in a push in from yard chamber" in said
    assert "Go on here" not in said
