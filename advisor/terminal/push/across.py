"""A head that may have run straight across a double fitting: how likely, and what to do."""

from __future__ import annotations

from advisor.push.across import across
from advisor.push.now import Now
from advisor.terminal.page import Page
from advisor.terminal.push.words import Words


def show_across(now: Now, page: Page, words: Words) -> None:
    """It in a line; what to do where it most likely is there and not wanted there."""
    found = across(now.push.tracker, now.belief)
    if found is None:
        return
    row, tables = now.push.study.tables.where.across, now.push.study.tables
    page.line(row.says.format(arm=found.arm.name, chance=words.say(min(found.chance, now.fix.most))))
    if found.likely(tables) and not now.push.course.leads_into(found.arm):
        page.strong(row.do)
