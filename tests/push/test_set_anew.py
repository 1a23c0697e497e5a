"""What a counter showed before it was set anew is told as it counts now: one screen has one counter.

From a trial: set to 0 at 34.5 ft, the screen said that roots held the head at -1 ft, and below
that it was stopped at 33.5 ft. Same place.
"""

from __future__ import annotations

import re

import pytest

from advisor.push.log.kinds import BACK, FIND, RESET, SIGHTING, STOPPED
from advisor.push.log.went_in import Reading
from advisor.push.now.light import light_above
from advisor.quantity import Units
from advisor.terminal.page import Page
from advisor.terminal.push.hard import told_there
from advisor.terminal.push.here import show_now
from advisor.terminal.push.home import show_coming_home
from advisor.terminal.push.water import why_doubtful
from advisor.terminal.push.words import Words
from tests.push.test_which_spot import CLAY, ROOTS
from tests.terminal.test_now_shown import Told, pushed


def read(at: float) -> Told:
    return SIGHTING, at, {"what": "nothing"}


ANEW: Told = (RESET, 7.0, {"now": 0.0})


def test_a_stop_that_forbids_water_is_told_as_the_counter_counts_now():
    told = (STOPPED, 6.0, ROOTS), read(7.0)
    before, after = (
        pushed(CLAY, "front chamber", *told, *more, direction="upstream") for more in ((), (ANEW,))
    )
    assert why_doubtful(before, Words(before)) == "it was stopped at 6 m"
    assert why_doubtful(after, Words(after)) == "it was stopped at 1 m before the counter's 0"


def test_what_was_logged_on_the_way_in_is_met_again_whatever_the_counter_shows_now():
    find: Told = (FIND, 6.0, {"what": "a joint stands open"})
    held: Told = (STOPPED, -1.0, {"feel": "soft"})
    now = pushed(CLAY, "front chamber", read(6.0), find, read(7.0), ANEW, held, direction="upstream")
    assert now.on_way_out
    assert told_there(now) == ["Logged at 1 m before the counter's 0: a joint stands open."]


def test_no_place_is_told_as_less_than_nothing_on_screen_at_home_or_in_the_report(capsys):
    """`-1 m` is on no counter; nor may `-0 m` be, of a hair before it."""
    told = (STOPPED, 6.0, ROOTS), read(7.0), ANEW
    now = pushed(CLAY, "front chamber", *told, direction="upstream")
    show_now(now, Page())
    show_coming_home(now, Page())
    shown = capsys.readouterr().out
    assert "1 m before the counter's 0" in " ".join(shown.split())
    assert not re.search(r"-\d", shown)
    back = Reading(shown=-1.0, at_opening=0.0, inside=6.0, anew=True)
    assert back.words(Units.METRIC) == "6 m in (counter 1 m before the counter's 0, set anew on the way)"
    out = Reading(shown=3.0, at_opening=5.0, inside=-2.0, anew=False)
    assert out.words(Units.METRIC) == "out of the opening (counter 3 m, 5 m at the opening)"
    assert [Words(now).length(at) for at in (-0.04, 0.0, 0.25, 12.0)] == ["0 m", "0 m", "0.2 m", "12 m"]


def test_light_from_above_stays_where_it_was_seen():
    """No chamber of the map stands 3 m up from the front one: the sky in a vent, or the riser of a tank."""
    light: Told = (SIGHTING, 3.0, {"what": "chamber"})
    anew: Told = (RESET, 4.0, {"now": 10.0})
    told = light, read(4.0), anew
    now = pushed(CLAY, "front chamber", *told, (BACK, 9.5, {}), direction="upstream")
    rod = light_above(now)
    assert rod is not None
    assert now.counted(rod) == pytest.approx(9.0)
    assert light_above(pushed(CLAY, "front chamber", *told, (BACK, 8.0, {}), direction="upstream")) is None
