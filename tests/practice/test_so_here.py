"""After a try that failed the debrief tells what held it in that drain, not what was likely to.

What each picture means is common practice, no source: a pipe that looks the other way is a head that went the
other way, a picture that is all wall is a nose on the far wall.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from advisor.practice import acts, signs
from advisor.practice.acts import Act, State
from advisor.practice.debrief import debrief, reasons
from advisor.practice.policies import spot_ahead
from advisor.practice.simulate import Push
from advisor.practice.so_here import as_shown
from advisor.practice.values import LEAVE, Move
from tests.practice.test_roots_bar import pushed

MEANS = {
    "other way": "gone the other way",
    "wall": "against the far wall",
    "held": "the stiff end of the rod",
    "folded": "folded back on itself",
}
OTHER_WAY, FOLDED = 0.001, 0.5  # luck of how it fails, by what the lens shows after it; asserted below


def failing(monkeypatch: pytest.MonkeyPatch, how: float) -> tuple[Push, State]:
    """At the tee, where no try passes and nothing is lost; `how` is the luck of what holds the head."""
    push, state = pushed(False)
    luck = {"how it fails": how, "passes": 1.0}
    monkeypatch.setattr(push.truth, "luck", lambda *key: luck.get(key[-1], 1.0))
    state = replace(state, steps=())
    monkeypatch.setattr(push, "start", state)
    return push, state


def one_move(push: Push, name: str, chance: float) -> Move:
    zero = np.zeros(push.study.worlds)
    return Move(name, zero, chance, zero)


@pytest.mark.parametrize(("how", "shown"), [(OTHER_WAY, "other way"), (FOLDED, "folded")])
@pytest.mark.parametrize("kind", [acts.SLOW, acts.QUICK, acts.TURN])
def test_what_held_a_try_is_told_as_the_picture_showed_it(kind, how, shown, monkeypatch):
    push, state = failing(monkeypatch, how)
    after = push.act(state, Act(kind))
    assert after.steps[-1].seen.ahead == shown
    (made,) = debrief(push, after)
    told = next(line for line in made.why if line.startswith("What held it in this drain"))
    assert [words for words in MEANS.values() if words in told] == [MEANS[shown]]


def test_what_passed_was_held_by_nothing(monkeypatch):
    push, state = pushed(False)
    after = push.act(replace(state, steps=()), Act(acts.TURN))
    assert after.steps[-1].passed
    monkeypatch.setattr(push, "start", replace(state, steps=()))
    (made,) = debrief(push, after)
    assert not [line for line in made.why if "in this drain" in line.lower()]


@pytest.mark.parametrize(
    ("how", "against"), [(OTHER_WAY, "Speed does not choose"), (FOLDED, "rolls the spring")]
)
def test_a_stroke_is_no_best_move_by_a_reason_that_was_not_so(how, against, monkeypatch):
    """It is for a nose on the wall or a stuck rod end: common practice, as the matrix has it."""
    push, state = failing(monkeypatch, how)
    stroke, cord = one_move(push, acts.QUICK, 0.4), one_move(push, acts.STRING, 0.1)
    after = push.act(state, Act(acts.STRING))
    (told,) = reasons(push, state, after.steps[-1], stroke, cord)
    assert against in told
    again = push.act(push.act(state, Act(acts.QUICK)), Act(acts.STRING))
    spent = push.act(state, Act(acts.QUICK))
    assert reasons(push, spent, again.steps[-1], stroke, cord) == (told,)


def test_one_more_of_what_failed_is_told_as_such(monkeypatch):
    """A turn of the rod does help a head that went the other way."""
    push, state = failing(monkeypatch, OTHER_WAY)
    spent = push.act(state, Act(acts.TURN))
    after = push.act(spent, Act(acts.STRING))
    turn, cord = one_move(push, acts.TURN, 0.4), one_move(push, acts.STRING, 0.1)
    (told,) = reasons(push, spent, after.steps[-1], turn, cord)
    assert "had failed here before" in told


def test_where_leaving_is_best_nothing_likely_explains_what_has_failed(monkeypatch):
    push, state = failing(monkeypatch, OTHER_WAY)
    after = push.act(state, Act(acts.TURN))
    leave = one_move(push, LEAVE, 0.0)
    assert reasons(push, state, after.steps[-1], leave, one_move(push, acts.TURN, 0.0)) == ()
    (fair,) = reasons(push, state, after.steps[-1], leave, one_move(push, acts.TURN, 0.9))
    assert fair.startswith("It might have passed")


def test_only_what_the_lens_shows_gives_reasons_but_a_blow_is_judged_by_all_that_it_may_be():
    push, state = pushed(False)
    spot = spot_ahead(push, state)
    assert spot is not None
    (ruling,) = spot.rulings
    other = replace(spot, rulings=(replace(ruling, variant="some other"), ruling))
    assert as_shown(push, state, other).rulings == (ruling,)
    assert as_shown(push, replace(state, shown=-1), other) is other
    assert as_shown(push, state, other, acts.QUICK) is other


def test_a_rim_and_what_ends_the_way_are_no_far_wall(monkeypatch):
    """In a straight pipe there is no far wall: what stands before the nose is the rim, or the trap."""
    push, state = failing(monkeypatch, 0.5)
    spot = push.truth.tries(state.way, state.index, push.truth.push(state.way, state.hands, firm=False))[0]
    for name in ("ledge", "stopper"):
        zero = np.zeros(1, np.float32)
        held = dict.fromkeys(("far_wall", "ledge", "stopper", "bore", "jams"), zero) | {name: zero + 1}
        monkeypatch.setattr(signs, "held_by", lambda _, held=held: held)
        plain = replace(spot.plain, wrong_way=zero, folds=zero, far_wall=zero + 1, rod_end=zero, crosses=zero)
        walled = replace(spot, plain=plain)
        assert signs.holds(push.truth, walled, state) == name
