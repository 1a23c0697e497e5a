"""Papers, and which a page is set on where nobody asks for another."""

from __future__ import annotations

from advisor.quantity import Units

_INCH, _MM = 72.0, 72 / 25.4  # points
# Width and height in points: ANSI/ASME Y14.1 letter, ISO 216 A4, half a letter.
SIZES = {
    "letter": (8.5 * _INCH, 11 * _INCH),
    "a4": (210 * _MM, 297 * _MM),
    "half": (5.5 * _INCH, 8.5 * _INCH),
}


def usual_paper(units: Units) -> str:
    """The paper on which people print who measure in these units: `a4` or `letter`."""
    return "a4" if units is Units.METRIC else "letter"
