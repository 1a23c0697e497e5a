"""Medians and quantiles of worlds against numpy's."""

from math import inf, isnan, nan

import numpy as np
import pytest

from advisor.worlds.spread import below, middle

RANDOM = np.random.default_rng(7)


@pytest.mark.parametrize("size", [1, 2, 5, 200, 1000])
@pytest.mark.parametrize("kind", [np.float32, np.float64])
def test_as_numpy_has_them(size, kind):
    values = RANDOM.gamma(2.0, 3.0, size).astype(kind)
    assert middle(values) == pytest.approx(float(np.median(values)), rel=1e-6)
    shares = (0.0, 0.05, 0.1, 0.5, 0.9, 1.0)
    wanted = np.quantile(values.astype(float), shares)
    assert [below(values, each) for each in shares] == pytest.approx(wanted, rel=1e-6)


def test_a_plain_number_and_what_has_no_end_and_what_is_not_known():
    assert middle(2.5) == 2.5
    assert middle(np.array([1.0, inf, inf, inf])) == inf == np.median([1.0, inf, inf, inf])
    assert middle(np.array([1.0, 2.0, inf])) == 2.0
    assert isnan(middle(np.array([1.0, nan, 2.0])))
    assert isnan(float(np.median([1.0, nan, 2.0])))
