"""The units that people write for each dimension, exact in SI, with an example and the largest true value."""

from __future__ import annotations

from enum import StrEnum
from fractions import Fraction


class Dimension(StrEnum):
    """What kind of quantity a text stands for; values come back in the SI unit named here."""

    LENGTH = "length"  # m
    ANGLE = "angle"  # rad
    SLOPE = "slope"  # rise over run
    FORCE = "force"  # N
    MASS = "mass"  # kg
    WEIGHT = "weight"  # N/m
    STIFFNESS = "stiffness"  # N m^2
    MODULUS = "modulus"  # Pa
    DENSITY = "density"  # kg/m^3
    TIME = "time"  # s
    SPEED = "speed"  # m/s
    FLOW = "flow"  # m^3/s
    SHARE = "share"  # of one
    COUNT = "count"  # a bare number


class Units(StrEnum):
    """The two ways in which numbers are shown, and in which an example is given."""

    INCH = "inch"
    METRIC = "metric"


_INCH = Fraction(254, 10000)
FOOT = 12 * _INCH
MINUTE = 60.0  # s
_GRAVITY = Fraction(980665, 100000)
_POUND = Fraction(45359237, 100000000)
_GALLON = 231 * _INCH**3

UNITS: dict[Dimension, dict[str, Fraction]] = {
    Dimension.LENGTH: {
        **dict.fromkeys(("in", "in.", "inch", "inches", '"', "″", "”", "''"), _INCH),
        **dict.fromkeys(("ft", "ft.", "foot", "feet", "'", "′", "’"), FOOT),
        **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeters"), Fraction(1, 1000)),
        **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeters"), Fraction(1, 100)),
        **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), Fraction(1)),
        **dict.fromkeys(("yd", "yard", "yards"), 3 * FOOT),
    },
    Dimension.FORCE: {
        "n": Fraction(1),
        "kn": Fraction(1000),
        "kgf": _GRAVITY,
        **dict.fromkeys(("lb", "lbs", "lbf", "pound", "pounds"), _POUND * _GRAVITY),
    },
    Dimension.MASS: {
        "kg": Fraction(1),
        **dict.fromkeys(("g", "gram", "grams"), Fraction(1, 1000)),
        **dict.fromkeys(("lb", "lbs", "pound", "pounds"), _POUND),
        **dict.fromkeys(("oz", "ounce", "ounces"), _POUND / 16),
    },
    Dimension.WEIGHT: {
        "n/m": Fraction(1),
        "kg/m": _GRAVITY,
        "g/m": _GRAVITY / 1000,
        **dict.fromkeys(("lb/ft", "lbf/ft"), _POUND * _GRAVITY / FOOT),
        "oz/ft": _POUND / 16 * _GRAVITY / FOOT,
    },
    Dimension.STIFFNESS: {
        **dict.fromkeys(("n m2", "n m^2", "n·m²", "n m²", "nm2", "nm²"), Fraction(1)),
        **dict.fromkeys(("lb in2", "lb in^2", "lb in²", "lbf in2"), _POUND * _GRAVITY * _INCH**2),
    },
    Dimension.MODULUS: {"pa": Fraction(1), "mpa": Fraction(10**6), "gpa": Fraction(10**9)},
    Dimension.DENSITY: {"kg/m3": Fraction(1), "kg/m^3": Fraction(1), "kg/m³": Fraction(1)},
    Dimension.TIME: {
        **dict.fromkeys(("s", "sec", "second", "seconds"), Fraction(1)),
        **dict.fromkeys(("min", "minute", "minutes"), Fraction(60)),
        **dict.fromkeys(("h", "hour", "hours"), Fraction(3600)),
    },
    Dimension.SPEED: {"m/s": Fraction(1), "ft/s": FOOT},
    Dimension.FLOW: {
        "m3/s": Fraction(1),
        "l/s": Fraction(1, 1000),
        "l/min": Fraction(1, 60000),
        "gpm": _GALLON / 60,
    },
    Dimension.SHARE: {"%": Fraction(1, 100)},
    Dimension.COUNT: {},
}

# What may be written, by those who reckon in inches and by the others.
_EXAMPLES: dict[Dimension, tuple[tuple[str, ...], tuple[str, ...]]] = {
    Dimension.LENGTH: (("12 ft 6 in", "4 in"), ("3.8 m", "100 mm")),
    Dimension.ANGLE: (("45 deg",), ("45 deg",)),
    Dimension.SLOPE: (("1/4 in per ft", "2 %"), ("1:40", "2 %")),
    Dimension.FORCE: (("20 lb",), ("90 N",)),
    Dimension.MASS: (("12 oz",), ("0.3 kg",)),
    Dimension.WEIGHT: (("0.05 lb/ft",), ("0.7 N/m", "70 g/m")),
    Dimension.STIFFNESS: (("2.4 N m2",), ("2.4 N m2",)),
    Dimension.MODULUS: (("38 GPa",), ("38 GPa",)),
    Dimension.DENSITY: (("1950 kg/m3",), ("1950 kg/m3",)),
    Dimension.TIME: (("15 min",), ("15 min",)),
    Dimension.SPEED: (("1.5 m/s",), ("1.5 m/s",)),
    Dimension.FLOW: (("2 gpm",), ("0.6 l/s",)),
    Dimension.SHARE: (("0.3", "30 %"), ("0.3", "30 %")),
    Dimension.COUNT: (("3",), ("3",)),
}


def examples(dimension: Dimension, units: Units | None = None) -> str:
    """What may be written, in the units of the job; in both where those are not known."""
    inch, metric = _EXAMPLES[dimension]
    shown = {Units.INCH: inch, Units.METRIC: metric, None: tuple(dict.fromkeys((*inch, *metric)))}[units]
    return " or ".join(filter(None, (", ".join(shown[:-1]), shown[-1])))


# Above these a value is a slip of the pen, whatever the sheet is about.
LARGEST: dict[Dimension, Fraction] = {
    Dimension.LENGTH: Fraction(5000),
    Dimension.ANGLE: Fraction(360),
    Dimension.SLOPE: Fraction(1),
}
