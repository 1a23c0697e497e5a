"""What is not known of what can hurt: nobody has said it, or what was said of it cannot all be."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.result.model import AskNote
from advisor.terminal.page import Page

# What was said is not asked over again: what the place shows counts.
_HEADINGS = ((True, "Said, but it cannot all be", "Look whether"), (False, "Nobody has said", "Ask whether"))


def show_unsettled(asks: Sequence[AskNote], page: Page) -> None:
    """Each hazard with what to find out and what holds if it is there."""
    for doubted, heading, find_out in _HEADINGS:
        notes = [note for note in asks if note.doubted is doubted]
        if notes:
            page.heading(heading)
        for note in notes:
            about, so = " and ".join(note.about), "If not" if note.if_not else "If so"
            told = f"{find_out} {about}. {so}, {note.caution.word.upper()}: {note.caution.text}"
            page.steps([told], mark="-")
