"""What is told as seen in a report goes round no trap: two plugs and the trap lie at one spot of the sheet.

From a trial: pushed from the street-side plug, "Seen: from house-side plug to 22.6 ft". The water
of the trap never passed the lens. From the trade, and by what the rod went in by.
"""

from __future__ import annotations

import pytest

from tests.push.test_report import Told, report, section
from tests.terminal.test_place_at_trap import HOUSE

DOWN = HOUSE.replace('"house drain"', '"house drain, from street-side plug to public sewer"')
UP = HOUSE.replace('"house drain"', '"house drain, from foot plug to house-side plug"')


@pytest.mark.parametrize(
    ("text", "opening", "direction", "seen", "unseen"),
    [
        (DOWN, "street-side plug", "downstream", "from street-side plug to ", "to public sewer"),
        (UP, "house-side plug", "upstream", " to house-side plug.", "(to foot plug)"),
    ],
)
def test_seen_from_the_plug_that_the_rod_went_in_by(text, opening, direction, seen, unseen):
    start: Told = ("start", 0.0, {"opening": opening, "direction": direction, "loadout": "large reel"})
    end: Told = ("end", 4.0, {"reached": False, "out": True, "why": "no time"})
    short = section(report(start, ("sighting", 4.0, {"what": "nothing"}), end, text=text), "In short")
    other = {"street-side plug": "house-side", "house-side plug": "street-side"}[opening]
    assert seen in short
    assert unseen in short
    assert other not in short


def test_not_seen_is_the_trap_too():
    """From the foot down to before the trap: what is left begins on this side of it."""
    start: Told = ("start", 0.0, {"opening": "foot plug", "direction": "downstream", "loadout": "large reel"})
    end: Told = ("end", 6.0, {"reached": False, "out": True, "why": "the trap"})
    short = section(report(start, ("sighting", 6.0, {"what": "trap"}), end, text=HOUSE), "In short")
    assert "street-side plug" not in short
