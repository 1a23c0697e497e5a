"""Which paper a page is set on where nobody asks for another."""

from __future__ import annotations

from advisor.quantity import Units


def usual_paper(units: Units) -> str:
    """The paper on which people print who measure in these units: `a4` or `letter`."""
    return "a4" if units is Units.METRIC else "letter"
