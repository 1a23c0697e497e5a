"""A head that was stopped and came no further shows nothing of what lies behind: trade rule, sums by hand.

The house drain of the sheet is 26 m; the yard cleanout stands half a metre above it.
"""

from __future__ import annotations

import pytest

from tests.push.test_report import HOUSE, START, TASK, Told, report, section

# The far end is an opening too, so that a push can come from either side.
BOTH = (
    (HOUSE + TASK)
    .replace(
        "      - end: public sewer\n",
        "      - opening: street chamber\n        kind: inspection chamber\n        depth: 1 m\n"
        "      - pipe: 5 m\n      - end: public sewer\n",
        1,
    )
    .replace("look at: house drain", "look at: house drain, from yard cleanout to street chamber")
)
HELD: Told = ("stopped", 20.0, {"sign": "object", "feel": "dead and hard"})
OUT: Told = ("end", 20.0, {"reached": False})
PAST: Told = ("try", 20.0, {"technique": "steady push", "outcome": "passed"})
BACK_UP: Told = ("start", 0.0, {"opening": "street chamber", "direction": "upstream"})
AGAIN: Told = ("stopped", 12.0, {"sign": "object", "feel": "dead and hard"})
DOWN: Told = ("start", 0.0, {"opening": "yard cleanout", "direction": "downstream"})


@pytest.mark.parametrize("heading", ["In short", "What was not seen"])
def test_stops_from_both_sides_leave_a_stretch_though_rod_and_sheet_add_up(heading):
    """19.5 m from above and, a chamber down, 9 m or more from below are over 26 m: the sheet is short."""
    told = section(report(DOWN, HELD, OUT, BACK_UP, AGAIN, text=BOTH), heading)
    assert "Not all of house drain was seen" in told
    assert "as much rod went in as there is pipe" in told
    where = "The head was stopped 20 m in from yard cleanout and 12 m in from street chamber"
    assert f"what lies between where the head was stopped from either side. {where}" in told
    assert "Seen: 26 m of the 26 m" not in told


def test_so_does_one_stop_that_the_other_push_came_near():
    told = section(
        report(DOWN, HELD, OUT, BACK_UP, ("sighting", 8.0, {"what": "nothing"}), text=BOTH), "In short"
    )
    assert (
        "what lies beyond where the head was stopped. The head was stopped 20 m in from yard cleanout" in told
    )


@pytest.mark.parametrize(
    "later",
    [
        [
            ("try", 20.0, {"technique": "steady push", "outcome": "passed"}),
            ("sighting", 30.0, {"what": "end"}),
        ],
        [OUT, DOWN, ("sighting", 30.0, {"what": "nothing"})],
        [OUT, BACK_UP, ("sighting", 40.0, {"what": "nothing"})],
        [OUT, BACK_UP, ("sighting", 26.0, {"what": "end"}), ("end", 26.0, {"reached": True})],
    ],
)
def test_what_was_passed_after_all_holds_nothing_back(later):
    told = section(report(DOWN, HELD, *later, text=BOTH), "In short")
    assert "Not all of house drain" not in told
    assert "what lies" not in told


def test_a_stop_beyond_what_was_to_be_seen_takes_nothing_from_it():
    far: Told = ("stopped", 31.0, {"sign": "object"})
    told = section(report(START, far, text=BOTH), "In short")
    assert "Not all of house drain" not in told


# The way to the laundry line is a guess: by the sheet it may come as far in as 16.5 m.
GUESSED = (
    (HOUSE + TASK)
    .replace("      - pipe: 10 m\n", "      - pipe: assumed 6 to 16 m\n", 1)
    .replace("look at: house drain", "look at: house drain, from yard cleanout to laundry line")
)
AT_LAUNDRY: Told = ("sighting", 9.0, {"what": "tie-in", "clock": 3.0})


@pytest.mark.parametrize(("met", "held"), [([AT_LAUNDRY], False), ([], True)])
def test_a_stop_past_where_the_end_was_read_takes_nothing_from_it_whatever_a_guess_allows(met, held):
    told = section(report(DOWN, *met, ("stopped", 13.0, {"sign": "object"}), text=GUESSED), "In short")
    assert ("The head was stopped on the way" in told) == held, told
    assert ("what lies beyond where the head was stopped" in told) == held


def test_what_lay_under_water_stands_beside_what_counts_as_seen():
    told = section(report(START, ("sighting", 6.0, {"what": "standing water"})), "In short")
    assert "What lay under water was not seen: met at 6 m, and where it ended was not told." in told
