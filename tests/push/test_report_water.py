"""Standing water told beside the opening is a find though nobody logged one, and hides what is under it."""

from __future__ import annotations

import pytest

from advisor.push.report.build import NO_FINDS
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
    assert "What lay under water was not seen" in section(report(START, told), "What was not seen")
    assert "met at 6 m, and where it ended was not told." in section(report(START, told), "What was not seen")
    dry = report(START, ("sighting", 6.0, {"what": "bend"}))
    assert "under water" not in section(dry, "What was not seen")


def test_water_is_told_from_reading_to_reading_and_never_as_a_length():
    """Told at 6 and 8 m, nothing at 9: one water, that ends between 8 and 9 m. Drawn back tells nothing."""
    more: Told = ("stopped", 8.0, {"sign": "water over the lens"})
    back: Told = ("pulled back", 5.0, {})
    free: Told = ("sighting", 9.0, {"what": "nothing"})
    dark: Told = ("sighting", 8.5, {"what": "lens dirty, no picture"})
    made = report(START, POOL, more, back, ("sighting", 5.5, {"what": "nothing"}), dark, free)
    for heading in ("In short", "What was not seen"):
        assert "met at 6 m, and no more at 9 m, the next reading." in section(made, heading)
        assert "met at 8 m" not in section(made, heading)
    # Whoever told at which reading it ended told no chance reading.
    told = report(START, POOL, ("sighting", 8.0, {"what": "nothing", "dry": True}), free)
    assert "met at 6 m, and it ended at 8 m." in section(told, "In short")
    assert "nothing new, the standing water ended there" in text_of(told)
    # What another push did not meet says nothing of where the water of this one ended.
    apart = section(report(START, POOL, START, free), "In short")
    assert "met at 6 m, and where it ended was not told." in apart
