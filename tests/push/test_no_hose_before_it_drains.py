"""A report sends no hose into a line that nobody saw drain: water above a stoppage comes up lowest.

From a trial: a gully backed up, wipes and grease hung on a rim and might fill the pipe, nobody had run any
water, and the report said "Flush it clean with a hose" and, further down, that nobody knew whether it drains.
"""

from __future__ import annotations

import pytest

from tests.push.test_report import HOUSE, START, TASK, Told, report, section

RIM: Told = ("find", 9.0, {"what": "step at a joint"})
FULL: Told = ("find", 10.0, {"what": "plug of grease", "open past": "less than a third"})
OUT: Told = ("end", 9.0, {"reached": False})
HOSE, FIRST = "Flush it clean with a hose", "First see the line drain, no hose and no tap before that. "


def ran(drains: bool) -> Told:
    """Water was run, and somebody watched it."""
    return "looked", 9.0, {"drains": drains}


def advised(*told: Told) -> str:
    return section(report(START, *told, OUT, text=HOUSE + TASK), "Recommended")


@pytest.mark.parametrize(
    "told",
    [
        (RIM,),
        (ran(False), RIM),
        (ran(True), RIM, ran(False)),
        (ran(True), RIM, FULL),  # it drained, and something that may hold it back was seen since
    ],
)
def test_no_hose_before_the_line_was_seen_to_drain(told):
    assert FIRST + HOSE in advised(*told)


@pytest.mark.parametrize("told", [(ran(True), RIM), (RIM, ran(True)), (FULL, RIM, ran(True))])
def test_once_it_was_seen_to_drain_the_hose_may_come(told):
    said = advised(*told)
    assert HOSE in said
    assert FIRST not in said


def test_a_look_at_a_line_into_which_nobody_runs_water_shows_no_draining():
    still: Told = ("start", 0.0, {**START[2], "drains": True, "told": "yes, seen to drain just now"})
    said = section(report(still, RIM, OUT, text=HOUSE + TASK), "Recommended")
    assert FIRST + HOSE in said
