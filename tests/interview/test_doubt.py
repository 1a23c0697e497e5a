"""Doubt about the leader against scipy: the normal's own integral, and the analysis of variance."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, stats

from advisor.interview.doubt import Least, doubt, most_moving, settled
from advisor.interview.openings import best_or_sooner


@dataclass(frozen=True)
class Asked:
    """What `most_moving` reads of a question."""

    key: tuple[str, str]
    knows: float = 1.0
    to_open: float | None = None


@settings(max_examples=50, deadline=None)
@given(st.floats(0, 60), st.floats(1, 60))
def test_chance_and_minutes_are_those_of_the_normal_distribution(behind, spread):
    """scipy.stats.norm, and scipy.integrate over the gain: the rival leads below a difference of 0."""
    found = doubt(behind, spread)
    apart = stats.norm(behind, spread)
    assert found.chance == pytest.approx(apart.cdf(0), abs=1e-12)
    gain = (
        integrate.quad(lambda x: -x * apart.pdf(x), behind - 12 * spread, 0)[0] if behind < 12 * spread else 0
    )
    assert found.minutes == pytest.approx(gain, abs=1e-6 * spread)


LEAST = Least(0.02, 0.25)


def is_open(behind: float, spread: float) -> bool:
    found = doubt(behind, spread)
    return LEAST.met(found.chance, found.minutes)


def test_what_cannot_move_leaves_no_doubt():
    assert not is_open(0.0, 0.0)
    assert not is_open(50.0, 10.0)  # five sigma: a chance of 3e-7 in any table of the normal
    assert is_open(0.0, 10.0)  # a dead heat that the answers decide: a half, and 10 / sqrt(2 pi) minutes
    assert doubt(0.0, 10.0).minutes == pytest.approx(3.989, abs=1e-3)
    assert not is_open(210.0, 100.0)  # 1.8 % beyond 2.1 sigma, though of 0.65 minutes
    assert not is_open(0.0, 0.5)  # a half, of 0.2 minutes: nobody cares


@settings(max_examples=50, deadline=None)
@given(st.integers(0, 2**32 - 1), st.integers(2, 6))
def test_settled_spread_is_that_of_the_analysis_of_variance(seed, count):
    """scipy.stats.f_oneway: between groups less what chance shows is (k - 1)(F - 1) times that within; it
    counts where it stands three spreads of chi square above chance."""
    draw = np.random.default_rng(seed)
    groups = np.concatenate([np.arange(count), draw.integers(0, count, 300)]) * 2  # answers that nobody gave
    values = draw.normal(size=(1, len(groups))) + 0.4 * draw.normal(size=count)[groups // 2]
    samples = [values[0][groups == g] for g in np.unique(groups)]
    within = sum(((s - s.mean()) ** 2).sum() for s in samples) / (len(groups) - count)
    f = stats.f_oneway(*samples).statistic
    over = (count - 1) * (f - 1)
    counts = over > 3 * stats.chi2(count - 1).std()
    assert settled(groups, values)[0] == pytest.approx(over * within / len(groups) if counts else 0)


def test_an_answer_that_has_nothing_to_do_with_it_settles_nothing():
    """Of thirty questions on which nothing hangs half would by luck have a part above 0. Four groups stand
    three spreads above chance in 1.6 of 100 cases (scipy's chi square beyond 3 + 3 sqrt(6))."""
    assert stats.chi2(3).sf(3 + 3 * 6**0.5) == pytest.approx(0.016, abs=0.001)
    draw = np.random.default_rng(4)
    parts = [settled(draw.integers(0, 4, 400), draw.normal(size=(1, 400)))[0] for _ in range(300)]
    assert np.mean([part > 0 for part in parts]) < 0.04


def test_of_what_is_worth_about_as_much_that_opens_soonest_is_asked_about_first():
    """By hand: a toilet takes 40 min to open and a cover 5, so a cover goes first up to 35 min behind it."""
    toilet, cover, length = Asked(("t", ""), to_open=40.0), Asked(("c", ""), to_open=5.0), Asked(("l", ""))
    assert best_or_sooner([(50.0, toilet), (20.0, length), (16.0, cover)]) == cover
    assert best_or_sooner([(50.0, toilet), (20.0, length), (14.0, cover)]) == toilet
    assert best_or_sooner([(20.0, toilet), (19.0, length), (0.0, cover)]) == toilet, "it is worth nothing"
    assert best_or_sooner([(50.0, length), (49.0, cover)]) == length, "a length opens nothing"


def test_nobody_is_asked_about_a_toilet_before_a_cover_that_brings_nearly_as_much():
    """Each a rival of its own: the toilet the likelier one, the cover gains some minutes less."""
    a, b = np.array([0, 0, 1, 1] * 100), np.array([0, 1, 0, 1] * 100)
    costs = np.stack([np.full(400, 50.0), 52.0 + 9.0 * (2 * a - 1), 53.0 + 9.0 * (2 * b - 1)])
    toilet, cover = Asked(("a", ""), to_open=40.0), Asked(("b", ""), to_open=5.0)
    assert most_moving([(toilet, a), (cover, b)], costs, LEAST) == cover
    assert most_moving([(replace(toilet, to_open=None), a), (cover, b)], costs, LEAST) != cover


def test_two_answers_that_only_together_change_the_leader_are_asked():
    """By hand: the rival is 6 min behind, either answer moves it by 4 min, both by 8."""
    a, b = np.array([0, 0, 1, 1] * 100), np.array([0, 1, 0, 1] * 100)
    costs = np.stack([np.full(400, 50.0), 56.0 + 4.0 * (2 * a - 1) + 4.0 * (2 * b - 1)])
    for only in (a, b):
        assert costs[1][only == 0].mean() > 50
    assert costs[1][(a == 0) & (b == 0)].mean() < 50
    first, second = Asked(("first", "")), Asked(("second", ""))
    assert most_moving([(second, b), (first, a)], costs, LEAST) == first  # alike: by name
    assert most_moving([(first, a), (Asked(("second", ""), 0.5), b)], costs, LEAST) == first
    assert most_moving([(Asked(("first", ""), 0.5), a), (second, b)], costs, LEAST) == second
    far = costs + np.array([[0.0], [20.0]])
    assert most_moving([(first, a), (second, b)], far, LEAST) is None
    assert most_moving([(first, a), (second, b)], far[::-1], LEAST) is None
    assert most_moving([], costs, LEAST) is None


def test_the_rival_most_likely_to_lead_is_the_one_that_is_asked_about():
    a, b = np.array([0, 0, 1, 1] * 100), np.array([0, 1, 0, 1] * 100)
    costs = np.stack([np.full(400, 50.0), 60.0 + 9.0 * (2 * a - 1), 52.0 + 9.0 * (2 * b - 1)])
    far, near = Asked(("a", "")), Asked(("b", ""))
    assert most_moving([(far, a), (near, b)], costs, LEAST) == near
    # The order in which the ways stand makes no difference.
    for order in ([0, 2, 1], [2, 1, 0], [1, 0, 2]):
        assert most_moving([(far, a), (near, b)], costs[order], LEAST) == near
    closer = costs - np.array([[0.0], [9.0], [0.0]])
    for order in ([0, 1, 2], [2, 1, 0]):
        assert most_moving([(far, a), (near, b)], closer[order], LEAST) == far
