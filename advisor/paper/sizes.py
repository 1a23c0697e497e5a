"""Papers, and which a page is set on where nobody asks for another."""

from __future__ import annotations

_INCH, _MM = 72.0, 72 / 25.4  # points
# Width and height in points: ANSI/ASME Y14.1 letter, ISO 216 A4, half a letter.
SIZES = {
    "letter": (8.5 * _INCH, 11 * _INCH),
    "a4": (210 * _MM, 297 * _MM),
    "half": (5.5 * _INCH, 8.5 * _INCH),
}


def usual_paper(region: str) -> str:
    """The paper that printers hold in a region: `letter` in North America, `a4` elsewhere."""
    return "letter" if region == "north america" else "a4"
