"""Before all else of a push: whether the head and rod that earlier ones left in the pipe are out now."""

from __future__ import annotations

from advisor.result.barred import LeftIn
from advisor.result.out import rod_words
from advisor.result.study import Study
from advisor.terminal.choose import BACK, choose, yes_no
from advisor.terminal.page import Page


def had_out(study: Study, page: Page) -> tuple[LeftIn, ...] | None:
    """Those that are; None where it is left by back."""
    out = []
    for left in study.barred.left:
        reading = rod_words(study, left.rod)
        asked = study.tables.stuck.left_in.asked.format(gear=left.gear, opening=left.opening, reading=reading)
        key = choose(page, asked, yes_no("yes, head and rod", "no, or nobody knows"), (BACK,))
        if key == BACK.key:
            return None
        if key == "y":
            out.append(left)
    return tuple(out)
