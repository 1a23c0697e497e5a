"""A hint to bring the hands closer ends where a push has shown that the free rod does not bow any more."""

from __future__ import annotations

from dataclasses import replace

from advisor.outcome.facts import free_hand, safe
from advisor.practice import acts
from advisor.practice.acts import Act
from advisor.practice.policies import hint
from tests.practice.school import scene_of


def test_what_a_push_showed_of_the_free_rod_goes_before_what_the_plan_feared():
    """The plan counts with the weakest of the rods there may be; the one in hand may be stiffer."""
    study, push = scene_of(1)
    state = push.act(push.start, hint(push, push.start))
    assert state.way is not None
    feared = safe(free_hand(study.drawn, push.truth.believed(state.way).loadout), study.drawn)
    for step in range(300):
        off = feared + 0.005 * step  # m
        if push.truth.bows(state.way, off):
            break
    stands, bows = off - 0.005, off
    assert feared < stands, "a rod that stands though the plan fears for it"

    for off, pushed, wanted in (
        (stands, False, True),  # nothing was seen yet: the careful way
        (stands, True, False),
        (bows, True, True),
    ):
        at = replace(state, hands=off)
        if pushed:
            at = push.act(at, Act(acts.SLOW))
            assert at.way == state.way
            assert not at.ended
        assert (hint(push, at).kind == acts.CLOSER) is wanted, (off, pushed)
    # Moved again, what was seen with the hands elsewhere tells nothing of here.
    moved = push.act(replace(at, hands=2 * stands), Act(acts.CLOSER))
    assert hint(push, moved).kind == acts.CLOSER
