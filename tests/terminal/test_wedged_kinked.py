"""Told as what came of a try, a wedged head and a kinked rod change every screen at once.

Rules of the trade: what comes neither way is freed before anything else; a kinked rod is finished.
"""

from __future__ import annotations

import re

import pytest

import tests.terminal.test_now_shown as beside
import tests.terminal.test_push_session as session
from advisor import demo
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import read_kit
from advisor.push.before.to_look_at import to_look_at
from advisor.push.held_now import held_now
from advisor.push.log.kinds import BACK, HELD, RESET, SIGHTING, STOPPED, TRY, WEDGED
from advisor.push.now.now import Now
from advisor.push.stop_ahead import stop_ahead
from advisor.terminal.push.here import show_now
from advisor.terminal.push.plan_anew import show_plan_anew
from tests.cases.jobs import tables
from tests.push.test_earlier_stop import numbered
from tests.terminal.test_held_here import SEWER
from tests.terminal.test_now_shown import pushed
from tests.terminal.test_push_answers import standing
from tests.terminal.test_push_session import BEGIN, told

push, job, shown = session.push, session.job, beside.shown  # fixtures
LARGE, SMALL = "large head on large reel", "small head on small reel"
LOOKED = BEGIN.replace("11", "11y")  # with gear that was held both ways
RIM = "s30\r" + "20" + "30"  # a rim before the lens at 30 ft, it feels dead
AFTER = "HELD "


def last_told(said: str) -> str:
    """The last screen of a held head, up to its question."""
    screen = said.rsplit(AFTER, 1)[1].split("And now?")[0]
    return re.sub(r"\(\d+%\)|\(\d+ %\)", "", screen)


@pytest.mark.parametrize("how", ["tw", "o2w", "o1w"])
def test_wedged_by_a_try_is_the_same_screen_as_held_both_ways(push, how):
    tried = push(BEGIN + RIM + how + "mq")
    assert "First get it free, gently" in last_told(tried)
    assert "No push onward and no try until it comes back" in last_told(tried)
    assert "Next:" not in last_told(tried)
    assert "How hard did you push?" not in tried
    assert "pushed gently again" not in tried.rsplit("And now?", 1)[1]


def test_both_ways_of_telling_it_are_one_state():
    rim = (STOPPED, 12.0, {"sign": "rim ahead", "feel": "dead"})
    tried = neither(rim, (TRY, 12.0, {"technique": "turn the rod", "outcome": WEDGED}))
    felt = neither((STOPPED, 12.0, {"sign": "rim ahead", "feel": "dead, will not come back"}))
    one, other = held_now(tried), held_now(felt)
    assert one is not None
    assert other is not None
    assert tried.signs == felt.signs
    assert (one.stop, one.out, one.first, one.tries) == (other.stop, other.out, other.first, other.tries)


def neither(*entries) -> Now:
    return pushed(SEWER, "yard cleanout", (SIGHTING, 10.0, {"what": "nothing"}), *entries)


WEDGE = (TRY, 12.0, {"technique": "turn the rod", "outcome": WEDGED})
STOP = (STOPPED, 12.0, {"feel": "dead"})


@pytest.mark.parametrize(
    ("then", "wedged"),
    [
        ((), True),
        (((TRY, 12.0, {"technique": "string", "outcome": HELD}),), True),
        ((STOP,), True),  # told once more, not that it came back
        (((RESET, 12.0, {"now": 0.0}), (STOPPED, 0.0, {"feel": "dead"})), True),
        (((BACK, 11.0, {}),), False),
        (((BACK, 11.0, {}), (STOPPED, 12.0, {"feel": "dead"})), False),
        (((TRY, 12.0, {"technique": "string", "outcome": "passed"}),), False),
        # Read further in: driven in, a slip, or free; only who says that it comes back again frees it.
        (((SIGHTING, 14.0, {"what": "nothing"}),), True),
        (((SIGHTING, 14.0, {"what": "tie-in"}), (STOPPED, 15.0, {"feel": "dead"})), True),
        (((RESET, 12.0, {"now": 0.0}),), True),
        (((SIGHTING, 14.0, {"what": "nothing", "free": True}),), False),
        (((STOPPED, 15.0, {"feel": "dead", "free": True}),), False),
    ],
)
def test_it_stays_wedged_until_it_came_back_or_passed(then, wedged):
    found = held_now(neither(STOP, WEDGE, *then))
    assert (found is not None and found.both_ways) == wedged


def test_while_wedged_the_main_screen_tells_nothing_to_push_on_to(shown):
    said = shown(show_now, neither(STOP, WEDGE))
    assert "No push onward and no try until it comes back" in said
    assert "HARD PLACE" not in said
    assert "gentle push" not in said


def test_a_place_that_wedged_it_is_not_pushed_past_when_it_comes_again():
    again = stop_ahead(neither(STOP, WEDGE, (BACK, 11.0, {})))
    assert again is not None
    assert again.not_past


@pytest.mark.parametrize("free", ["y", "n", "t"])
def test_a_reading_further_in_of_a_head_that_comes_neither_way_is_asked_about(push, job, free):
    """From a trial: roots held it both ways at 3.3 m, 3.6 m was typed, and STOP was gone."""
    again = "33\ry" if free == "t" else ""
    said = push(BEGIN + RIM + "o2wm" + "r32\r" + free + again + "nq")
    asked = "At 30 ft it came neither way. At 32 ft, drawn a little: does it come back?"
    assert asked in said
    last = said.rsplit("COUNTER", 1)[1]
    assert ("No push onward and no try until it comes back" in last) is (free == "n")
    assert ("Did the picture move as you drew?" in said) is (free != "n")
    assert standing(job)[-1].data.get("free") is (free != "n")


