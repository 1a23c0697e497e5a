"""What is small or rare is shown with its unit and never as nothing."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.quantity import Dimension, Units, parse, show

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
