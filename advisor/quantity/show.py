"""SI numbers shown back in the user's units, rounded to what a hand on a tape can use."""

from __future__ import annotations

from math import degrees, floor, isinf, log10

from advisor.quantity.units import Dimension, Units

_INCH = 0.0254
_FOOT = 0.3048
_POUND = 0.45359237
_POUND_FORCE = _POUND * 9.80665
_GALLON = 231 * _INCH**3
_FINEST, _SAME = 64, 0.0005  # parts of an inch in which rods are sold; inches that nobody measures apart


# What is shown to three figures: the unit's name and its size in SI.
_PLAIN: dict[Units, dict[Dimension, tuple[str, float]]] = {
    Units.METRIC: {
        Dimension.STIFFNESS: (" N m²", 1.0),
        Dimension.WEIGHT: (" N/m", 1.0),
        Dimension.MASS: (" kg", 1.0),
        Dimension.MODULUS: (" GPa", 1e9),
        Dimension.DENSITY: (" kg/m³", 1.0),
        Dimension.SPEED: (" m/s", 1.0),
        Dimension.FLOW: (" l/s", 1e-3),
    },
    Units.INCH: {
        Dimension.STIFFNESS: (" lb in²", _POUND_FORCE * _INCH**2),
        Dimension.WEIGHT: (" lb/ft", _POUND_FORCE / _FOOT),
        Dimension.MASS: (" lb", _POUND),
        Dimension.MODULUS: (" GPa", 1e9),
        Dimension.DENSITY: (" kg/m³", 1.0),
        Dimension.SPEED: (" ft/s", _FOOT),
        Dimension.FLOW: (" gpm", _GALLON / 60),
    },
}


def show(value: float, dimension: Dimension, units: Units, more: int = 0) -> str:
    """The value as text with its unit; lengths under a foot (or a metre) in the smaller unit.

    Lengths and forces get `more` digits than they usually have.
    """
    if isinf(value):
        return "no limit"
    if dimension is Dimension.LENGTH:
        return _length(value, units, more)
    if dimension is Dimension.ANGLE:
        return f"{_trim(degrees(value), 1)}°"
    if dimension is Dimension.SLOPE:
        if units is Units.INCH:
            return f"{_fraction(value * 12)} in per ft" if value <= 0.25 else f"{_trim(value * 100, 0)} %"
        return f"{_trim(value * 100, 1)} %"
    if dimension is Dimension.FORCE:
        if units is Units.INCH:
            return f"{_trim(value / _POUND_FORCE, more + (0 if value > 45 else 1))} lb"
        return f"{_trim(value, more + (0 if value >= 10 else 1))} N"
    if dimension is Dimension.TIME:
        return f"{_trim(value, 0)} s" if value < 60 else f"{_trim(value / 60, 0)} min"
    if dimension is Dimension.SHARE:
        return f"{_trim(value * 100, 0)} %"
    name, size = _PLAIN[units].get(dimension, ("", 1.0))
    return f"{_three_figures(value / size)}{name}"


def never_certain(chance: float) -> float:
    """A chance as it is told in hundredths: none is certain but 0, of what is ruled out."""
    return min(max(chance, 0.01), 0.99) if chance else 0.0


def show_told(value: float, dimension: Dimension, units: Units) -> str:
    """A value that somebody told, as exact as it was told; `show` rounds to what a tape is read to."""
    if dimension is Dimension.LENGTH:
        return _told_length(value, units)
    if dimension is Dimension.FORCE:
        unit, size = ("lb", _POUND_FORCE) if units is Units.INCH else ("N", 1.0)
        return f"{_three_figures(value / size)} {unit}"
    return show(value, dimension, units)


def show_tape(metres: float, units: Units, parts: int = 2) -> str:
    """A length above ground (m) as a tape reads it: feet and inches, to the nearest of so many parts of an
    inch, or to the centimetre."""
    if units is Units.METRIC:
        return f"{_trim(metres, 2)} m" if abs(metres) >= 1.0 else f"{_trim(metres * 1000, 0)} mm"
    feet, rest = divmod(round(metres / _INCH * parts), 12 * parts)
    inches = f"{_mixed(rest / parts, parts)} in"
    if not feet:
        return inches
    return f"{feet} ft {inches}" if rest else f"{feet} ft"


def show_counter(metres: float, units: Units, places: int = 2) -> str:
    """A reading of the counter (m) in the one unit in which it counts: to a tenth of a foot, or of a metre to
    so many `places`."""
    shown = f"{_trim(metres / _FOOT, 1)} ft" if units is Units.INCH else f"{_trim(metres, places)} m"
    return _reading(shown)


def _reading(shown: str) -> str:
    """Less than nothing is a place behind the one where the counter was set anew."""
    return f"{shown[1:]} before the counter's 0" if shown.startswith("-") else shown


def show_reading(metres: float, units: Units, more: int = 0) -> str:
    """Where the counter will stand (m), in the one unit in which it counts and no finer than `show` tells it.

    It gets `more` digits than it usually has.
    """
    if units is Units.INCH:
        return _reading(f"{_trim(metres / _FOOT, more + (1 if abs(metres) < 10 * _FOOT else 0))} ft")
    return _reading(f"{_trim(metres, more + (2 if abs(metres) < 1.0 else 1))} m")


def _told_length(value: float, units: Units) -> str:
    if units is Units.METRIC:
        return f"{_trim(value * 1000, 2)} mm" if abs(value) < 1.0 else f"{_trim(value, 2)} m"
    if abs(value) >= 3 * _FOOT:
        return f"{_trim(value / _FOOT, 2)} ft"
    inches = value / _INCH
    on_a_tape = abs(inches * _FINEST - round(inches * _FINEST)) / _FINEST <= _SAME
    return f"{_mixed(inches, _FINEST) if on_a_tape else _trim(inches, 3)} in"


def _length(value: float, units: Units, more: int) -> str:
    size = abs(value)
    if units is Units.METRIC:
        if size < 0.010:
            return f"{_trim(value * 1000, 1 + more)} mm"
        return f"{_trim(value * 1000, more)} mm" if size < 1.0 else f"{_trim(value, 1 + more)} m"
    if size < 1.5 * _FOOT:
        return f"{_trim(value / _INCH, 1 + more) if more else _fraction(value / _INCH)} in"
    return f"{_trim(value / _FOOT, more + (1 if size < 10 * _FOOT else 0))} ft"


def _fraction(value: float) -> str:
    """Inches as a tape shows them, 1-1/2: to the eighth, under half an inch to the thirty-second."""
    size = abs(value)
    if 0 < size < 1 / 32:
        return _trim(value, 3)
    return _mixed(value, 8 if size >= 0.5 else 32)


def _mixed(value: float, parts: int) -> str:
    """To the nearest of so many parts, as a mixed fraction in its lowest terms."""
    sign = "-" if value < 0 else ""
    whole, rest = divmod(round(abs(value) * parts), parts)
    if not rest:
        return f"{sign}{whole}"
    while rest % 2 == 0:
        rest, parts = rest // 2, parts // 2
    return f"{sign}{whole}-{rest}/{parts}" if whole else f"{sign}{rest}/{parts}"


def _three_figures(value: float) -> str:
    if value == 0:
        return "0"
    places = max(2 - floor(log10(abs(value))), 0)
    return _trim(value, places)


def _trim(value: float, places: int) -> str:
    text = f"{value:.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text
