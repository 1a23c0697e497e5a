"""What is small or rare is shown with its unit and never as nothing."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.quantity import Dimension, Units, parse, show, show_tape, show_told

SHOWN = [d for d in Dimension if d not in (Dimension.ANGLE, Dimension.COUNT, Dimension.SHARE)]


@pytest.mark.parametrize(
    ("value", "dimension", "units", "text"),
    [
        (1 / 16 / 12, Dimension.SLOPE, Units.INCH, "1/16 in per ft"),  # the code minimum of large drains
        (0.0254 * 3 / 16, Dimension.LENGTH, Units.INCH, "3/16 in"),
        (0.0254 / 100, Dimension.LENGTH, Units.INCH, "0.01 in"),
        (0.0064, Dimension.LENGTH, Units.METRIC, "6.4 mm"),
        (7.0, Dimension.TIME, Units.METRIC, "7 s"),
        (900.0, Dimension.TIME, Units.METRIC, "15 min"),
        (0.3048, Dimension.SPEED, Units.INCH, "1 ft/s"),  # 1 ft is 0.3048 m (1959)
        (0.45359237, Dimension.MASS, Units.INCH, "1 lb"),  # the pound of 1959
        (0.0003785411784, Dimension.FLOW, Units.INCH, "6 gpm"),  # the gallon of 231 cubic inches
        (38e9, Dimension.MODULUS, Units.METRIC, "38 GPa"),
        (1950.0, Dimension.DENSITY, Units.METRIC, "1950 kg/m³"),
    ],
)
def test_shown_with_its_unit(value, dimension, units, text):
    assert show(value, dimension, units) == text


@given(st.floats(0.02, 900), st.sampled_from(SHOWN), st.sampled_from(list(Units)))
def test_nothing_is_shown_as_nothing(value, dimension, units):
    scale = {Dimension.MODULUS: 1e9, Dimension.FLOW: 1e-4, Dimension.SLOPE: 1e-3, Dimension.TIME: 60}
    exact = value * scale.get(dimension, 1.0)
    # The coarsest steps: a tenth of a pound, half a minute, an eighth of an inch, a tenth of a percent.
    step = {Dimension.FORCE: 2.3, Dimension.TIME: 30.0, Dimension.LENGTH: 0.16, Dimension.SLOPE: 0.0053}
    back = parse(show(exact, dimension, units), dimension)
    assert back > 0 or dimension in (Dimension.FORCE, Dimension.SLOPE)
    assert back == pytest.approx(exact, rel=0.0051, abs=step.get(dimension, 0.0))


def test_a_slope_may_be_said_with_a():
    assert parse("1/4 in a ft", Dimension.SLOPE) == parse("1/4 in per ft", Dimension.SLOPE)


@pytest.mark.parametrize(
    ("typed", "units", "text"),
    [
        ("0.28 in", Units.INCH, "0.28 in"),  # no part of an inch: on a tape it would be 9/32 or 1/4
        ("5/32 in", Units.INCH, "5/32 in"),
        ("5/64 in", Units.INCH, "5/64 in"),
        ("1-3/16 in", Units.INCH, "1-3/16 in"),
        ("18.5 in", Units.INCH, "18-1/2 in"),
        ("2 ft", Units.INCH, "24 in"),
        ("100 ft", Units.INCH, "100 ft"),
        ("65.5 ft", Units.INCH, "65.5 ft"),
        ("25.4 mm", Units.INCH, "1 in"),
        ("42.5 mm", Units.METRIC, "42.5 mm"),
        ("5/32 in", Units.METRIC, "3.97 mm"),  # 5 x 25.4 / 32 = 3.96875
        ("33.5 m", Units.METRIC, "33.5 m"),
    ],
)
def test_what_was_told_is_shown_as_exact_as_it_was(typed, units, text):
    assert show_told(parse(typed, Dimension.LENGTH), Dimension.LENGTH, units) == text


@given(st.floats(0.001, 300), st.sampled_from(list(Units)))
def test_a_told_length_is_never_misstated(metres, units):
    """Within half a thousandth of an inch, or half a hundredth of the unit that is shown."""
    shown = parse(show_told(metres, Dimension.LENGTH, units), Dimension.LENGTH)
    fine = {Units.INCH: 0.00051 * 0.0254, Units.METRIC: 0.0051e-3}[units]
    coarse = {Units.INCH: 0.0051 * 0.3048, Units.METRIC: 0.0051}[units]
    assert shown == pytest.approx(
        metres, rel=1e-9, abs=fine if metres < (0.9144, 1)[units == "metric"] else coarse
    )


@pytest.mark.parametrize(
    ("typed", "units", "text"),
    [
        ("5 ft 3 in", Units.INCH, "5 ft 3 in"),
        ("5 ft", Units.INCH, "5 ft"),
        ("12 ft 7-1/2 in", Units.INCH, "12 ft 7-1/2 in"),
        ("11.9 in", Units.INCH, "1 ft"),  # to the half inch
        ("9 in", Units.INCH, "9 in"),
        ("0 in", Units.INCH, "0 in"),
        ("1.62 m", Units.METRIC, "1.62 m"),
        ("0.9 m", Units.METRIC, "900 mm"),
    ],
)
def test_a_tape_reads_in_feet_and_inches(typed, units, text):
    assert show_tape(parse(typed, Dimension.LENGTH), units) == text


def test_a_told_pull_keeps_its_half_pound():
    assert show_told(parse("72.5 lb", Dimension.FORCE), Dimension.FORCE, Units.INCH) == "72.5 lb"
    assert show_told(12.5, Dimension.FORCE, Units.METRIC) == "12.5 N"
    assert show_told(0.04, Dimension.STIFFNESS, Units.METRIC) == "0.04 N m²"
