"""What comes first at a stop and the stop itself: in turn, never two opposite orders in one breath.

From a trial: dead and hard at a rim, water tried and failed, and it read "Lean on it gently and
look" and right below "Stop here. Draw back." A rule of the trade, by common practice: leaning on it gently is
the last thing to do before it is left, and nobody leans on it twice for that.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import STOPPED, TRY
from advisor.terminal.push.here import show_now
from advisor.terminal.push.stuck import show_stuck
from tests.push.test_rim_seen import DEAD
from tests.push.test_which_spot import found, in_clay
from tests.terminal.test_now_shown import shown

__all__ = ["shown"]  # fixture
LEAN, STOP, THEN = "Lean on it gently", "Stop here", "Still held after that? Stop here"


def dead_at_a_rim(*failed: str):
    told = ((TRY, 6.0, {"technique": each, "outcome": "stopped"}) for each in failed)
    return in_clay((STOPPED, 6.0, DEAD), *told)


@pytest.mark.parametrize("show", ["stop screen", "screen after it"])
def test_it_is_leant_on_before_it_is_left(shown, show):
    now = dead_at_a_rim("turn the rod", "turn the rod", "water")
    assert found(now).stop
    said = shown(show_now, now) if show == "screen after it" else shown(show_stuck, found(now), now)
    assert LEAN in said.partition(STOP)[0]
    assert THEN in said


def test_once_leant_on_it_is_left(shown):
    now = dead_at_a_rim("steady push", "turn the rod", "turn the rod", "water")
    said = shown(show_stuck, found(now), now)
    assert LEAN not in said
    assert STOP in said
    assert "Still held" not in said


def test_while_a_try_is_left_nothing_is_told_of_a_stop(shown):
    now = dead_at_a_rim()
    said = shown(show_stuck, found(now), now)
    assert LEAN in said
    assert STOP not in said
