"""A double fitting on the screens of a push."""

from __future__ import annotations

import pytest

from advisor.push.held_now import held_now
from advisor.push.log.kinds import BACK, SIGHTING, WATER
from advisor.push.now.across import across
from advisor.terminal.push.here import show_now
from advisor.terminal.push.stuck import show_stuck
from tests.push.test_double_fitting import AHEAD, BEND, PAST, WALL, now
from tests.terminal.test_now_shown import shown

__all__ = ["shown"]


@pytest.mark.parametrize(
    ("told", "says"),
    [
        # The rim is told 0.1 m over the line: 1.1 m to the fitting, and 0.7 m up an arm of 1 m.
        ((BEND, PAST), "the counter has it 0.3 m from the top of arm two."),
        ((BEND, PAST, AHEAD, (SIGHTING, 3.0, {"what": "nothing"})), "nowhere on arm two"),
    ],
)
def test_no_reading_of_the_sheet_is_told_but_the_one_that_fits_straight_across(told, says, shown):
    """Counter and sheet parted by a metre, and the sheet's own place was told all the same."""
    said = " ".join(shown(show_now, now(*told)).split())
    where = said.partition("Which way is")[0].partition("Downstream is")[0]
    assert "by the sheet" not in where
    assert "one of them is off" not in said
    assert says in said
    assert "Before digging, locate it from above." in said


def test_what_was_seen_in_the_one_arm_is_not_told_as_of_the_other(shown):
    """Both have a closet bend: that of arm one was seen."""
    assert "past closet bend of arm one by the counter" in " ".join(
        shown(show_now, now(BEND, PAST, AHEAD)).split()
    )


def test_stopped_in_that_arm_no_wall_is_named_and_it_is_drawn_back(shown):
    told = now(BEND, PAST, AHEAD, WALL)
    found = held_now(told)
    assert found is not None
    assert found.told.name == "crossed over"
    assert all(cause.name != "far wall" for cause in found.causes)
    assert "before the fitting" in found.first[-1]
    assert not any("Turn" in step or "Lean" in step for step in found.first)
    assert "crossed into the opposite branch" in " ".join(shown(show_stuck, found, told).split())


def test_stopped_past_it_before_any_water_it_is_named_as_well():
    found = held_now(now(BEND, PAST, WALL))
    assert found is not None
    names = [cause.name for cause in found.named]
    assert "crossed over" in names
    assert "far wall" not in names


def test_drawn_back_to_before_the_fitting_and_pushed_anew_nothing_contradicts():
    again = (SIGHTING, 2.2, {"what": "tie-in"}), (SIGHTING, 6.0, {"what": "nothing"})
    told = now(BEND, PAST, AHEAD, (BACK, 0.5, {}), *again)
    assert told.contrary is None
    assert across(told.push.tracker, told.after(3)) is not None


def test_what_may_be_wrong_names_no_way_of_an_opening_that_leads_one_way(shown):
    mouths = ((SIGHTING, at, {"what": "tie-in"}) for at in (2.1, 8.2))
    wrong = (WATER, 8.2, {"fixture": "toilet one", "dye": True, "seconds": 15.0, "side": "ahead"})
    told = now(*mouths, wrong, opening="end access")
    said = " ".join(shown(show_now, told).replace("│", "").split())
    assert "One of the two is wrong: where the head is, or" in said
    assert "the way that the opening leads" not in said
    assert "Look into the opening" not in said
    assert "Draw back slowly to the last fitting" in said
