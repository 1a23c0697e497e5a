"""What an earlier push told that may hold water back: no fixture above it is run in a later one either.

From a trial: a wad that shut three quarters of the pipe was told, the push ended, and the next,
from another toilet, was to run the bath onto it. Rule of the trade, as within one push: water that is run
above a stoppage comes up at the lowest opening, and only who has seen it drain may run more.
"""

from __future__ import annotations

import pytest

from advisor.push.before.elsewhere import pushes_before
from advisor.push.held.stuck import stuck
from advisor.push.held_now import plight_of
from advisor.push.log.kinds import END, FIND, LOOKED, START, Value
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.now.plight import Plight
from advisor.terminal.page import Page
from advisor.terminal.push.look_first import to_be_seen
from advisor.terminal.push.water import show_check, warn_before_any
from advisor.terminal.push.words import Words
from tests.push.machines import cutter
from tests.push.test_drains import ALL, FLOOR_PLUG, ROOTS, WALL, ran, walk
from tests.push.test_earlier_stop import numbered, read
from tests.push.test_wad_holds_water import WAD
from tests.terminal.test_now_shown import TEE_PLUG, Told, pushed, study_of, tee

SEEN: Told = (FIND, 8.0, {"what": WAD})
OUT: Told = (END, 0.0, {"reached": False, "out": True})
LOOKED_AT: Told = (LOOKED, 1.0, {"drains": True})


def from_(opening: str, direction: str, **more: Value) -> Told:
    return START, 0.0, {"opening": opening, "direction": direction, **more}


DOWN, UP = from_(FLOOR_PLUG, "downstream"), from_(FLOOR_PLUG, "upstream")
YARD = from_("yard cleanout", "upstream")


def after(*told: Told) -> Now:
    """The push that begins last, in a house of which the sheet says that its line drains."""
    entries = numbered(*told)
    last = max(i for i, entry in enumerate(entries) if entry.kind == START)
    push = Push(study_of(walk()), entries[last])
    return Now(push, tuple(entries[last + 1 :]), *pushes_before(push, entries))


@pytest.mark.parametrize("begun", [DOWN, UP, YARD])
@pytest.mark.parametrize(
    ("told", "where"),
    [
        (SEEN, "a push saw at 8 m: wad of wipes"),
        (ROOTS, "a push was stopped at 8 m (roots, scale, grease, waste or an object before it"),
    ],
)
def test_wherever_the_next_goes_in_no_fixture_above_it_is_run(begun, told, where, capsys):
    """8 m down from the plug both lines and the laundry come from behind, whoever looks from where."""
    now = after(DOWN, read(8.0), told, OUT, begun, read(1.0))
    assert now.not_to_run == ALL
    assert now.check is None
    assert to_be_seen(now)
    warn_before_any(now, Page())
    show_check(now, Page(), Words(now), sure=False)
    said = " ".join(capsys.readouterr().out.replace("┃", " ").split())
    says = f"until the line is seen to drain: in from floor plug, downstream, {where}"
    assert f"Run nothing {says}" in said
    assert f"No water test {says}" in said
    assert "tells most" not in said


@pytest.mark.parametrize("told", [WALL, (FIND, 8.0, {"what": "a few wipes on a joint"})])
def test_what_lets_water_by_keeps_nobody_from_running_it(told):
    now = after(DOWN, read(8.0), told, OUT, DOWN, read(1.0))
    assert (now.not_to_run, now.doubtful) == (frozenset(), False)


@pytest.mark.parametrize(
    ("before", "since", "settled"),
    [
        ((), (LOOKED_AT,), True),
        ((), (ran("bath", drains=True, at=1.0),), True),
        ((), (LOOKED_AT, (LOOKED, 2.0, {"drains": False})), False),
        ((), (cutter(11.0, FLOOR_PLUG, "downstream"),), False),  # a machine shows no drain
        ((), (cutter(11.0, FLOOR_PLUG, "downstream"), LOOKED_AT), True),
        ((), (cutter(11.0, FLOOR_PLUG, "downstream", outside=False),), False),
        ((), (cutter(6.0, FLOOR_PLUG, "downstream"),), False),  # it never came there
        ((cutter(11.0, FLOOR_PLUG, "downstream"),), (), False),
        ((cutter(11.0, FLOOR_PLUG, "downstream"), LOOKED_AT), (), True),
        ((LOOKED_AT, cutter(11.0, FLOOR_PLUG, "downstream")), (), False),
        ((LOOKED_AT,), (), False),  # that was then, and something hangs there still
    ],
)
def test_it_ends_as_the_line_is_seen_to_drain_in_this_push_or_it_is_told_as_cleared(before, since, settled):
    now = after(DOWN, read(8.0), SEEN, *before, OUT, YARD, read(1.0), *since)
    assert (not now.held_back) is settled
    assert (not now.not_to_run) is settled


def test_only_what_drains_through_it_is_not_run_and_only_that_shows_it_to_drain():
    """2.5 m up from the plug, below where the laundry joins: the bath runs into the main below both."""
    told = (UP, read(2.5), (FIND, 2.5, {"what": WAD}), OUT, DOWN, read(1.0))
    assert after(*told).not_to_run == {"laundry tub"}
    assert after(*told, ran("bath", drains=True, at=1.0)).not_to_run == {"laundry tub"}
    assert after(*told, ran("laundry tub", drains=True, at=1.0)).not_to_run == frozenset()


def test_it_lies_where_it_was_seen_however_far_on_it_was_told():
    """The laundry joins 4 m up; told with the head past it, the wad at 2.5 m still is in its way."""
    told = (UP, read(2.5), read(5.5), (FIND, 2.5, {"what": WAD}), OUT)
    assert after(*told, DOWN).not_to_run == {"laundry tub"}


@pytest.mark.parametrize(
    ("told", "told_there", "held"),
    [
        ((), (), False),
        ((), (WALL,), False),  # the head's own stop: its signs tell of that
        ((DOWN, read(8.0), SEEN, OUT), (), True),
        ((DOWN, read(8.0), SEEN, OUT), (LOOKED_AT,), False),
        ((), ((FIND, 1.0, {"what": WAD}),), True),  # in this push: as little
        ((), ((FIND, 1.0, {"what": WAD}), LOOKED_AT), False),
    ],
)
def test_a_head_that_is_held_knows_of_what_holds_water_elsewhere(told, told_there, held):
    assert plight_of(after(*told, DOWN, read(1.0), *told_there)).held_back is held


@pytest.mark.parametrize("held_back", [False, True])
def test_no_little_water_behind_a_held_head_where_something_else_may_hold_it(held_back):
    """At the clean wall of a fitting a little water eases the head; onto a wad it comes up."""
    course = pushed(tee(), TEE_PLUG).push.course
    met = next(each for each in course.spots if "sanitary tee" in each.name)
    plight = Plight(held_back=held_back)
    found = stuck(course, met, frozenset({"wall ahead"}), (), 2.0, (), plight)
    first = (
        "No water until you have seen that the line drains" if held_back else "A little water run behind it"
    )
    assert any(step.startswith(first) for step in found.out.steps)
    assert ("water" in dict(found.not_now)) is held_back
