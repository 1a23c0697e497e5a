"""Where something is told to be: by the counter, or at the opening itself."""

from __future__ import annotations

from advisor.result.model import PassageNote, SightNote

AT_OPENING = "at the opening"


def at_opening(note: SightNote | PassageNote) -> bool:
    """True for what lies within the opening, before the counter has anything to show."""
    return note.at_high_m <= 0
