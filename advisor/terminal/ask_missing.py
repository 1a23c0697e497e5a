"""What is missing or wrong in the drain as drawn: what can be asked of it, where to write the rest."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.interview.ask import Ask
from advisor.interview.openings import AT_OPENINGS
from advisor.job.folder import Job
from advisor.terminal.choose import BACK, Choice, choose
from advisor.terminal.page import Page

_ABOUT = {"1": AT_OPENINGS, "2": ("joining", "bend"), "3": ("run", "wall")}
_NOT_DRAWN = "4"


def what_is_wrong(asks: Sequence[Ask], job: Job, page: Page) -> tuple[Ask, ...]:
    """The questions about what is wrong; for what is not drawn at all it is told where to write it."""
    choices = (
        Choice("1", "an opening: is it there, does it open, which kind is it"),
        Choice("2", "a bend, or the fitting where lines join"),
        Choice("3", "a length, or what pipe it is"),
        Choice(_NOT_DRAWN, "a bathroom, a line or an opening is not drawn at all"),
    )
    key = choose(page, "What of the drain is wrong?", choices, (BACK,))
    if key == BACK.key:
        return ()
    if key == _NOT_DRAWN:
        _tell_where(job, page)
        return ()
    found = tuple(ask for ask in asks if ask.subject.about in _ABOUT[key])
    if not found:
        page.line("Nothing of that is open any more. What was answered is changed by its number.")
    return found


def _tell_where(job: Job, page: Page) -> None:
    page.line(f"Go on to the end. Then write it into {job.site}, from the top down as the water runs:")
    for row in (
        "an opening, in the line that it is on:",
        "  - opening: yard cleanout 2",
        "    kind: yard cleanout",
        "where another line joins, in the line that it joins:",
        "  - joined by: back bathroom",
        "that line itself, among the lines:",
        "  - line: back bathroom",
        "    size: 3 in",
        "    pieces:",
        "      - fixture: toilet",
        "        label: back toilet",
        "      - pipe: 10 ft",
    ):
        page.line(row, indent=4)
    page.line(f"Then: advisor ask {job.folder}. It goes on from what stands there; every answer is kept.")
