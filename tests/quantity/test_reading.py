"""A counter shows feet and tenths, or metres: readings by hand, 1 ft = 0.3048 m."""

from __future__ import annotations

import pytest

from advisor.quantity import Units, show_reading


@pytest.mark.parametrize(
    ("metres", "feet", "metric"),
    [
        (0.4413, "1.4 ft", "0.44 m"),  # 17-3/8 in: 17.375 / 12 = 1.448
        (0.1143, "0.4 ft", "0.11 m"),  # 4-1/2 in: 0.375
        (1.1582, "3.8 ft", "1.2 m"),
        (16.46, "54 ft", "16.5 m"),  # 54.003: no finer than the sheet's lengths are told
        (0.0, "0 ft", "0 m"),
    ],
)
def test_one_unit_however_small_the_reading(metres, feet, metric):
    assert show_reading(metres, Units.INCH) == feet
    assert show_reading(metres, Units.METRIC) == metric


def test_more_digits_where_two_readings_would_look_alike():
    assert show_reading(0.4413, Units.INCH, more=1) == "1.45 ft"
