"""No fixture is proposed whose water may come up indoors. Every expectation is a rule of the trade: water
that is run above a stoppage comes up at the lowest fixture, and only who has seen it drain may run more."""

from __future__ import annotations

from itertools import product

import pytest

from advisor.outcome.at_door import AtDoor
from advisor.outcome.facts import Circumstances
from advisor.push.held.stuck import stuck
from advisor.push.held.way_out import WayOut
from advisor.push.held_now import plight_of
from advisor.push.log.kinds import BACK, HELD, PASSED, SIGHTING, STOPPED, TRY, WATER
from advisor.push.now.drains import seen_to_drain, stops_of, water_allowed
from advisor.push.now.plight import Plight
from advisor.terminal.page import Page
from advisor.terminal.push.remind import remind
from advisor.terminal.push.water import warn_before_any
from tests.cases.jobs import tables
from tests.push.sites import WALK
from tests.push.test_stuck import TEE
from tests.terminal.test_now_shown import FLOOR_PLUG, TEE_PLUG, Told, pushed, shown, tee

__all__ = ["shown"]  # fixture
UNSURE: Told = (SIGHTING, 1.5, {"what": "nothing"})
ROOTS: Told = (STOPPED, 8.0, {"sign": "blocked", "feel": "soft"})
WALL: Told = (STOPPED, 8.0, {"sign": "wall ahead"})
BY: Told = (TRY, 8.0, {"technique": "quick push", "outcome": PASSED})
ALL = {"laundry tub", "kitchen sink", "bath"}


def ran(fixture: str, drains: bool | None, at: float = 8.0) -> Told:
    return WATER, at, {"fixture": fixture, "drains": drains}


def walk(complaint: str = "holding: no, chemicals: no") -> str:
    return WALK.replace("holding: no", complaint)


def test_nothing_is_run_into_a_line_that_backs_up_until_it_is_seen_to_drain():
    """The bath stands: what it stands on lies somewhere below it, and all three run into that line."""
    up = walk("holding: no, chemicals: no, backs up: [bath]")
    now = pushed(up, FLOOR_PLUG, UNSURE, direction="unknown")
    assert now.not_to_run == ALL
    assert now.check is None
    seen = pushed(up, FLOOR_PLUG, UNSURE, ran("bath", True, 1.5), direction="unknown")
    assert not seen.not_to_run
    assert seen.water_allowed is True
    assert not pushed(walk(), FLOOR_PLUG, UNSURE, direction="unknown").not_to_run


def test_no_laundry_is_run_where_that_is_what_makes_it_come_up():
    """A machine's load is more than a tap's water: that this was seen to run away gives no leave for that."""
    worse = walk("holding: no, chemicals: no, backs up: [bath]").replace(
        "task: {", "task: {history: {worse on: [laundry days]}, "
    )
    seen = pushed(worse, FLOOR_PLUG, UNSURE, ran("bath", True, 1.5), direction="unknown")
    assert (seen.not_to_run, seen.push.laundry) == (frozenset(), {"laundry tub"})
    assert seen.check is None or seen.check.fixture != "laundry tub"
    page = Page()
    with page.console.capture() as screen:
        warn_before_any(seen, page)
    said = " ".join(screen.get().split())
    assert "Not the laundry tub, whatever was seen to drain" in said
    assert "until the line is seen to drain" not in said, "it was"


def test_what_backs_up_on_one_main_says_nothing_of_the_other():
    pieces = "[{fixture: basin, label: yard basin}, {pipe: 9 m}, {end: soakaway}]"
    line = f"  - {{line: second drain, kind: drain, size: 3 in, pieces: {pieces}}}\ntask:"
    second = walk("holding: no, chemicals: no, backs up: [yard basin]").replace("task:", line)
    assert not pushed(second, FLOOR_PLUG, UNSURE, direction="unknown").not_to_run & ALL


