"""What a report says of a find that the head came past: what lies behind it was seen.

From a trial: a lump that filled half the bore at 8.2 m, the head past it to the chamber at 8.9 m, all of it
seen, and "What lies under and behind it has not been seen" stood first under what is recommended.
"""

from __future__ import annotations

import pytest

from tests.push.test_marks import advice
from tests.push.test_report import START, report, section

LUMP = ("find", 6.0, {"what": "lump of wipes and grease, half the bore"})
UNDER, BEHIND = "What lies under it has not been seen.", "What lies under and behind it has not been seen."


def seen(at: float, what: str = "nothing"):
    return "sighting", at, {"what": what}


@pytest.mark.parametrize(
    ("then", "came_past"),
    [
        ((), False),
        ((seen(6.3),), False),  # the lens is hardly past it: by the table finds so near are of one place
        ((seen(6.7),), True),
        ((seen(6.7, "standing water"),), False),  # a lens under water sees nothing
        ((("pulled back", 3.0, {}), seen(6.7)), False),  # the rod may have gone in another way
        ((("pulled back", 3.0, {}),), False),
        ((("stopped", 6.7, {}),), False),  # nobody said what was to be seen there
    ],
)
def test_behind_it_was_seen_where_the_lens_came_past_it(then, came_past):
    told = section(report(START, LUMP, *then), "Recommended")
    assert (UNDER in told, BEHIND in told) == (came_past, not came_past)


def test_told_from_further_in_it_lies_behind_the_lens():
    told = section(report(START, seen(7.0), LUMP), "Recommended")
    assert UNDER in told


def test_what_is_said_of_it_then_holds_every_caution_of_before():
    """What goes is that nothing behind it was seen, no more."""
    rows = [row for row in advice().finds.finds if row.came_past]
    assert rows
    for row in rows:
        gone = [each for each in row.says.split(". ") if each not in row.came_past]
        assert len(gone) == 1, row.find
        assert "has not been seen" in gone[0]
        kept = gone[0].split(", and what lies")[0].split("What lies")[0]
        assert kept in row.came_past


def test_whatever_says_that_nothing_behind_was_seen_says_it_otherwise_once_it_was():
    for row in advice().finds.finds:
        assert bool(row.came_past) == ("behind" in row.says and "has not been seen" in row.says), row.find
