"""No text crashes the parser, what is shown reads back, and spacing never changes a value."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.errors import QuantityError
from advisor.quantity import Dimension, Units, parse, parse_stated, show

# Pieces of what people write, so that random texts come near to meaning something.
TOKENS = [
    *"0123456789", "12", "½", "¾", "/", "-", "–", ".", ",", " ", "  ", "'", '"', "°", "%", ":", "^", "²",
    "in", "ft", "mm", "cm", "m", "lb", "N", "m2", "per", " to ", "about ", "level", "deg", "unknown",
]  # fmt: skip
NEARLY = st.lists(st.sampled_from(TOKENS), max_size=12).map("".join)


@given(NEARLY | st.text(max_size=60), st.sampled_from(list(Dimension)))
def test_any_text_is_a_value_in_order_or_refused(text, dimension):
    try:
        stated = parse_stated(text, dimension)
    except QuantityError:
        return
    assert 0 <= stated.low <= stated.likely <= stated.high < 1e15


@given(NEARLY, st.sampled_from(list(Dimension)))
def test_what_has_no_digit_is_no_quantity(text, dimension):
    if not any(sign.isnumeric() for sign in text) and text.strip() != "level":
        with pytest.raises(QuantityError):
            parse_stated(text, dimension)


@given(st.integers(0, 99), st.integers(1, 15), st.sampled_from(["in", '"', " in", " inches"]))
def test_a_dash_a_space_and_a_long_dash_mean_the_same(whole, top, unit):
    texts = [f"{whole}{dash}{top}/16{unit}" for dash in ("-", " ", "–", " - ")]
    # 1 in is 25.4 mm (international yard and pound, 1959).
    assert [parse(text, Dimension.LENGTH) for text in texts] == [(whole * 16 + top) * 254 / 160000] * 4


@given(st.floats(0, 2 * pi), st.sampled_from(list(Units)))
def test_shown_angles_read_back(value, units):
    # Shown to a tenth of a degree.
    assert parse(show(value, Dimension.ANGLE, units), Dimension.ANGLE) == pytest.approx(
        value, abs=0.051 * pi / 180
    )


@given(st.floats(0, 0.9), st.sampled_from(list(Units)))
def test_shown_slopes_read_back(value, units):
    # Inches per foot to an eighth up to 1 in 4, whole percents beyond; tenths of a percent in metric.
    half = 0.00051 if units is Units.METRIC else 1 / 16 / 12 + 1e-9 if value <= 0.25 else 0.0051
    assert parse(show(value, Dimension.SLOPE, units), Dimension.SLOPE) == pytest.approx(value, abs=half)


@given(st.floats(0, 2000), st.sampled_from(list(Units)))
def test_shown_forces_read_back(value, units):
    # A tenth of a newton or pound for small forces, whole ones beyond; 1 lb is 4.448 N.
    half = 0.51 * (4.4483 if units is Units.INCH else 1)
    assert parse(show(value, Dimension.FORCE, units), Dimension.FORCE) == pytest.approx(value, abs=half)


@given(st.floats(0, 1))
def test_shown_shares_read_back(value):
    assert parse(show(value, Dimension.SHARE, Units.INCH), Dimension.SHARE) == pytest.approx(
        value, abs=0.0051
    )


@given(st.floats(0.001, 1000), st.sampled_from([Dimension.STIFFNESS, Dimension.WEIGHT, Dimension.MASS]))
def test_other_values_read_back_to_three_figures(value, dimension):
    shown = show(value, dimension, Units.METRIC)
    assert parse(shown, dimension) == pytest.approx(value, rel=0.0051)
