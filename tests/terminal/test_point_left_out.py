"""A reading with its point left out, 62 ft for 6.2 ft, is asked about before the place is told by it."""

from __future__ import annotations

import pytest

import tests.terminal.test_push_session as session
from tests.terminal.test_push_session import BEGIN, FOOT, told

job, push = session.job, session.push  # fixtures


@pytest.mark.parametrize(
    ("keys", "asked", "read"),
    [
        ("r62\rn" + "6.2\re", True, [1.5, 6.2]),
        ("r62\ry" + "e", True, [1.5, 62]),
        ("r39\re", False, [1.5, 39]),
    ],
)
def test_it_is_asked_about_once(job, push, keys, asked, read):
    """60.5 ft on are 18.4 m. 37.5 ft are 11.4: so far a head may well run in open pipe with nothing told."""
    said = push(BEGIN + "r1.5\re" + keys + "q")
    assert ("62 ft is far ahead of 1.5 ft, told last" in said) is asked
    assert [at / FOOT for kind, at in told(job) if kind == "sighting"] == pytest.approx(read)


def test_further_in_as_much_is_no_ten_times(job, push):
    """From 17 ft on to 60 ft a point left out would be a step back."""
    assert "far ahead" not in push(BEGIN + "r17\rn" + "r60\re" + "q")


def test_the_first_reading_of_all_has_nothing_to_be_ten_times_of(job, push):
    assert "far ahead" not in push(BEGIN + "r50\re" + "q")
