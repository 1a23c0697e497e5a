"""Before all else of a push: whether the head and rod that earlier ones left in the pipe are out now."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime

from advisor.push.before.shown_so_far import shown_by
from advisor.push.log.kinds import HAD_OUT, START
from advisor.push.log.log import Entry, Log
from advisor.result.barred import LeftIn
from advisor.result.out import in_from, rod_words
from advisor.result.study import Study
from advisor.terminal.choose import BACK, choose, yes_no
from advisor.terminal.page import Page


def had_out(study: Study, log: Log, page: Page, clock: Callable[[], datetime]) -> bool:
    """Put on the log what is; False where it is left by back.

    Told as out and nothing begun since, it is asked anew, and taken back where it is not: a slip there sends
    the next head on to it.
    """
    standing = log.standing()
    for left, told in _asked(study, standing):
        reading = rod_words(study, left.rod)
        asked = study.tables.in_pipe.left_in.asked.format(
            gear=left.gear, opening=in_from(left), reading=reading
        )
        key = choose(page, asked, yes_no("yes, head and rod", "no, or nobody knows"), (BACK,))
        if key == BACK.key:
            return False
        if key == "y" and told is None:
            log.append(HAD_OUT, None, {"opening": left.opening, "push": float(left.push)}, clock())
        elif key != "y" and told is not None:
            log.undo(told.number, clock())
    return True


def _asked(study: Study, standing: Sequence[Entry]) -> list[tuple[LeftIn, Entry | None]]:
    """Each that stays in there, or was told as out since the last push began, with what told that."""
    began = max((i for i, entry in enumerate(standing) if entry.kind == START), default=0)
    told = {entry.data["push"]: entry for entry in standing[began:] if entry.kind == HAD_OUT}
    before = [entry for entry in standing if entry not in told.values()]
    lie = shown_by(before, study.kit, study.tables).left_in
    return [(left, told.get(float(left.push))) for left in lie]
