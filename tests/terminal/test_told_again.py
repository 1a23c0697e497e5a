"""A push that is closed and opened again stands where it stood: what it knows of the line moves no place."""

from __future__ import annotations

import numpy as np

from advisor.terminal.push import session
from tests.terminal.test_push_session import BEGIN, job, push
from tests.terminal.test_tank_of_unknown_place import SEPTIC

__all__ = ["job", "push"]  # fixtures


def test_the_place_is_the_same_after_closing_and_opening_again(job, push, monkeypatch):
    """Seen to drain as it began, then stopped: from then on nobody knows that it drains.

    In a wet pipe a turn is passed more often, so that less of a stop speaks for it.
    """
    shown = []
    monkeypatch.setattr(session, "show_now", lambda now, _: shown.append(now))
    unsaid = SEPTIC.replace("holding: no, chemicals: no", "chemicals: no, gas smell: no")
    job.site.write_text(unsaid.replace("1/8 bend", "1/4 bend"))
    push("y" + BEGIN + "r12\rn" + "s46\r" + "10" + "0" + "m" + "q")
    last = shown[-1]
    push("q")
    assert len(shown[-1].entries) == len(last.entries) >= 2
    assert shown[-1].push.study is not last.push.study
    assert np.array_equal(shown[-1].belief.mass, last.belief.mass)
