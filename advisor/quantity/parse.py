"""One exact parser for what people write: 1-1/2 in, 12'6", 0,75 in, 1/4 in per ft, 2 %, 45 deg.

Arithmetic is on fractions, so nothing is lost before the last step. What is not surely understood is
refused with a message that says what to write; nothing is guessed.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from math import pi

from advisor.errors import QuantityError


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


_INCH = Fraction(254, 10000)
_FOOT = 12 * _INCH
_GRAVITY = Fraction(980665, 100000)
_POUND = Fraction(45359237, 100000000)
_GALLON = 231 * _INCH**3

_UNITS: dict[Dimension, dict[str, Fraction]] = {
    Dimension.LENGTH: {
        **dict.fromkeys(("in", "in.", "inch", "inches", '"', "″", "”", "''"), _INCH),
        **dict.fromkeys(("ft", "ft.", "foot", "feet", "'", "′", "’"), _FOOT),
        **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeters"), Fraction(1, 1000)),
        **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeters"), Fraction(1, 100)),
        **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), Fraction(1)),
        **dict.fromkeys(("yd", "yard", "yards"), 3 * _FOOT),
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
        **dict.fromkeys(("lb/ft", "lbf/ft"), _POUND * _GRAVITY / _FOOT),
    },
    Dimension.STIFFNESS: {
        **dict.fromkeys(("n m2", "n m^2", "n·m²", "n m²", "nm2", "nm²"), Fraction(1)),
        **dict.fromkeys(("lb in2", "lb in^2", "lbf in2"), _POUND * _GRAVITY * _INCH**2),
    },
    Dimension.MODULUS: {"pa": Fraction(1), "mpa": Fraction(10**6), "gpa": Fraction(10**9)},
    Dimension.DENSITY: {"kg/m3": Fraction(1), "kg/m^3": Fraction(1), "kg/m³": Fraction(1)},
    Dimension.TIME: {
        **dict.fromkeys(("s", "sec", "second", "seconds"), Fraction(1)),
        **dict.fromkeys(("min", "minute", "minutes"), Fraction(60)),
        **dict.fromkeys(("h", "hour", "hours"), Fraction(3600)),
    },
    Dimension.SPEED: {"m/s": Fraction(1), "ft/s": _FOOT},
    Dimension.FLOW: {
        "m3/s": Fraction(1),
        "l/s": Fraction(1, 1000),
        "l/min": Fraction(1, 60000),
        "gpm": _GALLON / 60,
    },
    Dimension.SHARE: {"%": Fraction(1, 100)},
    Dimension.COUNT: {},
}

_EXAMPLES = {
    Dimension.LENGTH: "4 in, 12 ft 6 in or 100 mm",
    Dimension.ANGLE: "45 deg",
    Dimension.SLOPE: "1/4 in per ft, 2 % or 1:40",
    Dimension.FORCE: "90 N or 20 lb",
    Dimension.MASS: "0.3 kg or 12 oz",
    Dimension.WEIGHT: "0.7 N/m or 70 g/m",
    Dimension.STIFFNESS: "2.4 N m2",
    Dimension.MODULUS: "38 GPa",
    Dimension.DENSITY: "1950 kg/m3",
    Dimension.TIME: "15 min",
    Dimension.SPEED: "1.5 m/s",
    Dimension.FLOW: "0.6 l/s or 2 gpm",
    Dimension.SHARE: "0.3 or 30 %",
    Dimension.COUNT: "3",
}

# Above these a value is a slip of the pen, whatever the sheet is about.
_LARGEST: dict[Dimension, Fraction] = {
    Dimension.LENGTH: Fraction(5000),
    Dimension.ANGLE: Fraction(360),
    Dimension.SLOPE: Fraction(20),
}

_VULGAR = {
    "½": "1/2",
    "⅓": "1/3",
    "⅔": "2/3",
    "¼": "1/4",
    "¾": "3/4",
    "⅕": "1/5",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
_NUMBER = re.compile(
    r"(?:(?P<whole>\d{1,9})(?:\s*-\s*|\s+))?(?P<top>\d{1,6})\s*/\s*(?P<bottom>\d{1,6})"
    r"|(?P<plain>\d{1,9}(?:[.,]\d{1,9})?|\.\d{1,9})"
)
_LONGEST_TEXT = 60


@dataclass(frozen=True)
class Stated:
    """What a sheet says of one quantity, in SI: a range (equal ends: one value), rough if "about"."""

    low: float
    likely: float
    high: float
    rough: bool = False


def parse(text: str, dimension: Dimension) -> float:
    """The one value, in SI, that `text` stands for.

    Raises QuantityError when the text is not surely a quantity of that dimension, or is a range.
    """
    stated = parse_stated(text, dimension)
    if stated.rough or stated.low != stated.high:
        raise QuantityError(f"got {text!r}; expected one value such as {_EXAMPLES[dimension]}")
    return stated.likely


def parse_stated(text: str, dimension: Dimension) -> Stated:
    """A value, "about" a value, or a range such as `20 to 30 ft`, in SI.

    Raises QuantityError as `parse` does.
    """
    raw = text.strip()
    try:
        if len(raw) > _LONGEST_TEXT:
            raise QuantityError("it is too long to be one quantity")
        words = raw.lower()
        rough = False
        for prefix in ("about ", "approx ", "roughly ", "~"):
            if words.startswith(prefix):
                rough, words = True, words[len(prefix) :].strip()
        ends = re.split(r"\s+to\s+", words)
        if len(ends) == 2 and not rough:
            high = _one(ends[1], dimension)
            low = _one(ends[0], dimension, fallback_unit_of=ends[1])
            if low > high:
                raise QuantityError("the range runs backwards")
            return Stated(float(low), float((low + high) / 2), float(high))
        if len(ends) > 1:
            raise QuantityError("it is not one value or one range")
        value = float(_one(words, dimension))
        return Stated(value, value, value, rough)
    except QuantityError as fault:
        raise QuantityError(
            f"got {raw!r}: {fault}; expected a {dimension.value} such as {_EXAMPLES[dimension]}"
        ) from None


def _one(words: str, dimension: Dimension, fallback_unit_of: str = "") -> Fraction:
    words = words.strip()
    if dimension is Dimension.SLOPE:
        value = _slope(words)
    elif dimension is Dimension.ANGLE:
        value = _angle(words)
    else:
        value = _sum_of_parts(words, dimension, fallback_unit_of)
    largest = _LARGEST.get(dimension)
    if largest is not None and value > largest:
        raise QuantityError("it is too large to be true")
    if dimension is Dimension.ANGLE:
        value = value * Fraction(pi) / 180
    return value


def _slope(words: str) -> Fraction:
    if words == "level":
        return Fraction(0)
    ratio = re.fullmatch(r"1\s*(?::|in)\s*(\d{1,4})", words)
    if ratio:
        return _divided(Fraction(1), Fraction(int(ratio[1])))
    if words.endswith("%"):
        return _whole_number(words[:-1].strip()) / 100
    per = re.split(r"\s*(?:/|\bper\b|\bin a\b|\ba\b)\s*(?=(?:ft|foot|feet|m|metre|meter)\b)", words)
    if len(per) == 2:
        run = {"f": _FOOT, "m": Fraction(1)}[per[1][0]]
        return _sum_of_parts(per[0], Dimension.LENGTH) / run
    raise QuantityError("it is not a slope")


def _angle(words: str) -> Fraction:
    found = re.fullmatch(r"(.+?)\s*(?:°|deg|degs|degree|degrees)", words)
    if not found:
        raise QuantityError("it has no unit of angle")
    return _whole_number(found[1])


def _sum_of_parts(words: str, dimension: Dimension, fallback_unit_of: str = "") -> Fraction:
    """Numbers each followed by a unit, largest unit first, as in 12 ft 6 in."""
    units = _UNITS[dimension]
    for sign, plain in _VULGAR.items():
        words = words.replace(sign, f" {plain}")
    words = words.strip()
    total, last_unit, at = Fraction(0), None, 0
    while at < len(words):
        number, at = _number(words, at)
        unit_text = re.match(r"\s*([^\d\s.,/-][^\d,]*?(?:m2|m\^2|in2|in\^2|m3|m\^3)?)\s*(?=\d|$)", words[at:])
        name = unit_text[1].strip() if unit_text else ""
        at += unit_text.end() if unit_text else 0
        if not name and fallback_unit_of:
            name = re.sub(r"^[\d\s.,/½⅓⅔¼¾⅕⅛⅜⅝⅞-]+", "", fallback_unit_of).strip()
        if not name:
            if dimension in (Dimension.SHARE, Dimension.COUNT) and at >= len(words) and not last_unit:
                return number
            raise QuantityError("a number has no unit")
        if name not in units:
            raise QuantityError(f"{name!r} is not a unit of {dimension.value}")
        if last_unit is not None and units[name] >= last_unit:
            raise QuantityError("its parts do not run from larger to smaller units")
        last_unit = units[name]
        total += number * last_unit
    if last_unit is None:
        raise QuantityError("there is no number in it")
    return total


def _number(words: str, at: int) -> tuple[Fraction, int]:
    found = _NUMBER.match(words, at)
    if not found:
        raise QuantityError("it does not start with a number")
    if found["bottom"]:
        part = _divided(Fraction(int(found["top"])), Fraction(int(found["bottom"])))
        if found["whole"] and part >= 1:
            raise QuantityError("its fraction is not smaller than one")
        return part + int(found["whole"] or 0), found.end()
    plain = found["plain"]
    # 1,234 may be a decimal comma or a thousands mark: only a leading zero settles it.
    if re.fullmatch(r"[1-9]\d*,\d{3}", plain):
        raise QuantityError("the comma may mean thousands or decimals")
    if words[found.end() : found.end() + 1] in (".", ",", "/") or re.match(r"\d", words[found.end() :]):
        raise QuantityError("the number is not clear")
    return Fraction(plain.replace(",", ".")), found.end()


def _whole_number(words: str) -> Fraction:
    for sign, plain in _VULGAR.items():
        words = words.replace(sign, f" {plain}")
    number, end = _number(words.strip(), 0)
    if end != len(words.strip()):
        raise QuantityError("there is more than one number in it")
    return number


def _divided(top: Fraction, bottom: Fraction) -> Fraction:
    if bottom == 0:
        raise QuantityError("it divides by zero")
    return top / bottom
