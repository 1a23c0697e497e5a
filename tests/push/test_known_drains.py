"""What is known of whether a line drains has four values, and how water is run goes by them on each screen.

From a trial: in a house in which two fixtures backed up the way home said "Run water. Look for leaks." after
the line was told to be cleared, and after a cup and a jug, where the report of that push had it watched.
Common practice, no source: what was cleared may hold anew, so the first water is little and watched.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.outcome.attempts import CLEANED
from advisor.push.held.freeing import TURN, WATER
from advisor.push.held.not_wet import before_water_ahead, drain_first
from advisor.push.held_now import plight_of
from advisor.push.log.kinds import ANEW, FIND, LOOKED, MACHINE
from advisor.push.now.backs_up import CLEARED_NOW
from advisor.push.now.known_drains import Known
from advisor.push.now.now import Now
from advisor.push.now.tries import NextTry
from advisor.push.now.watched import watched_words
from advisor.push.report.told import next_words
from advisor.terminal.push.home import show_coming_home
from tests.cases.jobs import tables
from tests.push.test_drains import FLOOR_PLUG, RIM, ROOTS, UNSURE, ran, walk
from tests.terminal.test_now_shown import Told, pushed, shown

__all__ = ["shown"]  # fixture
UP = walk("holding: no, chemicals: no, backs up: [bath]")
WET = walk("holding: no, chemicals: no, backs up: [bath], wet cellar: comes up")
AWAY: Told = (LOOKED, 1.5, {"drains": True})
STOOD: Told = (LOOKED, 1.5, {"drains": False})
LATER: Told = (ANEW, None, {"told": "nobody smells gas", "drains": True})
CUT: Told = (MACHINE, None, {"opening": FLOOR_PLUG, "direction": "downstream", "to": 20.0, "outside": True})
SAME = "un water a little at a time while somebody watches bath"  # as the report says it


def push(site: str, *told: Told, said: str = "nobody smells gas") -> Now:
    """A push that began with a look at the line, or with what was `said`."""
    now = pushed(site, FLOOR_PLUG, UNSURE, *told, direction="downstream")
    began = replace(now.push.began, data={**now.push.began.data, "drains": True, "told": said})
    return replace(now, push=now.push.begun(began))


@pytest.mark.parametrize(
    ("now", "known"),
    [
        (lambda: push(UP), Known.LOOKED),
        (lambda: push(UP, AWAY), Known.RAN),
        (lambda: push(UP, ran("bath", True, 1.5)), Known.RAN),
        (lambda: push(UP, said=CLEARED_NOW), Known.CLEARED),
        (lambda: push(UP, CUT, AWAY), Known.CLEARED),
        (lambda: push(UP, AWAY, CUT), Known.RAN),  # none was run since
        (lambda: push(UP, LATER, said=CLEARED_NOW), Known.LOOKED),  # so long ago that it is asked anew
        (lambda: push(UP, STOOD), Known.NOTHING),
        (lambda: push(UP, AWAY, ROOTS), Known.NOTHING),  # stopped since, by what holds water
        (lambda: push(UP, (FIND, 1.5, {"what": "wad of wipes"}), said=CLEARED_NOW), Known.NOTHING),
        (lambda: pushed(walk(), FLOOR_PLUG, UNSURE), Known.LOOKED),  # the sheet says that it drains
    ],
)
def test_the_four_values(now, known):
    assert now().line.known is known


def test_cleared_says_that_the_water_was_run_just_now():
    """Who had it cleaned last week can say all the rest of it."""
    assert "just now" in CLEARED_NOW


@pytest.mark.parametrize(
    ("now", "first"),
    [
        (lambda: push(UP), True),
        (lambda: push(UP, AWAY), False),
        (lambda: push(UP, said=CLEARED_NOW), False),
    ],
)
def test_the_way_home_says_what_the_report_says(now, first, shown):
    told = now()
    said = " ".join(shown(show_coming_home, told).split())
    assert f"{SAME}. Stop as it rises. Look for leaks." in said
    assert ("Seen to drain as water ran, nothing poured in? Only then." in said) is first
    assert "Run water. Look for leaks." not in said
    (*_, water) = next_words((_Seen(told),), (), True, tables().finds.after)
    assert f"{SAME}. Stop as it rises." in water


def test_where_nothing_ever_backed_up_it_says_so_shortly(shown):
    assert "Run water. Look for leaks." in shown(show_coming_home, pushed(walk(), FLOOR_PLUG, UNSURE))


def test_home_and_report_keep_the_watcher_out_of_the_live_wet(shown):
    told = push(WET, AWAY)
    (*_, water) = next_words((_Seen(told),), (), True, tables().finds.after)
    for said in (shown(show_coming_home, told), water):
        assert "stays up on the stairs" in " ".join(said.split())


class _Seen:
    def __init__(self, now: Now) -> None:
        self.study = now.push.study


def test_a_tap_for_a_held_head_is_watched_even_in_a_line_just_cleared():
    """As every other water there: not the bath that backed up, and it is stopped as it rises."""
    tries = tuple(NextTry(each, 0.5, 1, 60.0, ("Do it.",), "") for each in (WATER, CLEANED, TURN))
    now = push(UP, RIM, said=CLEARED_NOW)
    assert "bath backed up before it was cleared. A little at a time" in watched_words(now)
    tap, cleaning, turn = drain_first(tries, (), tables().in_pipe, watched=plight_of(now).watched)
    assert all("as it rises, stop" in each.steps[0] for each in (tap, cleaning))
    assert turn.steps == ("Do it.",)
    assert not plight_of(pushed(walk(), FLOOR_PLUG, UNSURE)).watched


def test_what_backs_up_is_not_proposed_till_the_line_is_surely_cleared():
    """The laundry joins above the plug: where it is not sure which way the rod went its water tells most."""

    def proposed(*told: Told) -> str | None:
        tub = walk("holding: no, chemicals: no, backs up: [laundry tub]")
        check = pushed(tub, FLOOR_PLUG, UNSURE, *told, direction="unknown").check
        return check and check.fixture

    assert proposed(AWAY) is None
    assert proposed(CUT, AWAY) == "laundry tub"


@pytest.mark.parametrize(
    ("now", "first"),
    [
        (lambda: push(UP), "First see the line drain: key w. Before that no tap."),
        (lambda: push(UP, AWAY), "as it rises, stop"),
        (lambda: push(UP, said=CLEARED_NOW), "as it rises, stop"),
        (lambda: push(UP, AWAY, ROOTS), "First see the line drain: key w. Before that no tap."),
        (lambda: pushed(walk(), FLOOR_PLUG, UNSURE), ""),
    ],
)
def test_so_it_is_of_a_tap_at_a_hard_place_that_the_head_comes_to(now, first):
    told = now()
    said = before_water_ahead(plight_of(told), told.push.study).get(WATER, "")
    assert first in said
    assert bool(said) is bool(first)
