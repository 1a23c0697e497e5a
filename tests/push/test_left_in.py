"""A head that stays in the pipe lies where it was read last, not where it was held before.

By the log alone: whoever digs goes by it. The readings expected are those that were told.
"""

from __future__ import annotations

import pytest

from tests.push.test_report import HOUSE, START, TASK, report, section

ROOTS = ("stopped", 6.0, {"sign": "picture still, blocked, roots", "stood": 5.8})
PASSED = ("try", 6.0, {"technique": "quick push", "outcome": "passed"})
READ = ("sighting", 10.5, {"what": "trap"})


def stays(at: float, **more: object):
    return ("end", at, {"reached": False, "out": False, **more})


@pytest.mark.parametrize(
    ("told", "place"),
    [
        ((ROOTS, PASSED, READ, stays(10.5)), "at 10.5 m"),
        ((ROOTS, PASSED, READ, stays(11.0)), "at 11 m"),  # told at the end
        ((ROOTS, PASSED, READ, ("pulled back", 9.0, {}), stays(9.0)), "at 9 m"),
        ((("sighting", 8.0, {"what": "nothing"}), stays(8.0)), "at 8 m"),
        ((ROOTS, stays(6.0)), "at 5.8 m"),  # there the picture stood while the counter ran to 6 m
        ((READ, ("stopped", 12.0, {"sign": "picture still"}), stays(12.0)), "somewhere from 10.5 m on"),
        ((READ, ("counter reset", 10.5, {"now": 0.0}), stays(1.0)), "at 11.5 m in (counter 1 m"),
        ((stays(0.0),), "at an unknown reading"),
    ],
)
def test_it_lies_where_it_was_read_last(told, place):
    first = section(report(START, *told), "In short")
    assert f"still in the pipe, in from yard cleanout, {place}" in first


def test_how_far_the_rod_stays_in_tells_nothing_seen():
    """The lens may have gone there under water or dirt: 11 m told at the end show no more of the pipe."""
    seen = [section(report(START, READ, stays(at)), "What was not seen") for at in (10.5, 12.0)]
    assert seen[0] == seen[1]


def test_no_tool_is_advised_where_a_head_lies():
    """A cutter that is run on to a rod winds it up: what is in the pipe comes out first."""
    held = ("stopped", 6.0, {"sign": "blocked, roots"})
    advised = section(report(START, held, stays(6.0)), "Recommended")
    assert advised.startswith("First the head and rod have to come out.")
    assert "once head and rod are out, clean. Roots held the head here." in advised
    out = section(report(START, held, ("end", 6.0, {"reached": False, "out": True})), "Recommended")
    assert "out, clean" not in out
    assert "have to come out" not in out


def test_a_pipe_that_bears_no_cutter_is_named_before_roots_are_to_be_cut():
    fibre = HOUSE.replace("size: 4 in\n", "size: 4 in\n    material: pitch fibre\n") + TASK
    found = ("find", 6.0, {"what": "roots"})
    advised = section(report(START, found, text=fibre), "Recommended")
    assert advised.startswith(
        "First see what the pipe is made of. NOTICE, in from yard cleanout: The pipe at "
    )
    assert advised.index("No jet, no cutter.") < advised.index("Have the roots cut")
    assert "pitch fibre" not in section(report(START, found), "Recommended")
