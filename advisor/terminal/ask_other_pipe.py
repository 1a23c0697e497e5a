"""Other pipe that was just put on the drawing: at once how far off it begins, and what it is."""

from __future__ import annotations

from functools import reduce
from typing import TYPE_CHECKING

from advisor.interview.ask import Ask
from advisor.interview.other_pipe import begun, left_of
from advisor.interview.sheets import Answers
from advisor.interview.store import with_answer

if TYPE_CHECKING:
    from advisor.terminal.ask_session import AskRun


def told_of_other_pipe(run: AskRun, before: Answers, ask: Ask) -> bool:
    """Ask it where the answer to `ask` has drawn any since `before`; False where somebody leaves."""
    drawn = begun(run.session, run.kept.answers, ask.question.id) if run.kept.answers != before else None
    if drawn is None:
        return True
    for key in (drawn.to_it, drawn.material):
        put = run.session.again(run.kept.answers, *key)
        if put is not None and run.put_until_taken(put).leave:
            return False
    left = left_of(run.session, before, run.kept.answers, drawn)
    if left:
        run.drawings.dealt(before, left)
        run.keep(reduce(with_answer, left, run.kept.answers))
        lengths = ", then ".join(each.values[0] for each in left)
        run.page.line(f"Past it, left of the length that was told before: {lengths}.")
    return True
