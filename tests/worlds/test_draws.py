"""Keyed draws: the distribution against scipy, and what a key promises."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from advisor.evidence import TOLD
from advisor.quantity import Chances, Estimate, Known
from advisor.worlds.draws import Worlds, triangle


def test_triangle_is_scipys_triangular_quantile():
    # Source: scipy.stats.triang (general-purpose reference library).
    uniform = np.linspace(0.001, 0.999, 999, dtype=np.float32)
    ours = triangle(uniform, Estimate(2.0, 3.0, 7.0, TOLD))
    theirs = stats.triang.ppf(uniform, c=(3 - 2) / (7 - 2), loc=2, scale=5)
    assert np.allclose(ours, theirs, atol=2e-4)


@pytest.mark.parametrize(("low", "mode", "high"), [(1.0, 1.0, 2.0), (1.0, 2.0, 2.0)])
def test_triangle_with_its_mode_at_an_end(low, mode, high):
    uniform = np.linspace(0.001, 0.999, 99, dtype=np.float32)
    theirs = stats.triang.ppf(uniform, c=(mode - low) / (high - low), loc=low, scale=high - low)
    assert np.allclose(triangle(uniform, Estimate(low, mode, high, TOLD)), theirs, atol=1e-4)


def test_uniform_passes_a_kolmogorov_test():
    # Source: scipy.stats.kstest; a fair stream fails at 0.001 once in a thousand keys.
    assert stats.kstest(Worlds(1, 20000).uniform("a key"), "uniform").pvalue > 0.001


def test_streams_of_different_keys_are_not_alike():
    worlds = Worlds(1, 20000)
    assert abs(np.corrcoef(worlds.uniform("a"), worlds.uniform("b"))[0, 1]) < 0.03


def test_fewer_worlds_are_a_prefix_of_more():
    assert (Worlds(5, 100).uniform("k") == Worlds(5, 1000).uniform("k")[:100]).all()


def test_another_seed_draws_other_worlds():
    assert (Worlds(1, 100).uniform("k") != Worlds(2, 100).uniform("k")).any()


def test_order_of_asking_changes_nothing():
    one, other = Worlds(3, 50), Worlds(3, 50)
    first = one.uniform("a"), one.uniform("b")
    second = other.uniform("b"), other.uniform("a")
    assert (first[0] == second[1]).all()
    assert (first[1] == second[0]).all()


def test_choice_follows_its_shares():
    chances = Chances((("x", 0.2), ("y", 0.8)), TOLD)
    chosen = Worlds(1, 20000).choice("k", chances)
    # Four standard errors of a share of 0.2 in 20,000.
    assert abs(float((chosen == 0).mean()) - 0.2) < 4 * np.sqrt(0.2 * 0.8 / 20000)


def test_mixed_takes_each_worlds_own_option():
    worlds = Worlds(1, 500)
    choice = worlds.choice("c", Chances((("x", 0.5), ("y", 0.5)), TOLD))
    mixed = worlds.mixed("v", choice, [Known(1.0, TOLD), Known(9.0, TOLD)])
    assert (mixed == np.where(choice == 0, 1, 9)).all()


def test_chosen_worlds_are_those_of_the_whole_set():
    whole, some = Worlds(1, 500), Worlds(1, 500, (7, 7, 499))
    assert some.n == 3
    assert (some.uniform("k") == whole.uniform("k")[[7, 7, 499]]).all()
    assert (Worlds(1, 1, (42,)).uniform("k") == whole.uniform("k")[42]).all(), "one hidden truth"
