"""In a pipe that does not turn no far wall holds a head, and what is pushed gently passes as that does.

At a change of size the head meets a rim: common practice, no source. A rod whose curl is turned and that is
then pushed gently is pushed gently: arithmetic. Of a bend no branch is told.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from advisor.outcome.attempts import BLOW, STEADY, STRING, TURN
from advisor.practice import acts, signs
from advisor.practice.acts import Act, State
from advisor.practice.debrief import debrief
from advisor.practice.simulate import Push
from tests.cases.hazards import run, site
from tests.practice.school import school
from tests.practice.test_roots_bar import pushed

TO_SMALLER = site(
    run(
        "kind: end cleanout, opens: yes",
        "pipe: 3 m",
        "change: {kind: drain, size: 3 in, material: PVC}",
        "pipe: 6 m",
        size="4 in",
        material="PVC",
        condition="sound",
    ),
    "run",
)


@pytest.fixture(scope="module")
def at_change() -> tuple[Push, State]:
    """Before a change of size that a gentle push may pass, all that can pass passing and nothing lost."""
    push = Push(school().studied(TO_SMALLER, "site", 1, 60), 0)
    push.truth.luck = lambda *key: 0.0 if key[-1] == "passes" else 1.0  # type: ignore[method-assign]
    state = push.act(push.start, Act(acts.OPEN, push.ways()[0]))
    assert state.way is not None
    kinds = [each.piece.kind for each in push.truth.outcome(state.way).route.passages]
    return push, replace(state, index=kinds.index("reducer"), shown=kinds.index("reducer"), steps=())


def spot_of(push: Push, state: State):
    return push.truth.tries(state.way, state.index, push.truth.push(state.way, state.hands, firm=False))


def test_a_turned_rod_passes_where_a_gentle_push_does(at_change):
    push, state = at_change
    _, tries = spot_of(push, state)
    assert tries[STEADY].chance[0] > 0
    assert tries[TURN].chance[0] == tries[STEADY].chance[0]
    assert push.act(state, Act(acts.TURN)).steps[-1].passed


def test_a_turned_rod_wins_nothing_in_roots():
    push, state = pushed(True)
    assert state.way is not None
    rooted = next(i for i, g in enumerate(push.truth.outcome(state.way).geometries) if g.roots is not None)
    spot, tries = spot_of(push, replace(state, index=rooted))
    assert spot.shape.turn.way == "none"
    assert tries[TURN].chance[0] == 0


@pytest.mark.parametrize("kind", [acts.QUICK, acts.STRING])
def test_what_is_no_try_at_a_change_of_size_meets_its_rim(at_change, kind):
    push, state = at_change
    assert {spot_of(push, state)[1][name].chance[0] for name in (BLOW, STRING)} == {0}
    after = push.act(state, Act(kind))
    assert after.steps[-1].seen.ahead == "step"
    assert "rim" in after.steps[-1].seen.said
    assert "far wall" not in after.steps[-1].seen.said


def test_where_nothing_holds_nothing_is_told_to(at_change):
    push, state = at_change
    spot, _ = spot_of(push, state)
    shape = replace(spot.shape, ledge=np.full(1, np.inf, np.float32))
    one = np.ones(1, np.float32)
    even = replace(spot, shape=shape, plain=replace(spot.plain, passes=one, far_wall=one * 0))
    assert signs.holds(push.truth, even, state) is None
    assert "nothing holds" in signs.failure(push.truth, even, state, "")
    assert signs.failure(push.truth, even, state, signs.DRY) == signs.DRY


def test_the_debrief_tells_no_chance_against_what_passed(at_change, monkeypatch):
    push, state = at_change
    monkeypatch.setattr(push, "start", state)
    made = debrief(push, push.act(state, Act(acts.TURN)))
    told = " ".join(each.did for each in made)
    assert "less than once" not in told


def test_why_a_wall_holds_tells_of_no_branch_alone():
    why = school().tables.stuck.causes["far wall"].why
    assert "Out of a branch" not in why
    assert "bend" in why
    assert "main" in why
