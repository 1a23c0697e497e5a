"""An end that is told as reached against counter and sheet holds nothing: lengths by hand.

The house drain of the sheet is 26 m, the yard cleanout stands half a metre above its upper end.
"""

from __future__ import annotations

import pytest

from tests.push.test_report import START, Told, report, section
from tests.push.test_report_never_passed import BACK_UP, BOTH, DOWN, HELD, OUT


def read(counter: float, what: str = "nothing") -> Told:
    return ("sighting", counter, {"what": what})


def ended(counter: float) -> Told:
    return ("end", counter, {"reached": True})


@pytest.mark.parametrize(
    ("told", "believed"),
    [
        ([START, read(14.0)], False),
        ([START, read(23.0)], False),
        ([START, read(23.0, "chamber")], True),  # seen to end there: it is the sheet that is off
        ([START, read(24.5)], True),  # no further short than counter and sheet may part
        ([START, read(26.5), ("pulled back", 5.0, {})], True),
        # What an earlier push has seen need not be seen again: up from the street 6.5 m were left.
        ([DOWN, read(20.0), OUT, BACK_UP, read(8.0)], True),
        ([DOWN, read(20.0), OUT, BACK_UP, read(3.0)], False),
        # All of it was seen before: this one came a third of the way all the same.
        ([DOWN, read(27.0, "chamber"), OUT, BACK_UP, read(8.0)], False),
    ],
)
def test_the_word_that_the_end_was_reached_is_set_against_counter_and_sheet(told, believed):
    made = report(*told, ended(told[-1][1]), text=BOTH)
    row = section(made, "Pushes")
    assert ("told as target reached, by counter and sheet unlikely (" not in row) == believed, row
    assert "target reached" in row


def test_such_a_word_takes_no_stop_back():
    """Held 19.5 m down the line, and 3 m up from its lower end: what lies between nobody saw."""
    from_below: Told = ("stopped", 3.0, {"sign": "object"})
    told = section(report(DOWN, HELD, OUT, BACK_UP, from_below, ended(3.0), text=BOTH), "In short")
    assert "what lies between where the head was stopped from either side" in told


def test_a_head_held_where_the_end_is_told_against_counter_and_sheet_is_told_as_held():
    made = report(START, ("stopped", 14.0, {"sign": "wall ahead"}), ended(14.0))
    assert "Stopped at 14 m by the counter: new cleanout here" in section(made, "Recommended")
