"""A stop of an earlier push of the job lies ahead in the next that goes in there: told as within one push.

From a trial: stopped by roots at 7.6 m, the push ended; minutes later the next one from the same
chamber ran past that reading without a word. Nothing but a machine, or the head itself, takes what held it.
"""

from __future__ import annotations

from datetime import timedelta

import pytest

from advisor.push.before.earlier import earlier
from advisor.push.before.left_stops import left_stops
from advisor.push.held_now import plight_of
from advisor.push.log.kinds import BACK, END, RESET, SIGHTING, START, STOPPED, Value
from advisor.push.log.log import Entry
from advisor.push.met_before import met_before
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.stop_ahead import stop_ahead
from advisor.terminal.page import Page
from advisor.terminal.push.here import show_now
from tests.push.machines import cutter
from tests.push.test_which_spot import CLAY, RIM, ROOTS
from tests.terminal.test_now_shown import NOON, Told, study_of

STOP: Told = (STOPPED, 6.0, ROOTS)
OUT: Told = (END, 5.5, {"reached": False})
FRONT: dict[str, Value] = {
    "opening": "front chamber",
    "direction": "upstream",
    "loadout": "small head on small reel",
}
FROM = ("front chamber", "upstream")


def begun(at: float = 0.0, **other: Value) -> Told:
    return START, at, {**FRONT, **other}


def read(at: float) -> Told:
    return SIGHTING, at, {"what": "nothing"}


def numbered(*told: Told) -> list[Entry]:
    return [Entry(i, NOON + timedelta(seconds=i), NOON, *each) for i, each in enumerate(told, 1)]


def logged(*told: Told, text: str = CLAY) -> Now:
    """The push that begins last, with those before it in the log."""
    entries = numbered(*told)
    last = max(i for i, entry in enumerate(entries) if entry.kind == START)
    push = Push(study_of(text), entries[last])
    return Now(push, tuple(entries[last + 1 :]), earlier(push, entries))


def said(now: Now, capsys) -> str:
    show_now(now, Page())
    return " ".join(capsys.readouterr().out.replace("│", " ").split())


def test_it_is_told_at_the_start_and_in_a_box_near_it(capsys):
    before = (begun(), STOP, OUT, begun())
    first = said(logged(*before), capsys)
    assert "Ahead: in an earlier push it was stopped at 6 m" in first
    assert "Do not go past 6 m." in first
    near = said(logged(*before, read(5.6)), capsys)
    assert "STOP AHEAD" in near
    assert "In an earlier push it was stopped at 6 m" in near


@pytest.mark.parametrize(
    ("told", "box"),
    [
        ((STOPPED, 1.04, ROOTS), "STOP AHEAD"),
        (cutter(1.04, *FROM), "MACHINE ENDED HERE"),
    ],
)
@pytest.mark.parametrize("at", [0.0, 5.0])
def test_slow_from_where_the_lens_is_is_slow_now(told, box, at, capsys):
    """1 m before it one goes slowly: 0.04 m on, where the counter shows what it shows now, it is slow now."""
    text = said(logged(begun(), told, OUT, begun(at)), capsys)
    assert f"Slow from {at:.0f} m" not in text
    assert box in text


def test_pushed_past_it_the_rod_is_said_to_lie_in_those_roots(capsys):
    now = logged(begun(), STOP, OUT, begun(), read(6.4))
    assert plight_of(now).roots == pytest.approx((6.0,))
    assert "ROD IN ROOTS" in said(now, capsys)


@pytest.mark.parametrize(
    "other",
    [begun(opening="yard chamber"), begun(direction="downstream")],
)
def test_from_another_opening_or_the_other_way_it_is_not_ahead(other):
    assert stop_ahead(logged(begun(), STOP, OUT, other)) is None


@pytest.mark.parametrize("direction", ["unknown", "known"])
def test_where_the_way_was_not_told_it_may_be_the_same(direction):
    again = stop_ahead(logged(begun(direction=direction), STOP, OUT, begun()))
    assert again is not None
    assert again.not_past


def test_the_counter_need_not_begin_at_nothing():
    """5 m from the rim, whatever the counter showed there: 6 m at 1 m, then from 0, then set anew at 2 m."""
    assert stop_ahead(logged(begun(1.0), STOP, OUT, begun())).reading == pytest.approx(5.0)
    anew = (RESET, 2.0, {"now": 0.0})
    assert stop_ahead(logged(begun(1.0), STOP, OUT, begun(), read(2.0), anew)).reading == pytest.approx(3.0)


