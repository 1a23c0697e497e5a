"""What nobody does in roots or through them is none in practice either, whether or not the plan foresaw them.

As beside the opening: no string drawn and no rod turned through roots, no blow into them. Common practice.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from advisor.practice import acts, signs
from advisor.practice.acts import Act, State
from advisor.practice.debrief import debrief
from advisor.practice.picture import picture
from advisor.practice.policies import as_planned, hint, moves_ahead, spot_ahead
from advisor.practice.simulate import Push
from advisor.practice.values import LEAVE, Moves
from tests.practice.school import school
from tests.practice.test_fits_the_case import TEE

IN_CLAY = (
    TEE.replace("built: 1970", "built: 1930")
    .replace(
        "3 in\n    material: PVC\n    condition: sound", "3 in\n    material: clay\n    condition: roots"
    )
    .replace("pipe: 2 m", "pipe: 6 m")
    .replace(
        "look at: main}",
        "look at: 'main, from branch to far sewer', complaint: {holding: no, chemicals: no}}",
    )
)
ROOTED, AT_TEE = 1, 2  # the passages of the branch


@cache
def pushed(rooted: bool) -> tuple[Push, State]:
    """At the tee, in a world whose branch has roots or none; all that can pass passes, nothing is lost."""
    study = school().studied(IN_CLAY, "site", 1, 60)
    for number in range(study.worlds):
        push = Push(study, number)
        push.truth.luck = lambda *key: 0.0 if key[-1] == "passes" else 1.0  # type: ignore[method-assign]
        way = next(each for each in push.ways() if each[0].startswith("branch") and each[1] == "small reel")
        if push.truth.roots_passed(way, AT_TEE) is not rooted:
            continue
        state = push.act(push.start, Act(acts.OPEN, way))
        while Act(acts.CLOSER) in push.legal(state):
            state = push.act(state, Act(acts.CLOSER))
        while state.way and not state.ended and not state.died and state.shown != AT_TEE:
            before, state = state, push.act(state, Act(acts.SLOW))
            if (before.index, before.shown) == (state.index, state.shown):
                break
        able = push.truth.tries(way, AT_TEE, push.truth.push(way, state.hands, firm=False))[1]
        if state.shown == AT_TEE and able["string"].chance[0] > 0 and able["turn the rod"].chance[0] > 0:
            return push, state
    raise AssertionError("no such world among so many")


def last_word(push: Push, state: State):
    end = push.act(state, Act(acts.GIVE_UP))
    return next(each for each in debrief(push, end) if each.did.startswith(("pulled", "turned", "made")))


@pytest.mark.parametrize("rooted", [False, True])
def test_a_string_passes_no_roots_on_the_way(rooted):
    push, state = pushed(rooted)
    after = push.act(state, Act(acts.STRING))
    assert (after.index > AT_TEE) is not rooted
    assert ("The cord is caught in them." in after.steps[-1].seen.said) is rooted
    assert ("no try here: The cord is caught" in " ".join(last_word(push, after).why)) is rooted


@pytest.mark.parametrize("foreseen", [True, False])
def test_the_rod_turned_through_roots_is_told_as_luck(foreseen, monkeypatch):
    push, state = pushed(True)
    if not foreseen:
        monkeypatch.setattr("advisor.practice.debrief.spot_ahead", lambda *_: None)
    after = push.act(state, Act(acts.TURN))
    assert after.index > AT_TEE
    made = last_word(push, after)
    assert "passed this time, by luck" in " ".join(made.why)
    assert "winds them round" in " ".join(made.why)
    assert made.graded is foreseen


@pytest.mark.parametrize("foreseen", [True, False])
def test_a_blow_into_roots_that_the_lens_shows_fails_whatever_it_would_save(foreseen, monkeypatch):
    push, state = pushed(True)
    if not foreseen:
        monkeypatch.setattr("advisor.practice.debrief.spot_ahead", lambda *_: None)
    at = replace(state, index=ROOTED, shown=ROOTED)
    monkeypatch.setattr(push, "start", at)
    (made, *_) = debrief(push, push.act(replace(at, steps=()), Act(acts.QUICK)))
    assert made.unsafe is not None
    assert made.unsafe.id == "wedged-head"


@pytest.mark.parametrize("foreseen", [True, False])
@pytest.mark.parametrize(("kind", "harms"), [(acts.FIRM, True), (acts.SLOW, False)])
def test_leaning_on_roots_that_the_lens_shows_fails_and_a_gentle_push_does_not(
    kind, harms, foreseen, monkeypatch
):
    """As the rules have it: gently, and only while they part; never ram it, never lean on it."""
    push, state = pushed(True)
    if not foreseen:
        monkeypatch.setattr("advisor.practice.debrief.spot_ahead", lambda *_: None)
    at = replace(state, index=ROOTED, shown=ROOTED)
    monkeypatch.setattr(push, "start", at)
    act = next(each for each in push.legal(at) if each.kind == kind)
    made = debrief(push, push.act(replace(at, steps=()), act))
    assert any(each.unsafe is not None and each.unsafe.id == "wedged-head" for each in made) is harms
    assert ("as long as the roots part" in " ".join(made[0].why) if made else False) is harms


def test_neither_plan_nor_hint_leads_through_roots_that_were_seen(monkeypatch):
    push, state = pushed(True)
    found = moves_ahead(push, state)
    assert found is not None
    stay = Moves(tuple(move for move in found.moves if move.name != LEAVE))
    monkeypatch.setattr("advisor.practice.policies.moves_ahead", lambda *_: stay)
    spot = spot_ahead(push, state)
    assert spot is not None
    assert "turn the rod" in {name for name, _ in spot.order}, "the plan, to whom nobody showed the roots"
    for policy in (as_planned, hint):
        at, told = state, set()
        while (act := policy(push, at)).kind in acts.TRY_OF:
            told.add(acts.TRY_OF[act.kind])
            at = replace(at, tries=(*at.tries, (AT_TEE, acts.TRY_OF[act.kind])))
        assert told
        assert not told & {"string", "turn the rod"}


@pytest.mark.parametrize("rooted", [False, True])
def test_at_roots_one_stops_and_sees_them_and_where_there_are_none_one_goes_on(rooted):
    """The plan has roots there as a hard place: in the world without any there is nothing to stop at."""
    push, state = pushed(rooted)
    assert ROOTED in [spot.index for spot in push.truth.believed(state.way).spots]
    stopped = [s.seen for s in state.steps if s.seen.said.startswith("You come to something")]
    assert [each.ahead for each in stopped] == ["roots", "crossing"][not rooted :]
    assert not [each for each in stopped if "Open pipe" in each.lens]


def test_what_is_far_ahead_is_open_pipe_to_the_lens_until_it_is_near():
    """The branch joins 6 m in, by the sheet: from 1 m no light carries to it, from 5.6 m it does."""
    push, state = pushed(False)
    far, near = (replace(state, shown=-1, counter=counter) for counter in (1.0, 5.6))
    assert [signs.view(push.truth, each) for each in (far, near)] == ["straight", "crossing"]
    assert signs.lens(push.truth, far) == "Open pipe ahead."


@pytest.mark.parametrize(("fits", "stops"), [(1.5, False), (0.9, True)])
def test_behind_the_opening_one_stops_at_what_is_there_and_not_at_what_the_plan_foresaw(
    fits, stops, monkeypatch
):
    """Open pipe behind the opening is no thing that is come to, though the plan takes it for narrow."""
    push, state = pushed(False)
    force = push.truth.push(state.way, state.hands, firm=False)
    spot, tries = push.truth.tries(state.way, 0, force)
    assert spot.shape.passage.step is not None
    here = replace(spot, shape=replace(spot.shape, fits=np.full(1, fits)))
    monkeypatch.setattr(push.truth, "tries", lambda *_: (here, tries))
    monkeypatch.setattr(push, "_believed_hard", {state.way: frozenset({0})})
    assert push.stops_before(state.way, 0, force) is stops


def test_a_run_too_narrow_for_the_head_is_seen_to_be_narrow():
    """Bore over head of 1 or less: no head goes in, and no lens shows that as open pipe."""
    push, state = pushed(False)
    run = push.truth.outcome(state.way).geometries[ROOTED]
    pictures = [signs.there(replace(run, fits=np.full(1, fits))) for fits in (1.5, 0.9)]
    assert pictures == ["straight", "narrow"]
    assert picture("narrow") not in ((), picture("straight"))
