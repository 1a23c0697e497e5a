"""What is missing or wrong in the drain as drawn: one thing picked by its name, where to write the rest."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import count
from typing import Literal

from advisor.interview.ask import Ask
from advisor.interview.openings import AT_OPENINGS
from advisor.interview.subject import JOB
from advisor.job.folder import Job
from advisor.terminal.choose import BACK, SAVE_AND_LEAVE, Choice, choose, page_of, page_with
from advisor.terminal.page import Page

_NOT_DRAWN, _BY_HAND = "4", "5"
_ABOUT = {
    "1": (*AT_OPENINGS, "pit"),
    "2": ("joining", "bend"),
    "3": ("run", "wall"),
    _NOT_DRAWN: (JOB.about,),
    "6": ("branch",),
}


# An opening, a size and a length as each region writes them.
_EXAMPLES = {
    "north america": ("yard cleanout", "3 in", "10 ft"),
    "britain": ("inspection chamber", "100 mm", "3 m"),
}


_TWO = ("back bathroom", "front bathroom")


def what_is_wrong(job: Job, region: str, page: Page) -> tuple[str, ...] | None:
    """What the questions about it are about; nothing where somebody went back, or where it is for the hand
    and it was told where to write it; None where somebody leaves."""
    choices = (
        Choice("1", "an opening: is it there, does it open, which kind is it"),
        Choice("2", "a bend, or the fitting where lines join"),
        Choice("3", "a length, or what pipe it is"),
        Choice(
            _NOT_DRAWN,
            "what is not drawn: bathroom, kitchen, cleanout, chamber, two plugs, where other pipe begins",
        ),
        Choice(_BY_HAND, "another line, or an opening or other pipe on a side line"),
        Choice("6", "a kitchen, bathroom or other branch that is newer than the house"),
    )
    key = choose(page, "What of the drain is wrong?", choices, (BACK, SAVE_AND_LEAVE))
    if key in (BACK.key, SAVE_AND_LEAVE.key):
        return () if key == BACK.key else None
    if key == _BY_HAND:
        _tell_where(job, region, page)
        return ()
    return _ABOUT[key]


def pick_one(asks: Sequence[Ask], page: Page, last: Ask | None = None) -> Ask | Literal["leave"] | None:
    """The question about the one thing that is picked by its name; nothing where somebody went back, or
    where there is nothing left to tell; or that somebody leaves. It begins at what was picked `last`."""
    if not asks:
        page.line("Nothing of that is open any more. What was answered is changed by its number.")
        return None
    names = [ask.short for ask in asks]
    begin = next((page_with(number) for number, ask in enumerate(asks) if last and ask.key == last.key), 0)
    for number in count(begin):
        choices = page_of(names, number)
        key = choose(page, "Which one?", choices, (BACK, SAVE_AND_LEAVE))
        if key in (BACK.key, SAVE_AND_LEAVE.key):
            return None if key == BACK.key else "leave"
        if key != "m":
            break
    return asks[names.index(next(each.words for each in choices if each.key == key))]


def _tell_where(job: Job, region: str, page: Page) -> None:
    kind, size, length = _EXAMPLES[region]
    page.line("Go on to the end with `yes, go on`: that writes the sheet. Save and leave (l) writes none.")
    page.line(f"Then write it into {job.site}, from the top down as the water runs:")
    for row in (
        "an opening, in the line that it is on:",
        f"  - opening: {kind} 2",
        f"    kind: {kind}",
        "other pipe on a side line, as below a newer kitchen; above it holds the `material` of the line:",
        "  - change: {material: clay}",
        "where another line joins, in the line that it joins:",
        "  - joined by: back bathroom",
        "two that meet in one double fitting, with nothing between them:",
        *(f"  - {{joined by: {each}, fitting: double sanitary tee}}" for each in _TWO),
        "that line itself, among the lines:",
        "  - line: back bathroom",
        f"    size: {size}",
        "    pieces:",
        "      - fixture: toilet",
        "        label: back toilet",
        f"      - pipe: {length}",
    ):
        page.line(row, indent=4)
    page.line(f"Then: advisor ask {job.folder}. It goes on from what stands there; every answer is kept.")
