"""What people write, read exactly. Sources: the inch (25.4 mm exactly) and pound (0.45359237 kg exactly) of
the international yard and pound agreement of 1959; standard gravity 9.80665 m/s2 (CGPM 1901)."""

from __future__ import annotations

from fractions import Fraction
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.errors import QuantityError
from advisor.quantity import Dimension, Units, parse, parse_stated, show, with_unit

INCH, FOOT = Fraction(254, 10000), Fraction(3048, 10000)
L = Dimension.LENGTH


@pytest.mark.parametrize(
    ("text", "metres"),
    [
        ("1-1/2 in", INCH * Fraction(3, 2)),
        ('1 1/2"', INCH * Fraction(3, 2)),
        ('1½"', INCH * Fraction(3, 2)),
        ("1½ in", INCH * Fraction(3, 2)),
        ("½ inch", INCH / 2),
        ('3/4"', INCH * Fraction(3, 4)),
        ("4 in.", INCH * 4),
        ("12 ft 6 in", FOOT * Fraction(25, 2)),
        ("12'6\"", FOOT * Fraction(25, 2)),
        ("12' 6-1/2\"", FOOT * 12 + INCH * Fraction(13, 2)),
        ("100 mm", Fraction(1, 10)),
        ("0,75 in", INCH * Fraction(3, 4)),
        ("2,5 m", Fraction(5, 2)),
        (".5 in", INCH / 2),
        ("3 yd", FOOT * 9),
        ("1 m 20 cm", Fraction(6, 5)),
        ("12'-6\"", FOOT * Fraction(25, 2)),
        ("12' - 6 1/2\"", FOOT * 12 + INCH * Fraction(13, 2)),
        ("1–1/2 in", INCH * Fraction(3, 2)),
        ("1 3⁄4 in", INCH * Fraction(7, 4)),
        ("12 feet 6 inches", FOOT * Fraction(25, 2)),
        ("5 ft. 3 in.", FOOT * Fraction(21, 4)),
    ],
)
def test_lengths(text, metres):
    assert parse(text, L) == float(metres)


@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [
        ("1/4 in per ft", Dimension.SLOPE, 1 / 48),
        ('1/4"/ft', Dimension.SLOPE, 1 / 48),
        ("2 %", Dimension.SLOPE, 0.02),
        ("2,5 %", Dimension.SLOPE, 0.025),
        ("1:40", Dimension.SLOPE, 1 / 40),
        ("1 in 40", Dimension.SLOPE, 1 / 40),
        ("18 mm/m", Dimension.SLOPE, 0.018),
        ("level", Dimension.SLOPE, 0.0),
        ("45 deg", Dimension.ANGLE, pi / 4),
        ("22½ degrees", Dimension.ANGLE, pi / 8),
        ("90°", Dimension.ANGLE, pi / 2),
        ("20 lb", Dimension.FORCE, 20 * 0.45359237 * 9.80665),
        ("15 min", Dimension.TIME, 900.0),
        ("30 %", Dimension.SHARE, 0.3),
        ("2.4 N m2", Dimension.STIFFNESS, 2.4),
        ("2 gpm", Dimension.FLOW, 2 * 231 * 0.0254**3 / 60),
    ],
)
def test_other_dimensions(text, dimension, value):
    assert parse(text, dimension) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    "text",
    [
        "", " ", "4", "DN100", "3:00", "no", "nan", "inf", "-3 in", "1e9 m", "9**9**9 in", "1/0 in",
        "12.5.3 in", "6 in 12 ft", "1,234 mm", "1 1 in", "12 ft 6", "4 furlongs", "1-3/2 in", "10000 m",
        "4 in in", "in 4", "4 in to", "30 to 20 ft", "x" * 200, "4 lb", "٤ in in",
        "11/2 in", "3/3 in", "5' 13\"", "1.5 ft 6 in", "1/2 ft 3 in", "3-4 in", "20-30 ft", "20–30 ft",
        "4 in - 6 in",
        "2 to 3 ft 6 in", "2 ft to 3", "4\"\"", "2 x 4 in", "4 in dia", "1. in", "6' 2'", "12 ft 6 in 1 yd",
    ],
)  # fmt: skip
def test_refused_with_a_message_that_says_what_to_write(text):
    with pytest.raises(QuantityError, match=r"expected a length such as"):
        parse_stated(text, L)


@pytest.mark.parametrize(
    ("text", "dimension", "why"),
    [
        ("30 m,", L, "the ',' in it is not clear"),
        ("45 deg,", Dimension.ANGLE, "the ',' in it is not clear"),
        ("12 ft, 6 in", L, "the ',' in it is not clear"),
        ("30", L, "a number has no unit"),
        ("-3 m", L, "it is less than zero"),
        ("−3 m", L, "it is less than zero"),
        ("-2 %", Dimension.SLOPE, "it is less than zero"),
        ("in 4", L, "it does not start with a number"),
    ],
)  # fmt: skip
def test_what_is_refused_is_refused_for_what_is_wrong_with_it(text, dimension, why):
    with pytest.raises(QuantityError, match=f": {why}; expected"):
        parse_stated(text, dimension)


