"""Tries at a hard spot, worked by hand: k tries pass with 1-(1-q)^k, losses end the sequence."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest

from advisor.outcome.attempts import STEADY, TECHNIQUES, Attempt
from advisor.outcome.rulings import allowed
from advisor.outcome.walk import try_all


def attempt(name: str, chance: float, minutes: float, set_up: float = 0.0, wedge: float = 0.0) -> Attempt:
    one = np.ones(1, np.float32)
    return Attempt(name, one * chance, minutes, set_up, one * wedge, one * 0, 100.0, 50.0)


def spot(*steps: tuple[Attempt, int]) -> SimpleNamespace:
    tries = {a.technique: a for a, _ in steps}
    return SimpleNamespace(
        order=tuple((a.technique, n) for a, n in steps),
        tries=tries,
        chance=lambda name: tries[name].chance,
    )


def walk(*steps: tuple[Attempt, int]) -> tuple[float, float, float, float]:
    zero = np.zeros(1, np.float32)
    ends = try_all(spot(*steps), np.ones(1, np.float32), zero, zero, zero)
    return tuple(float(end[0]) for end in ends)


def test_tries_of_one_technique():
    # By hand: 1 - 0.5 * 0.7 * 0.7 = 0.755 through; minutes 0.5 * 2 + 0.35 * 2 = 1.7.
    through, lost, minutes, harm = walk((attempt(STEADY, 0.5, 1.0), 1), (attempt("quick push", 0.3, 2.0), 2))
    assert through == pytest.approx(0.755)
    assert minutes == pytest.approx(1.7)
    assert lost == harm == 0


def test_set_up_is_paid_once_by_those_still_stuck():
    # By hand: 0.5 stuck pay 18 set-up and 4 for the try, 0.05 pay a second try: 11 + 0.2 = 11.2.
    _, _, minutes, _ = walk((attempt(STEADY, 0.5, 1.0), 1), (attempt("string", 0.9, 4.0, set_up=18.0), 2))
    assert minutes == pytest.approx(0.5 * 22 + 0.05 * 4)


def test_a_wedged_head_ends_the_sequence_and_costs_its_minutes():
    # By hand: first try 0.5 fail, of these 0.1 wedged = 0.05; second 0.45 * 0.5 fail, 0.1 wedged = 0.0225.
    through, lost, _, harm = walk((attempt(STEADY, 0.5, 1.0, wedge=0.1), 2))
    assert lost == pytest.approx(0.0725)
    assert harm == pytest.approx(7.25)
    assert through == pytest.approx(0.5 + 0.45 * 0.5)


@pytest.mark.parametrize("chance", [0.0, 0.5, 0.9, 1.0])
def test_a_kink_ends_a_try_that_would_have_passed_as_well(chance):
    """By hand, kink .2, then wedge .1 of those not by: at .9 .2 kink, .72 by, .8 * .1 * .1 = .008 wedged, so
    of the .28 not through .208 are lost; harm .2 * 50 + .008 * 100. Walk and stop rule tell the same."""
    one = np.ones(1, np.float32)
    each = Attempt(STEADY, one * chance, 1.0, 0.0, one * 0.1, one * 0.2, 100.0, 50.0)
    through, lost, harm = each.ends(each.chance)
    if chance == 0.9:
        assert (through[0], lost[0], harm[0]) == pytest.approx((0.72, 0.208 / 0.28, 10.8))
    walked = walk((each, 1))
    assert walked[0] == pytest.approx(through[0])
    assert walked[1] == pytest.approx((1 - through[0]) * lost[0])
    assert walked[3] == pytest.approx(harm[0])
    # Who is still there after a failed try is neither by nor lost: .8 * .9 of those it did not let by.
    assert each.lost == pytest.approx(1 - 0.8 * 0.9)
    assert (1 - through[0]) * (1 - lost[0]) == pytest.approx((1 - chance) * (1 - each.lost[0]), abs=1e-6)


# -- what the rules reject ------------------------------------------------------------------------


def rejecting(where: list[bool] | None, *techniques: str) -> SimpleNamespace:
    mask = None if where is None else np.array(where)
    return SimpleNamespace(where=mask, share=0.3, rejected=dict.fromkeys(techniques, "why"))


def test_a_technique_is_allowed_in_the_worlds_in_which_no_rule_rejects_it():
    masks = allowed(
        (
            rejecting([True, False, False], "string"),
            rejecting([False, True, False], "string", "quick push"),
            rejecting(None, "turn the rod"),
            rejecting(None, "one of the rule writer's own"),  # advice that the planner cannot work out
        ),
        3,
    )
    assert masks["string"].tolist() == [0, 0, 1]
    assert masks["quick push"].tolist() == [0, 0, 0]  # nobody sees which it is before the blow
    assert masks["turn the rod"].tolist() == [0, 0, 0]
    assert masks[STEADY].tolist() == [1, 1, 1]
    assert set(masks) == set(TECHNIQUES)
