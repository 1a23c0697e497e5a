"""What held a head that then came past is told to a push from another opening that comes to it the same way.

From a trial: the plan said of it "Slowly there: it may hold again", and the push from the other
toilet, down the same drain, never told it as ahead. From its other side a wall or a rim is none.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.push.before.elsewhere import elsewhere, pushes_before
from advisor.push.log.kinds import END, SIGHTING, START, STOPPED, TRY
from advisor.push.log.log import Entry
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.terminal.push.here import show_now
from tests.push.test_report import entries
from tests.push.test_stop_elsewhere import ABOVE
from tests.terminal.test_now_shown import NOON, Told, shown, study_of

__all__ = ["shown"]  # fixture
AT = 3.7  # from the yard plug, which stands 5 m below the top plug: some 8.7 m and an opening's entry there
RIM: Told = (STOPPED, AT, {"sign": "rim ahead", "feel": "dead"})
BY: Told = (TRY, AT, {"technique": "quick push", "outcome": "passed"})
ON: Told = (SIGHTING, 6.0, {"what": "nothing"})
OUT: Told = (END, 6.0, {"reached": False, "out": True})


def from_top(*told: Told, at: float = 1.0) -> Now:
    began: Told = (START, 0.0, {"opening": "yard plug", "direction": "downstream"})
    standing = entries(began, *told, OUT)
    data = {"opening": "top plug", "direction": "downstream"}
    start = Entry(len(standing) + 1, NOON, NOON, START, 0.0, data)
    push = Push(study_of(ABOVE), start)
    read = replace(start, number=start.number + 1, kind=SIGHTING, counter=at, data={"what": "nothing"})
    return Now(push, (read,), others=pushes_before(push, (*standing, start))[1])


@pytest.mark.parametrize("told", [(RIM, BY, ON), (RIM, ON)])
def test_it_is_ahead_by_the_sheets_lengths(told, shown):
    (ahead,) = elsewhere(from_top(*told))
    assert ahead.low < 8.7 + 0.8 < ahead.high
    assert not ahead.stop, "a head came past it: no place that ends a push"
    said = shown(show_now, from_top(*told))
    assert (
        "what held a push that then came past (a rim or step before the lens; it feels dead and hard)" in said
    )
    assert "Gently again, never if it drags." in said


def test_past_it_no_word_of_it():
    assert elsewhere(from_top(RIM, ON, at=12.0)) == ()
