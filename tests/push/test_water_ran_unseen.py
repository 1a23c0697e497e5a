"""Water that ran with a try where the line was first to be seen to drain is remarked on with its risk.

From a trial: a gully backed up, the screen said "First see the line drain. Before that no tap.", and that a
trickle was run all the same was taken without a word. Common practice, no source.
"""

from __future__ import annotations

import pytest

from advisor.push.held.all_the_same import ran_unseen
from advisor.push.held_now import plight_of
from tests.push.test_drains import FLOOR_PLUG, UNSURE, walk
from tests.push.test_known_drains import AWAY, UP, push
from tests.terminal.test_now_shown import pushed


def remark(now, water: str | None) -> str | None:
    return ran_unseen(now.push.study, plight_of(now), water)


@pytest.mark.parametrize("water", ["trickle", "running"])
def test_it_is_told_at_once_that_it_may_have_come_up(water):
    said = remark(push(UP), water)
    assert said is not None
    assert "nobody saw the line drain. Shut it." in said
    assert "Look into the lowest fixture now" in said


@pytest.mark.parametrize(
    ("now", "water"),
    [
        (lambda: push(UP), "none"),
        (lambda: push(UP), None),  # nobody knows
        (lambda: push(UP, AWAY), "trickle"),  # it was seen to drain as water ran
        (lambda: pushed(walk(), FLOOR_PLUG, UNSURE), "running"),  # nothing backs up
    ],
)
def test_else_nothing_is(now, water):
    assert remark(now(), water) is None
