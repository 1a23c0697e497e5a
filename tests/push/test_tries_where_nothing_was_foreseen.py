"""Held where the plan has no hard place: what failed there counts there, and at no other place.

From a trial: two turns of the rod and a stroke had failed, and the far wall stood at 64 % still.
Expected values are Bayes' rule on what one try mends (the limit `usual_mend`): a cause that a try is made
against loses by that against one that it is not. What is made against what is the matrix of techniques.
"""

from __future__ import annotations

import pytest

from advisor.push.held.stuck import stuck
from advisor.push.held_now import held_now
from advisor.push.log.kinds import HELD, PASSED, SIGHTING, STOPPED, TRY
from advisor.push.now.evidence import Tried
from tests.cases.jobs import tables
from tests.push.test_drains import FLOOR_PLUG, walk
from tests.push.test_stuck import course
from tests.terminal.test_now_shown import Told, pushed

TURN, BLOW, STEADY = "turn the rod", "quick push", "steady push"
MENDS = tables().limits["usual_mend"].likely


def chances(*failed: str, rod: float | None = None) -> dict[str, float]:
    tries = [Tried("", each, passed=False, rod=rod) for each in failed]
    found = stuck(course(), None, frozenset({"wall ahead", "springs back"}), tries, 2.0, ())
    return {cause.name: cause.chance for cause in found.causes}


@pytest.mark.parametrize(
    ("failed", "against", "times"),
    [
        ((TURN, TURN), "stopper", 2),  # a trap stays a trap
        ((TURN, TURN), "rim", 0),  # which a turned rod meets elsewhere: both lose alike
        ((BLOW,), "rim", 1),  # a blow on a rim is no try
        ((TURN, TURN, BLOW), "stopper", 3),
        ((STEADY, STEADY), "rim", 0),  # pushed gently as before
    ],
)
def test_what_the_tries_would_have_mended_is_less_likely_by_that(failed, against, times):
    before, after = chances(), chances(*failed)
    ratio = (after["far wall"] / after[against]) / (before["far wall"] / before[against])
    assert ratio == pytest.approx((1 - MENDS) ** times)


def test_what_failed_elsewhere_says_nothing_of_what_holds_it_here():
    assert chances(TURN, BLOW, rod=0.8) == chances()
    assert chances(TURN, BLOW, rod=2.2) == chances(TURN, BLOW), (
        "the same place, drawn back a hand and come again"
    )


def tried(technique: str, outcome: str, at: float) -> Told:
    return TRY, at, {"technique": technique, "spot": "", "outcome": outcome}


def stopped(at: float) -> Told:
    return STOPPED, at, {"sign": "wall ahead", "feel": "springs back"}


def left(*told: Told) -> dict[str, int]:
    found = held_now(pushed(walk(), FLOOR_PLUG, *told, direction="downstream"))
    assert found is not None
    assert not found.spot
    return {each.technique: each.left for each in found.tries}


def test_a_second_place_has_its_own_tries():
    """As many as the table says at each place, whatever was tried at the first."""
    first = (stopped(4.4), tried(TURN, HELD, 4.4), tried(TURN, HELD, 4.4))
    assert TURN not in left(*first)
    then = (tried(BLOW, PASSED, 4.4), (SIGHTING, 6.0, {"what": "nothing"}), stopped(6.4))
    assert left(*first, *then)[TURN] == round(tables().limits["tries, turn the rod"].likely)
