"""Rod went in while the picture stood: the stop lies where it came to stand, else from the last reading.

The house drain of the sheet lies half a metre below its cleanout: by the counter all comes so much later.
"""

from __future__ import annotations

import numpy as np
import pytest

import tests.terminal.test_push_session as sitting
from advisor.push.log.sighting import Read, Still
from advisor.push.report.log_words import told_words
from advisor.quantity import Units
from tests.cases.jobs import tables
from tests.push.sites import UNKNOWN, WALK, tracker_on
from tests.push.test_report import START, Told, entries, report, section
from tests.push.test_track import DOWN
from tests.terminal.test_push_answers import standing
from tests.terminal.test_push_session import BEGIN, ESC

job, push = sitting.job, sitting.push  # fixtures
READ: Told = ("sighting", 9.0, {"what": "nothing"})


def still(**more: object) -> Told:
    return ("stopped", 12.0, {"sign": "blocked, roots, picture still", **more})


@pytest.mark.parametrize(("stood", "rod", "slack"), [(11.0, 11.0, 1.0), (12.0, 12.0, 0.0), (None, 9.0, 3.0)])
def test_the_head_is_where_the_picture_came_to_stand(stood, rod, slack):
    tracker = tracker_on(WALK, "floor plug", intent=UNKNOWN)
    before = tracker.replay([*DOWN, Read(9.0)])
    after = tracker.after(before, Still(12.0, stood))
    assert (after.rod, after.slack) == (pytest.approx(rod), pytest.approx(slack))
    read = before if stood is None else tracker.after(before, Read(stood))
    assert np.allclose(after.mass, read.mass)


def test_a_reading_before_the_last_one_moves_nothing_back():
    tracker = tracker_on(WALK, "floor plug", intent=UNKNOWN)
    before = tracker.replay([*DOWN, Read(9.0)])
    assert tracker.after(before, Still(12.0, 8.0)).rod == pytest.approx(9.0)


@pytest.mark.parametrize(("more", "metres"), [({"stood": 11.5}, "11 m"), ({}, "8.5 m")])
def test_the_report_counts_to_where_it_came_to_stand(more, metres):
    told = section(report(START, READ, still(**more)), "In short")
    assert f"Seen: {metres} of the 26 m of house drain" in told


@pytest.mark.parametrize(
    ("before", "more", "place"),
    [
        ((READ,), {"stood": 11.5}, "at 11.5 m"),
        ((READ,), {}, "somewhere from 9 m on"),
        ((), {}, "somewhere from 0 m on"),
        ((READ, ("pulled back", 7.0, {})), {}, "somewhere from 7 m on"),
    ],
)
def test_the_place_of_the_stop_is_its_own_reading_or_from_the_last_one_on(before, more, place):
    made = report(START, *before, still(**more))
    for heading in ("In short", "Finds", "Recommended"):
        assert f"The head was stopped {place}: " in section(made, heading)
    # What is told to hold it has advice of its own; where nothing is, a new opening is what is left.
    assert "new opening here" not in section(made, "Recommended")
    untold = report(START, *before, still(sign="picture still", **more))
    assert f"Stopped {place} by the counter: new opening here." in section(untold, "Recommended")
    unknown = f"The picture stood {place} while the counter ran to 12 m"
    assert (unknown in section(made, "What was not seen")) is not more


def test_a_try_there_ends_at_the_same_place_and_set_anew_it_is_told_from_the_opening_on():
    failed: Told = ("try", 12.0, {"technique": "turn the rod", "outcome": "stopped"})
    assert "Stopped somewhere from 9 m on by the counter" in section(
        report(START, READ, still(sign="picture still"), failed), "Recommended"
    )
    anew: tuple[Told, ...] = (READ, ("counter reset", 9.0, {"now": 0.0}))
    late: Told = ("stopped", 3.0, {"sign": "blocked, picture still", "stood": 2.0})
    assert "stopped at 11 m in (counter 2 m, set anew on the way)" in section(
        report(START, *anew, late), "In short"
    )


def test_the_log_tells_it():
    (stop,) = entries(still(stood=11.5))
    assert "the picture stood from 11.5 m on" in told_words(stop, Units.METRIC, tables().stuck)


FOOT = 0.3048


@pytest.mark.parametrize(
    ("keys", "stood"),
    [
        ("600" + "38\r", 38 * FOOT),
        ("600" + "\r", None),  # nobody knows
        ("600" + "44\r" + "38\r", 38 * FOOT),  # more than it shows now
        ("600" + ESC + "600" + "37\r", 37 * FOOT),  # back from the reading to the signs
    ],
)
def test_it_is_asked_beside_the_opening(job, push, keys, stood):
    said = push(BEGIN + "s41\r" + keys + "m" + "q")
    (stop,) = (entry for entry in standing(job) if entry.kind == "stopped")
    assert stop.data.get("stood") == (None if stood is None else pytest.approx(stood))
    assert ("That is more than it shows now, 41 ft." in said) is ("44" in keys)


def test_it_is_not_asked_where_the_picture_did_not_stand(job, push):
    push(BEGIN + "s41\r" + "100" + "m" + "q")
    (stop,) = (entry for entry in standing(job) if entry.kind == "stopped")
    assert stop.data == {"sign": "wall ahead"}


def test_what_was_offered_after_a_stop_does_not_hide_that_the_push_ended_there():
    """Beside the opening the program keeps what it offered right after each stop that may be tried at."""
    stop: Told = ("stopped", 12.0, {"feel": "soft"})
    offered: Told = ("offered", 12.0, {"technique": "turn the rod"})
    assert "Stopped at 12 m by the counter" in section(report(START, READ, stop, offered), "Recommended")
