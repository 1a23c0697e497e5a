"""A head that may have run straight across a double fitting: how likely, and what to do."""

from __future__ import annotations

from advisor.push.now.across import across, arm_at
from advisor.push.now.now import Now
from advisor.terminal.page import Page
from advisor.terminal.push.words import Words


def show_across(now: Now, page: Page, words: Words) -> None:
    """It in a line; what to do where it most likely is there and not wanted there.

    Where counter and sheet part, no reading of the sheet is told but the one that fits straight across.
    """
    found = across(now.push.tracker, now.belief)
    if now.apart and not words.unfit:
        page.line(words.apart(now))
    if found is None:
        return
    row, tables = now.push.study.tables.where.across, now.push.study.tables
    page.line(row.says.format(arm=found.arm.name, chance=words.say(min(found.chance, now.fix.most))))
    if found.likely(tables) and not now.push.course.leads_into(found.arm):
        page.strong(row.do)
    if words.unfit:
        at = arm_at(now.push.tracker, found.arm, now.belief.rod)
        told = row.no_fit if at is None else row.fits.format(at=words.length(at), arm=found.arm.name)
        page.line(told.format(arm=found.arm.name))
