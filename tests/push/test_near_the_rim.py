"""Nothing draws a head out of the pipe that is to be looked from: where the opening is nearer than the draw
back, that is said, and what to do instead. From a trial: held 7 in in, told to draw back more.

By hand: from elbow to fingertips a grown person measures about 18 in (0.45 m), a hand across is about 4 in
(0.1 m), a run-up is about a foot (0.3 m): from memory. Whoever is further in has that much pipe.
"""

from __future__ import annotations

import pytest

from advisor.push.held.stuck import stuck
from tests.push.test_stuck import course, met

FAR = "Draw back a forearm's length and look: what holds it is not clear."
NEAR = "The opening is nearer than a forearm's length. Draw back only until the lens stands just inside it"
HAND = "The opening is nearer than a hand's breadth. Draw back only until the head is loose, not out."


@pytest.mark.parametrize(
    ("at", "near"), [(0.05, True), (0.18, True), (0.4, True), (0.5, False), (2.0, False)]
)
def test_where_it_is_not_clear_what_holds_it_no_further_than_the_opening(at, near):
    (first,) = stuck(course(), None, frozenset(), [], at, ()).first
    assert first.startswith(NEAR if near else FAR)
    assert first.endswith("what holds it is not clear.")


@pytest.mark.parametrize(("at", "near"), [(0.08, True), (0.18, False)])
def test_at_a_hard_stop_the_hand_has_room_too(at, near):
    first = stuck(course(), None, frozenset({"dead"}), [], at, ()).first
    assert (HAND in first) is near
    assert any(step.startswith("Draw back a hand's breadth") for step in first) is not near


@pytest.mark.parametrize(("at", "room"), [(0.18, False), (2.0, True)])
def test_no_run_up_where_it_would_come_out(at, room):
    """Where the plan has no hard place as well: a wall ahead calls for a stroke, which backs off a foot."""
    found = stuck(course(), None, frozenset({"wall ahead", "springs back"}), [], at, ())
    assert ("quick push" in {each.technique for each in found.tries}) is room
    barred = dict(found.not_now).get("quick push", "")
    assert ("would draw it out of the pipe" in barred) is not room


@pytest.mark.parametrize("spot", [True, False])
def test_who_turns_the_rod_draws_back_clear_of_the_fitting_and_never_out(spot):
    at, signs = (met(course()), frozenset[str]()) if spot else (None, frozenset({"rim ahead"}))
    tries = stuck(course(), at, signs, [], 0.18, ()).tries
    (turn,) = (each for each in tries if each.technique == "turn the rod")
    (back,) = (step for step in turn.steps if step.startswith("Draw back"))
    assert "never out" in back
