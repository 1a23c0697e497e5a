"""Standing water told beside the opening is a find though nobody logged one, and hides what is under it."""

from __future__ import annotations

import pytest

from advisor.push.report import NO_FINDS
from tests.push.test_report import START, Told, report, section, text_of

POOL: Told = ("sighting", 6.0, {"what": "standing water"})


def test_it_is_told_as_what_it_is_with_what_is_advised():
    made = report(START, POOL)
    assert "Standing water was seen at 6 m. Nobody logged it as a find." in section(made, "In short")
    assert "Standing water was seen at 6 m" in section(made, "Finds")
    advised = section(made, "Recommended")
    # A line that has backed up stands full everywhere, and empties again: a sag is what stays.
    assert "look again. One look at water is no proof of a sag." in advised
    assert "It may have backed up" in advised
    assert "Water stays here" not in advised
    logged = section(report(START, ("find", 6.0, {"what": "belly"})), "Recommended")
    assert "watch. Water stays here." in logged
    assert NO_FINDS not in " ".join(text_of(made).split())


def test_a_find_that_was_logged_there_says_it():
    made = report(START, POOL, ("find", 6.2, {"what": "belly"}))
    assert "Nobody logged it" not in section(made, "In short")


@pytest.mark.parametrize(
    "told",
    [
        POOL,
        ("sighting", 6.0, {"what": "trap"}),
        ("stopped", 6.0, {"sign": "water over the lens"}),
    ],
)
def test_what_was_under_water_is_listed_as_not_seen(told):
    assert "What was under water at 6 m was not seen" in section(report(START, told), "What was not seen")
    dry = report(START, ("sighting", 6.0, {"what": "bend"}))
    assert "under water" not in section(dry, "What was not seen")
