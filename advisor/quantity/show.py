"""SI numbers shown back in the user's units, rounded to what a hand on a tape can use."""

from __future__ import annotations

from enum import StrEnum
from math import degrees, floor, isinf, log10

from advisor.quantity.units import Dimension

_INCH = 0.0254
_FOOT = 0.3048
_POUND_FORCE = 4.4482216152605


class Units(StrEnum):
    """The two ways in which numbers are shown."""

    INCH = "inch"
    METRIC = "metric"


def show(value: float, dimension: Dimension, units: Units) -> str:
    """The value as text with its unit; lengths under a foot (or a metre) in the smaller unit."""
    if isinf(value):
        return "no limit"
    if dimension is Dimension.LENGTH:
        return _length(value, units)
    if dimension is Dimension.ANGLE:
        return f"{_trim(degrees(value), 1)}°"
    if dimension is Dimension.SLOPE:
        if units is Units.INCH:
            return f"{_eighths(value * 12)} in per ft" if value <= 0.25 else f"{_trim(value * 100, 0)} %"
        return f"{_trim(value * 100, 1)} %"
    if dimension is Dimension.FORCE:
        if units is Units.INCH:
            return f"{_trim(value / _POUND_FORCE, 0 if value > 45 else 1)} lb"
        return f"{_trim(value, 0 if value >= 10 else 1)} N"
    if dimension is Dimension.TIME:
        return f"{_trim(value / 60, 0)} min"
    if dimension is Dimension.SHARE:
        return f"{_trim(value * 100, 0)} %"
    suffix = {Dimension.STIFFNESS: " N m²", Dimension.WEIGHT: " N/m", Dimension.MASS: " kg"}
    places = 2 - floor(log10(abs(value))) if value else 0
    return f"{_trim(value, max(places, 0))}{suffix.get(dimension, '')}"


def _length(value: float, units: Units) -> str:
    size = abs(value)
    if units is Units.METRIC:
        return f"{_trim(value * 1000, 0)} mm" if size < 1.0 else f"{_trim(value, 1)} m"
    if size < 1.5 * _FOOT:
        return f"{_eighths(value / _INCH)} in"
    return f"{_trim(value / _FOOT, 1 if size < 10 * _FOOT else 0)} ft"


def _eighths(value: float) -> str:
    """Inches to the nearest eighth, as 1-1/2: what a tape shows."""
    sign, eighths = ("-", round(-value * 8)) if value < 0 else ("", round(value * 8))
    whole, rest = divmod(eighths, 8)
    if not rest:
        return f"{sign}{whole}"
    bottom = 8
    while rest % 2 == 0:
        rest, bottom = rest // 2, bottom // 2
    return f"{sign}{whole}-{rest}/{bottom}" if whole else f"{sign}{rest}/{bottom}"


def _trim(value: float, places: int) -> str:
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
