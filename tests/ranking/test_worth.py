"""Worth of knowing against closed forms and numbers worked by hand."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from advisor.ranking.worth import blocks, worth, worth_of_answer


def test_discrete_case_by_hand():
    # Fork known to lead left (share 0.4) or right (0.6). Going left costs 10 there, else 50; going right 40
    # or 20. Without knowing: left 0.4*10 + 0.6*50 = 34, right 0.4*40 + 0.6*20 = 28. Knowing: 0.4*10 + 0.6*20
    # = 16. Worth 12.
    answer = np.array([0] * 40 + [1] * 60)
    costs = np.stack([np.where(answer == 0, 10.0, 50.0), np.where(answer == 0, 40.0, 20.0)])
    found = worth(answer, costs, np.ones(100))
    assert found.minutes + found.bias == pytest.approx(12.0)


def test_unreliable_answer_by_hand():
    # The same, but the answer is right 80 % of the time. "Left": 0.32 left, 0.12 right: left costs
    # 0.32*10 + 0.12*50 = 9.2, right 0.32*40 + 0.12*20 = 15.2 -> 9.2. "Right": 0.08 left, 0.48 right: left
    # 0.8 + 24 = 24.8, right 3.2 + 9.6 = 12.8 -> 12.8. Worth 28 - 22 = 6.
    truth = np.array([0] * 40 + [1] * 60)
    costs = np.stack([np.where(truth == 0, 10.0, 50.0), np.where(truth == 0, 40.0, 20.0)])
    likelihood = np.stack([np.where(truth == 0, 0.8, 0.2), np.where(truth == 0, 0.2, 0.8)])
    assert worth_of_answer(likelihood, costs, np.ones(100)) == pytest.approx(6.0)


@pytest.mark.parametrize("gap", [0.0, 0.5, 1.0])
def test_two_route_gaussian_case(gap):
    # Closed form: costs 0 and gap + x, x ~ N(0, 1) and known afterwards. Worth = E[max(0, -(gap + x))] =
    # phi(gap) - gap (1 - Phi(gap)) (scipy.stats.norm). Blocks lose a little of it; 20 blocks under 2 %.
    x = np.random.Generator(np.random.Philox(7)).normal(size=200_000)
    costs = np.stack([np.zeros_like(x), gap + x])
    found = worth(blocks(x, 20), costs, np.ones_like(x))
    closed = stats.norm.pdf(gap) - gap * stats.norm.sf(gap)
    assert found.minutes == pytest.approx(closed, rel=0.03, abs=0.004)


def test_irrelevant_unknowns_at_a_dead_heat_score_nothing_after_the_bias():
    # Two spreads are passed by chance once in some forty; of fifty, more than six would be wrong.
    generator = np.random.Generator(np.random.Philox(11))
    x = generator.normal(size=2000)
    costs = np.stack([np.zeros(2000), x - x.mean()])
    found = [worth(blocks(generator.normal(size=2000), 10), costs, np.ones(2000)) for _ in range(50)]
    assert np.mean([each.bias for each in found]) > 0.01  # what the grouping alone would have claimed
    assert sum(each.real for each in found) <= 6


def test_bias_vanishes_with_a_clear_leader():
    generator = np.random.Generator(np.random.Philox(12))
    x, irrelevant = generator.normal(size=2000), generator.normal(size=2000)
    costs = np.stack([np.zeros(2000), x + 3.0])
    assert worth(blocks(irrelevant, 4), costs, np.ones(2000)).bias < 0.002
