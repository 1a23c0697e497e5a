"""A number that is typed: in which unit where none is typed, and whether it is meant where it is unusual."""

from __future__ import annotations

from advisor.quantity import Dimension, Units, show
from advisor.terminal.choose import choose, yes_no
from advisor.terminal.page import Page

ALONG = {Units.INCH: "ft", Units.METRIC: "m"}  # lengths along a drain or a rod
ACROSS = {Units.INCH: "in", Units.METRIC: "mm"}  # sizes


def meant(page: Page, typed: str, usual: tuple[float, float] | None, where: str, units: Units) -> bool:
    """Whether a length for which `usual` (m) are told is right; a slip of the pen would turn the plan."""
    if usual is None:
        return True
    low, high = (show(end, Dimension.LENGTH, units) for end in usual)
    asked = f"{f'{low} to' if usual[0] else 'Up to'} {high} would be usual {where}. Is {typed} right?"
    return choose(page, asked, yes_no(f"yes, {typed}")) == "y"