def test_what_it_came_past_after_it_came_neither_way_is_not_pushed_past_again(shown):
    """Roots that held it both ways hold the next push too, till they are cut."""
    roots = (STOPPED, 12.0, {"sign": "roots", "feel": "will not come back"})
    on = (SIGHTING, 14.0, {"what": "nothing", "free": True})
    now = neither(roots, on, (BACK, 11.5, {}))
    again = stop_ahead(now)
    assert again is not None
    assert (again.passed, again.not_past) == (True, True)
    assert stop_ahead(now, unpassed=True) is not None
    said = shown(show_now, now)
    assert "Do not go past 12 m." in said
    assert "Gently again" not in said


def test_it_comes_back_is_told_with_its_reading(push, job):
    said = push(BEGIN + RIM + "twc30\rc28\rq")
    assert "told nothing" in said  # at 30 ft nothing has come back
    assert told(job)[-1] == (BACK, pytest.approx(28 * 0.3048))


def test_plan_again_tells_a_wedged_head_nothing_to_go_on_to(push):
    said = push(BEGIN + RIM + "twmaq").rsplit("What now?", 2)[1]
    assert "No push onward and no try until it comes back" in said
    assert "Go on here" not in said


@pytest.mark.parametrize(("how", "goes_on"), [("o3pln", True), ("o3k", False), ("o3w", False)])
def test_what_to_look_at_before_pushing_on_is_told_only_where_it_may_be_pushed_on(push, how, goes_on):
    """From a trial: told kinked, it answered `Before you push on` above `this push is over`."""
    said = push(BEGIN + RIM + how + "mq")
    assert "That was not to be tried here (quick push)" in said
    assert ("Before you push on" in said) is goes_on
    assert "Once it is out, look at rod and spring." in said


@pytest.mark.parametrize(("at", "told"), [(5.0, True), (2.0, False)])
def test_chances_that_know_nothing_of_what_holds_it_say_so(shown, at, told):
    """Likely (85 %), it said, of the same head at the place where it had just wedged for an unknown cause; of
    a hard place that the plan foresees its chance knows."""
    held = (STOPPED, at, {"sign": "rim ahead" if told else "wall ahead", "feel": "will not come back"})
    now = pushed(beside.tee(), beside.TEE_PLUG, held)
    said = shown(show_plan_anew, now, now.push.study, None)
    assert "If it is out: 1. wall plug" in said
    assert (f"These chances know nothing of the stop at {at:.0f} m" in said) is told


def test_rod_that_comes_back_of_a_wedged_head_is_asked_to_show_that_the_head_comes_too(push):
    """From a trial: wedged, 6 m drawn back, out, the same head offered again, no word said."""
    came = "Did the picture move as you drew?"
    for begin, back in ((BEGIN, "mp20\r"), (LOOKED, "c20\r")):
        said = push(begin + RIM + "o2w" + back + "en\ry")
        assert came in " ".join(said.split())
        home = " ".join(said.partition("COMING HOME")[2].split())
        assert "Look at head, spring and coupling: they were held both ways." in home
    held = push(LOOKED + RIM + "mp20\r" + "en\ry").rpartition("Where does the rod go in?")[2]
    assert came not in " ".join(held.split())
    assert "they were held both ways" not in held


def test_gear_that_was_held_both_ways_goes_in_again_only_once_it_was_looked_at(push, job):
    """Rule of the trade: a pull on a wedged head strains coupling and spring, and they part in the next."""
    push(BEGIN + RIM + "o2w" + "c20\r" + "en\ry")
    asked = "Head, spring and coupling looked at since, and sound?"
    said = push("11n" + "bb")
    before, _, after = said.partition("Where does the rod go in?")
    assert "held both ways, left in the pipe, or in it while a machine ran, in a push of this job" in before
    assert asked in after
    assert standing(job)[-1].kind == "end", "nothing begins with it"
    push(LOOKED + "en\ry")
    assert standing(job)[-2].data["looked"] is True
    assert "held both ways" not in push("11" + "bbb")


GEAR = {"opening": "plug", "loadout": LARGE}
OTHER = {**GEAR, "loadout": SMALL, "looked": True}


@pytest.mark.parametrize(
    ("told", "look"),
    [
        ((("start", 0.0, GEAR), STOP), False),
        ((("start", 0.0, GEAR), (STOPPED, 12.0, {"feel": "will not come back"})), True),
        ((("start", 0.0, GEAR), ("end", 9.0, {"out": False}), ("had out", None, {"push": 1.0})), True),
        ((("start", 0.0, GEAR), STOP, WEDGE, ("start", 0.0, {**GEAR, "looked": True})), False),
        (
            (("start", 0.0, GEAR), STOP, WEDGE, ("start", 0.0, OTHER)),
            True,
        ),
    ],
)
def test_which_gear_is_to_be_looked_at(told, look):
    kit = kit_of(read_kit(demo.KIT), tables())
    assert bool(kit.parts(LARGE) & to_look_at(numbered(*told), kit)) is look
