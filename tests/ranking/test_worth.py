"""Worth of knowing against closed forms and numbers worked by hand."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from advisor.ranking.worth import blocks, worth


def test_discrete_case_by_hand():
    # Fork known to lead left (share 0.4) or right (0.6). Going left costs 10 there, else 50; going right 40
    # or 20. Without knowing: left 0.4*10 + 0.6*50 = 34, right 0.4*40 + 0.6*20 = 28. Knowing: 0.4*10 + 0.6*20
    # = 16. Worth 12.
    answer = np.array([0] * 40 + [1] * 60)
    costs = np.stack([np.where(answer == 0, 10.0, 50.0), np.where(answer == 0, 40.0, 20.0)])
    found = worth(answer, costs, np.ones(100))
    assert found.minutes + found.bias == pytest.approx(12.0)


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
