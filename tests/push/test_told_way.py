"""What a push has shown hangs on the way that was told: rod that went the other way has shown none of it."""

from __future__ import annotations

import pytest

from tests.push.test_counted import said, seen


@pytest.mark.parametrize(
    ("told", "counted"), [("downstream", True), ("known", True), ("upstream", False), ("unknown", False)]
)
def test_the_counter_counts_only_the_way_that_was_told(told, counted):
    """The drain lies downstream of the cleanout: 10.5 m of counter less 0.5 m down to the line are 10 m."""
    start = ("start", 0.0, {"opening": "yard cleanout", "direction": told, "loadout": "large reel"})
    assert ("Seen: 10 m of the 26 m" in said(start, seen(10.5))) is counted


def test_a_counter_that_ran_on_upstream_does_not_say_that_the_sheet_is_short():
    start = ("start", 0.0, {"opening": "yard cleanout", "direction": "upstream", "loadout": "large reel"})
    assert "draws no more than" not in said(start, seen(40.0))