@pytest.mark.parametrize("told", [(ROOTS,), (ROOTS, BY), (ROOTS, (BACK, 4.0, {})), (WALL,)])
def test_what_drains_through_a_stop_is_not_run(told):
    """8 m down from the plug the head is past the bath line and the kitchen line: their water comes from
    behind it, as that of the laundry, which joins above the plug. All of it must pass the place of the stop.
    Roots that the head went through hold paper all the same."""
    assert pushed(walk(), FLOOR_PLUG, *told, direction="downstream").not_to_run == ALL


def test_what_joins_below_the_stop_may_run():
    """The laundry joins 4 m up from the plug; bath and kitchen join below it and run away from the stop."""
    now = pushed(walk(), FLOOR_PLUG, (STOPPED, 2.5, ROOTS[2]), direction="upstream")
    assert now.not_to_run == {"laundry tub"}


def test_a_stop_of_the_head_alone_is_none_once_it_has_passed():
    entries = pushed(walk(), FLOOR_PLUG, WALL, (TRY, 8.0, {**BY[2], "outcome": HELD}), BY).entries
    assert [stops_of(entries[:count], tables()) for count in (1, 2, 3)] == [(0,), (0,), ()]
    open_pipe: Told = (STOPPED, 8.0, {"sign": "open pipe ahead", "feel": "springs back"})
    assert stops_of(pushed(walk(), FLOOR_PLUG, open_pipe).entries, tables()) == ()


def test_who_sees_it_stand_runs_no_more_and_a_new_stop_asks_again():
    stands = pushed(walk(), FLOOR_PLUG, ROOTS, ran("bath", False))
    assert stands.water_allowed is False
    assert stands.check is None
    runs = pushed(walk(), FLOOR_PLUG, ROOTS, ran("bath", False), ran("bath", True))
    assert (runs.drains, runs.not_to_run) == (True, frozenset())
    again = pushed(walk(), FLOOR_PLUG, ROOTS, ran("bath", True), (STOPPED, 9.5, ROOTS[2]))
    assert (again.drains, again.doubtful) == (None, True)


RIM: Told = (STOPPED, 9.5, {"sign": "rim ahead", "feel": "dead"})


@pytest.mark.parametrize(
    ("stops", "drains"),
    [
        ((RIM,), True),  # a step in the wall of an open pipe
        ((WALL, BY), True),
        ((WALL, BY, RIM), True),
        ((WALL, WALL, BY, RIM), True),  # the same stop, told again
        ((WALL,), None),
        ((WALL, BY, ROOTS), None),
        ((ROOTS, BY, RIM), None),  # what the head went through holds paper all the same
        (((STOPPED, 3.0, WALL[2]), WALL, BY), None),  # another stop, which nobody told to be passed
    ],
)
def test_that_it_was_seen_to_drain_counts_again_once_the_stop_is_passed(stops, drains):
    """Water ran away before the head met the wall of a fitting and went round it: no stoppage was there.
    The same rim was told to have no water run on it, or water first, by whether a fitting lay behind."""
    assert pushed(walk(), FLOOR_PLUG, ran("bath", True), *stops, direction="downstream").drains is drains


def test_a_try_that_ran_across_a_double_fitting_passed_no_stop():
    entries = pushed(walk(), FLOOR_PLUG, ran("bath", True), WALL, BY).entries
    (by,) = (entry.number for entry in entries if entry.kind == TRY)
    told = (seen_to_drain(entries, tables(), astray) for astray in ((), (by,)))
    assert list(told) == [True, None]


@pytest.mark.parametrize("drains", [True, False, None])
def test_no_push_shows_away_what_was_poured_in_or_stands(drains):
    """Seen to drain says nothing of a cleaner, and a line that was told to hold is cleared first."""
    for holding, chemicals in product((True, False, None), repeat=2):
        given = Circumstances(holding, chemicals, *(None,) * 4)
        allowed = water_allowed(given, drains)
        if holding or chemicals or drains is False:
            assert allowed is False
        elif chemicals is None:
            assert allowed is None
        else:
            assert allowed is (True if holding is False or drains else None)