def test_ranges_and_roughness():
    stated = parse_stated("20 to 30 ft", L)
    assert (stated.low, stated.high) == (float(FOOT * 20), float(FOOT * 30))
    assert parse_stated("about 20 ft", L).rough
    with pytest.raises(QuantityError):
        parse("20 to 30 ft", L)
    with pytest.raises(QuantityError):
        parse("about 20 ft", L)


@pytest.mark.parametrize(
    ("text", "dimension", "low", "high"),
    [
        ("3/4 to 1 in", L, INCH * Fraction(3, 4), INCH),
        ("about 20 to 30 ft", L, FOOT * 20, FOOT * 30),
        ("2 m to 2 m 50 cm", L, 2, Fraction(5, 2)),
        ("1 to 2 %", Dimension.SLOPE, Fraction(1, 100), Fraction(2, 100)),
        ("1/8 to 1/4 in per ft", Dimension.SLOPE, Fraction(1, 96), Fraction(1, 48)),
        ("1 in 40 to 1 in 60", Dimension.SLOPE, Fraction(1, 60), Fraction(1, 40)),
        ("2 to 3 N m2", Dimension.STIFFNESS, 2, 3),
        ("10 to 30 %", Dimension.SHARE, Fraction(1, 10), Fraction(3, 10)),
    ],
)
def test_both_ends_of_a_range_share_the_unit(text, dimension, low, high):
    stated = parse_stated(text, dimension)
    assert (stated.low, stated.high) == (float(low), float(high))
    assert stated.likely == pytest.approx(float((low + high) / 2), rel=1e-15)


@pytest.mark.parametrize(
    "text", ["2", "1/40", "300 %", "5 m per m", "-2 %", "1:0", "1/4 in per 10 ft", "2 deg", "1 in 40 ft"]
)
def test_slopes_that_are_not_clear_are_refused(text):
    with pytest.raises(QuantityError, match="expected a slope such as"):
        parse(text, Dimension.SLOPE)


def test_a_dash_is_told_how_to_write_it():
    with pytest.raises(QuantityError, match="write a range as `3 to 4 in`"):
        parse("20-30 ft", L)
    with pytest.raises(QuantityError, match="write it as 1-1/2"):
        parse("11/2 in", L)


@given(
    st.integers(0, 200),
    st.integers(0, 11),
    st.sampled_from([0, 1, 2, 3, 4, 5, 6, 7]),
    st.sampled_from(["in", '"']),
)
def test_feet_inches_and_eighths_are_exact(feet, inches, eighths, mark):
    foot = "'" if mark == '"' else " ft "
    fraction = f"-{eighths}/8" if eighths else ""
    text = f"{feet}{foot}{inches}{fraction}{mark}"
    assert parse(text, L) == float(FOOT * feet + INCH * (inches + Fraction(eighths, 8)))


@given(st.floats(0.003, 400, allow_nan=False), st.sampled_from(list(Units)))
def test_shown_lengths_read_back_within_their_rounding(value, units):
    back = parse(show(value, L, units), L)
    rounding = 0.0016 if value < 0.46 else 0.016 if value < 3.1 else 0.16
    assert back == pytest.approx(
        value, abs=rounding if units is Units.INCH else 0.051 if value >= 1 else 0.0006
    )


@pytest.mark.parametrize(
    ("value", "units", "text"),
    [
        (0.0381, Units.INCH, "1-1/2 in"),
        (0.1016, Units.INCH, "4 in"),
        (3.81, Units.INCH, "12 ft"),
        (0.1, Units.METRIC, "100 mm"),
        (12.34, Units.METRIC, "12.3 m"),
    ],
)
def test_shown_as_a_tape_shows_it(value, units, text):
    assert show(value, L, units) == text


@pytest.mark.parametrize(
    ("typed", "told"),
    [("12", "12 ft"), ("3-1/2", "3-1/2 ft"), ("½", "½ ft"), ("about 12", "about 12 ft"),
     ("10 to 12", "10 to 12 ft"), ("12 m", "12 m"), ("12'", "12'"), ("10 to 12 m", "10 to 12 m"),
     ("twelve", "twelve"), ("", ""), ("12 1", "12 1")],
)  # fmt: skip
def test_a_number_alone_gets_the_unit_in_which_it_was_asked_for(typed, told):
    assert with_unit(typed, "ft") == told


def test_a_number_alone_in_feet_is_as_long_as_with_its_unit():
    assert parse(with_unit(" 3-1/2", "ft"), Dimension.LENGTH) == pytest.approx(3.5 * 0.3048)