@pytest.mark.parametrize(
    ("since", "passed", "cleared"),
    [
        ((OUT, begun()), False, False),
        ((OUT, begun(), cutter(7.0, *FROM)), False, True),
        ((cutter(7.0, *FROM), OUT, begun()), False, True),
        ((OUT, begun(), cutter(4.0, *FROM)), False, False),
        ((OUT, begun(), cutter(None, *FROM)), False, False),
        # A rod in the pipe, another opening or way, or nobody knows: it settles nothing.
        ((OUT, begun(), cutter(7.0, *FROM, outside=False)), False, False),
        ((OUT, begun(), cutter(7.0, *FROM, outside=None)), False, False),
        ((OUT, begun(), cutter(7.0, "yard chamber", "upstream")), False, False),
        ((OUT, begun(), cutter(7.0, "front chamber", "downstream")), False, False),
        ((OUT, begun(), cutter(7.0, *FROM, opening=None)), False, False),
        ((OUT, begun(), cutter(7.0, *FROM, direction=None)), False, False),
        ((OUT, begun(), read(8.0), OUT, begun()), True, False),
        ((OUT, begun(), read(8.0), (BACK, 4.0, {})), True, False),
        ((OUT, begun(), read(4.0), OUT, begun()), False, False),
    ],
)
def test_what_came_since_counts_in_whichever_push(since, passed, cleared):
    again = stop_ahead(logged(begun(), STOP, *since))
    assert again is not None
    assert (again.earlier, again.passed, again.cleared) == (True, passed, cleared)
    assert again.not_past is not (passed or cleared)


@pytest.mark.parametrize(
    ("since", "told"),
    [
        ((OUT,), True),
        ((), True),
        ((OUT, begun(direction="downstream"), read(8.0)), True),
        ((OUT, begun(), read(8.0)), False),
        ((OUT, begun(), cutter(7.0, *FROM)), False),
    ],
)
def test_every_plan_of_the_job_says_that_it_was_never_passed_till_it_is_passed_or_cut(since, told):
    """Numbers have gaps where entries were taken back."""
    entries = [
        Entry(3 * i, NOON + timedelta(seconds=i), NOON, *each)
        for i, each in enumerate((begun(), STOP, *since), 1)
    ]
    study = study_of(CLAY)
    words = [*left_stops(study, entries), *filter(None, (row.left for row in met_before(study, entries)))]
    assert len(words) == 1
    assert ("never came past" in words[0]) is told
    if told:
        assert words[0].startswith("In from front chamber, upstream, a push was stopped at 6 m (")
        assert "it feels soft" in words[0]


WALL: Told = (STOPPED, 6.0, {"sign": "wall ahead", "feel": "springs back"})
RAN = cutter(7.0, *FROM)


@pytest.mark.parametrize(
    ("stop", "since", "says"),
    [
        (WALL, (read(8.0), OUT, begun(), RAN), "came past. Slowly there: it may hold again."),
        (WALL, (OUT, begun(), RAN), "never came past."),
        ((STOPPED, 6.0, {"feel": "soft"}), (OUT, begun(), RAN), "stubs and loose cuttings stay behind."),
    ],
)
def test_a_machine_is_told_to_have_cleared_no_wall(stop, since, says):
    """From a trial: he turned the rod past the throat of a cleanout, and had roots further in cut
    then. No cutter cures a fitting; of a stop of which nothing was seen nobody knows."""
    (told,) = left_stops(study_of(CLAY), numbered(begun(), stop, *since))
    assert told.endswith(says)


def test_come_to_again_a_wall_is_met_gently_and_not_as_one_that_was_cut(capsys):
    told = said(logged(begun(), WALL, OUT, begun(), RAN, read(5.5)), capsys)
    assert "Gently to 6 m, and look before it." in told
    assert "stubs" not in told


def test_stopped_there_again_it_is_one_stop_with_all_that_was_seen():
    again = stop_ahead(logged(begun(), STOP, OUT, begun(), (STOPPED, 6.1, RIM), (BACK, 5.0, {})))
    assert again is not None
    assert not again.earlier
    assert again.signs == {"blocked", "roots", "soft", "rim ahead"}
    assert again.not_past