@pytest.mark.parametrize(("drains", "allowed"), [(True, True), (None, None), (False, False)])
def test_what_was_seen_at_the_door_counts_until_it_is_stopped(drains, allowed):
    given = AtDoor(none_poured=True, drains=True).settle(Circumstances(*(None,) * 6))
    assert water_allowed(given, drains) is allowed
    cleaner = AtDoor(none_poured=True, drains=True).settle(Circumstances(None, True, *(None,) * 4))
    assert water_allowed(cleaner, drains) is False, "what the sheet says stands"


def held(signs: set[str], drains: bool | None, drained: bool = False) -> tuple[dict[str, str], WayOut]:
    now = pushed(tee(), TEE_PLUG)
    met = next(each for each in now.push.course.spots if "sanitary tee" in each.name)
    found = stuck(now.push.course, met, frozenset(signs), (), 2.0, (), Plight(drains, drained=drained))
    return dict(found.not_now), found.out


def test_no_water_is_run_on_to_what_may_hold_it():
    assert "holding: no" not in TEE, "the line of the tee is told to drain by tee()"
    barred, out = held({"blocked"}, None)
    assert "comes up at the lowest fixture" in barred["water"]
    assert any(step.startswith("No water until you have seen that the line drains") for step in out.steps)
    free, out = held({"wall ahead"}, None)
    assert "water" not in free
    assert any(step.startswith("A little water run behind it") for step in out.steps)
    assert any(step.startswith("A little water") for step in held({"blocked"}, True)[1].steps)
    assert any(step.startswith("No water: it must not") for step in held({"wall ahead"}, False)[1].steps)


NO_MORE = "That it was seen to drain before counts no more."


@pytest.mark.parametrize(
    ("told", "before"),
    [
        ((ROOTS,), False),
        ((ran("bath", True),), False),  # it counts still
        ((ran("bath", True), ROOTS), True),
        ((ran("bath", True), ROOTS, ran("bath", False)), False),  # what was told last is that it stands
        ((ran("bath", True), ROOTS, ran("bath", True)), False),
        ((ran("bath", False), ROOTS), False),
    ],
)
def test_what_was_seen_to_drain_before_a_stop_is_said_to_count_no_more(shown, told, before):
    """From a trial: told to see it drain first, he had, as the push began."""
    now = pushed(walk(), FLOOR_PLUG, *told, direction="downstream")
    assert plight_of(now).drained is before
    said = " ".join(shown(warn_before_any, now).replace("┃", "").split())
    assert (NO_MORE in said) is before


def test_with_the_bar_on_water_the_earlier_seeing_is_told_only_where_there_was_one():
    told = [held({"blocked"}, None, drained)[0]["water"] for drained in (False, True)]
    assert told[1] == f"{told[0]} {NO_MORE}"
    assert told[0].endswith("First see it drain: key w.")


# -- what is told on coming back to it

SAW = ran("bath", True)


@pytest.mark.parametrize(
    ("told", "says"),
    [
        ((UNSURE,), "camera"),
        ((SAW, WALL), "water"),
        ((SAW, WALL, BY), ""),  # it was the head's own stop
        ((SAW, UNSURE), ""),
        ((SAW, WALL, ran("bath", False)), "camera"),
    ],
)
def test_on_coming_back_no_camera_is_forbidden_where_one_is_in_and_the_line_was_seen_to_drain(told, says):
    """From a trial: a minute after, he read that no camera goes in before it is known."""
    up = walk("holding: no, chemicals: no, gas smell: no, backs up: [bath]")
    now, page = pushed(up, FLOOR_PLUG, *told, direction="downstream"), Page()
    entries, push = (now.push.began, *now.entries), now.push
    with page.console.capture() as screen:
        remind(push.study, push.opening.name, push.loadout.name, entries, False, page)
    said = " ".join(screen.get().split())
    assert ("No water and no camera yet" in said) is (says == "camera")
    assert ("No water before it is seen to drain again" in said) is (says == "water")
    assert ("One does not go with the other" in said) is (says != "")
