"""One exact parser for what people write: 1-1/2 in, 12'6", 0,75 in, 1/4 in per ft, 2 %, 45 deg.

Arithmetic is on fractions, so nothing is lost before the last step. What is not surely understood is
refused with a message that says what to write; nothing is guessed.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from math import pi

from advisor.errors import QuantityError
from advisor.quantity.units import FOOT, LARGEST, UNITS, Dimension, Units, examples

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
_ROUGH = ("about ", "approx ", "roughly ", "~")
# A number and a unit that `20 to 30 ft` may share: no digits in it but the exponent of m2 or in3.
_SHARED_UNIT = re.compile(rf"(?:{_NUMBER.pattern})\s*(?P<unit>[^\d\s.,/-](?:\D*[^\d\s][23]?)?)")
_FEET_DASH = re.compile(r"((?<=\d)\s*(?:['′’]|ft\.?|foot|feet))\s*-\s*(?=\d)")  # 12'-6" on drawings
# 3-4 in may be a range or a slip for 3/4 in: refused, and told how to write it.
_DASHED_RANGE = re.compile(r"(\d)\s*[-–—]\s*(\d+(?:\.\d+)?\s*[^\d\s/])|\s[-–—]\s")


@dataclass(frozen=True)
class Stated:
    """What a sheet says of one quantity, in SI: a range (equal ends: one value), rough if "about".

    `assumed`: nobody saw it; it is taken until somebody knows.
    """

    low: float
    likely: float
    high: float
    rough: bool = False
    assumed: bool = False


def without_assumed(text: str) -> tuple[str, bool]:
    """The text behind the word `assumed`, and whether that word stood before it."""
    found = re.fullmatch(r"assumed(?:\s+(?P<rest>.*))?", text.strip(), re.IGNORECASE | re.DOTALL)
    return (found["rest"] or "", True) if found else (text.strip(), False)


def with_unit(text: str, unit: str) -> str:
    """A number alone, rough or a range, with the unit in which it was asked for; other text as it is."""
    found = re.fullmatch(rf"(?:{'|'.join(_ROUGH)})?(.+)", text.strip(), re.IGNORECASE | re.DOTALL)
    ends = re.split(r"\s+to\s+", found[1]) if found else []
    bare = 0 < len(ends) <= 2 and all(_NUMBER.fullmatch(_vulgar(end)) for end in ends)
    return f"{text.strip()} {unit}" if bare else text


def parse(text: str, dimension: Dimension, units: Units | None = None) -> float:
    """The one value, in SI, that `text` stands for.

    Raises QuantityError, with an example in the `units` of the job, when the text is not surely a quantity of
    that dimension, or is a range.
    """
    stated = parse_stated(text, dimension, units)
    if stated.assumed or stated.rough or stated.low != stated.high:
        raise QuantityError(f"got {text.strip()!r}; expected one value such as {examples(dimension, units)}")
    return stated.likely


@lru_cache(4096)  # a sheet is read again after each answer, and most of it is as it was
def parse_stated(text: str, dimension: Dimension, units: Units | None = None) -> Stated:
    """A value, "about" a value, or a range such as `20 to 30 ft`, in SI; each may be `assumed`.

    Raises QuantityError as `parse` does.
    """
    raw = text.strip()
    told, assumed = without_assumed(raw)
    if assumed:
        return replace(_stated(told, raw, dimension, units), assumed=True)
    return _stated(raw, raw, dimension, units)


def _stated(told: str, raw: str, dimension: Dimension, units: Units | None) -> Stated:
    try:
        if len(raw) > _LONGEST_TEXT:
            raise QuantityError("it is too long to be one quantity")
        words = told.lower()
        rough = False
        for prefix in _ROUGH:
            if words.startswith(prefix):
                rough, words = True, words[len(prefix) :].strip()
        ends = re.split(r"\s+to\s+", words)
        if len(ends) > 2:
            raise QuantityError("it is not one value or one range")
        if len(ends) == 2:
            return _range(ends[0], ends[1], dimension)
        value = float(_one(words, dimension))
        return Stated(value, value, value, rough)
    except QuantityError as fault:
        raise QuantityError(
            f"got {raw!r}: {fault}; expected {_article(dimension)} such as {examples(dimension, units)}"
        ) from None


def _range(first: str, last: str, dimension: Dimension) -> Stated:
    """`20 to 30 ft`: an end without a unit has that of the other end."""
    shared = _SHARED_UNIT.fullmatch(_vulgar(last))
    if shared and _NUMBER.fullmatch(_vulgar(first)):
        first = f"{first} {shared['unit']}"
    low, high = _one(first, dimension), _one(last, dimension)
    if low > high and dimension is Dimension.SLOPE:
        low, high = high, low  # 1:40 to 1:60 runs from steep to gentle
    if low > high:
        raise QuantityError("the range runs backwards")
    return Stated(float(low), float((low + high) / 2), float(high))


def _one(words: str, dimension: Dimension) -> Fraction:
    words = words.strip()
    if stray := re.search(r"[,;](?!\d)", words):
        raise QuantityError(f"the {stray[0]!r} in it is not clear")
    if dimension is Dimension.SLOPE:
        value = _slope(words)
    elif dimension is Dimension.ANGLE:
        value = _angle(words)
    else:
        value = _sum_of_parts(words, dimension)
    largest = LARGEST.get(dimension)
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
    per = re.split(r"\s*(?:/|\bper\b|\ba\b)\s*(?=(?:ft|foot|feet|m|metre|meter)\b)", words)
    if len(per) == 2:
        run = {"f": FOOT, "m": Fraction(1)}[per[1][0]]
        return _sum_of_parts(per[0], Dimension.LENGTH) / run
    raise QuantityError("it is not a slope")


def _angle(words: str) -> Fraction:
    found = re.fullmatch(r"(.+?)\s*(?:°|deg|degs|degree|degrees)", words)
    if not found:
        raise QuantityError("it has no unit of angle")
    return _whole_number(found[1])


def _sum_of_parts(words: str, dimension: Dimension) -> Fraction:
    """Numbers each followed by a unit, largest unit first, as in 12 ft 6 in."""
    units = UNITS[dimension]
    words = _vulgar(words)
    if dimension is Dimension.LENGTH:
        words = _FEET_DASH.sub(r"\1 ", words)
    if _DASHED_RANGE.search(words):
        raise QuantityError("a dash is not clear (write a range as `3 to 4 in`)")
    total, last_unit, last_part, at = Fraction(0), None, Fraction(0), 0
    while at < len(words):
        number, at = _number(words, at)
        unit_text = re.match(r"\s*([^\d\s.,/-][^\d,]*?(?:m2|m\^2|in2|in\^2|m3|m\^3)?)\s*(?=\d|$)", words[at:])
        name = unit_text[1].strip() if unit_text else ""
        at += unit_text.end() if unit_text else 0
        if not name:
            if dimension in (Dimension.SHARE, Dimension.COUNT) and at >= len(words) and not last_unit:
                return number
            raise QuantityError("a number has no unit")
        if name not in units:
            raise QuantityError(f"{name!r} is not a unit of {dimension.value}")
        unit = units[name]
        if last_unit is not None and unit >= last_unit:
            raise QuantityError("its parts do not run from larger to smaller units")
        # 5 ft 13 in and 1.5 ft 6 in are slips: each part but the last is whole, and the next fits in it.
        if last_unit is not None and (last_part.denominator != 1 or number * unit >= last_unit):
            raise QuantityError("its parts do not fit each other")
        last_unit, last_part = unit, number
        total += number * unit
    if last_unit is None:
        raise QuantityError("there is no number in it")
    return total


def _number(words: str, at: int) -> tuple[Fraction, int]:
    found = _NUMBER.match(words, at)
    if not found:
        below = at == 0 and re.match(r"[-–−]\s*[\d.]", words)
        raise QuantityError("it is less than zero" if below else "it does not start with a number")
    if found["bottom"]:
        part = _divided(Fraction(int(found["top"])), Fraction(int(found["bottom"])))
        if part >= 1:
            # 11/2 in is 1-1/2 in with the dash left out as often as it is 5-1/2 in.
            raise QuantityError("its fraction is not smaller than one (write it as 1-1/2)")
        return part + int(found["whole"] or 0), found.end()
    plain = found["plain"]
    # 1,234 may be a decimal comma or a thousands mark: only a leading zero settles it.
    if re.fullmatch(r"[1-9]\d*,\d{3}", plain):
        raise QuantityError("the comma may mean thousands or decimals")
    if words[found.end() : found.end() + 1] in (".", ",", "/") or re.match(r"\d", words[found.end() :]):
        raise QuantityError("the number is not clear")
    return Fraction(plain.replace(",", ".")), found.end()


def _whole_number(words: str) -> Fraction:
    words = _vulgar(words)
    number, end = _number(words, 0)
    if end != len(words):
        raise QuantityError("there is more than one number in it")
    return number


def _vulgar(words: str) -> str:
    """½ as 1/2, and the long dash and slash that a word processor puts in as plain ones."""
    for sign, plain in _VULGAR.items():
        words = words.replace(sign, f" {plain}")
    words = words.replace("⁄", "/").strip()
    return re.sub(r"(?<=\d)\s*[-–]\s*(?=\d+/)", "-", words)


def _article(dimension: Dimension) -> str:
    return f"{'an' if dimension is Dimension.ANGLE else 'a'} {dimension.value}"


def _divided(top: Fraction, bottom: Fraction) -> Fraction:
    if bottom == 0:
        raise QuantityError("it divides by zero")
    return top / bottom
