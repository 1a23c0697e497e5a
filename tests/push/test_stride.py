"""A pipe of hardly known length, and a line that may be longer than drawn: against scipy and by hand."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.special import gammainc
from scipy.stats import triang

from advisor.evidence import TOLD
from advisor.push.log.sighting import Back, Read, Seen
from advisor.push.now.ahead import next_landmarks
from advisor.push.track.gamma import on_cells, share_below
from advisor.push.track.stride import pace
from advisor.quantity import Estimate, Known
from advisor.site.believed import told_on
from tests.push.sites import CHAIN, tracker_on

LOW, LIKELY, HIGH = 0.5, 3.0, 9.0  # m, an unknown pipe by rules/tables/typical.yaml
LENGTH = triang((LIKELY - LOW) / (HIGH - LOW), LOW, HIGH - LOW)
UNKNOWN = CHAIN.replace("      - pipe: 5 m\n", "      - pipe: unknown\n")


def test_the_series_is_the_librarys_gamma():
    x = np.array([0.0, 0.01, 0.5, 3.0, 20.0, 60.0])
    for shape in (0.2, 0.66, 4.0):
        assert share_below(shape, x) == pytest.approx(gammainc(shape, x), abs=1e-12)


def test_cells_keep_the_mean():
    kernel = on_cells(0.36, 0.2, 0.2, 60)
    assert kernel.sum() == pytest.approx(1, abs=1e-4)
    assert float((kernel * np.arange(60) * 0.2).sum()) == pytest.approx(0.36, abs=1e-4)


def test_the_pace_is_that_of_the_length():
    """m/v is the mean of the triangle, m D / v^3 its variance; a length known better has the map's."""
    advance, wander = pace(Estimate(LOW, LIKELY, HIGH, TOLD), 0.2, 0.05)
    assert LIKELY / advance == pytest.approx(LENGTH.mean(), rel=1e-2)
    assert LIKELY * wander / advance**3 == pytest.approx(LENGTH.var(), rel=1e-2)
    # One number is as good as the map.
    assert pace(Estimate(3.6, 4.2, 4.8, told_on("sketch")), 0.2, 0.05) == (1.0, 0.2)
    assert pace(Known(4.0, TOLD), 0.2, 0.05) == (1.0, 0.2)


def test_a_range_is_as_unsure_as_it_says_on_any_map():
    """A triangle from 2 to 5 to 8 m has the variance 6^2/24 = 1.5 m2, whatever the map: 0.3 m2 a metre."""
    assert pace(Estimate(2, 5, 8, TOLD), 0.4, 0.05) == (1.0, pytest.approx(0.3))
    assert pace(Estimate(4.9, 5, 5.1, TOLD), 0.4, 0.05) == (1.0, 0.05)


def test_the_next_landmark_comes_as_late_as_the_pipe_may_be_long():
    """From the near side of the unknown pipe the far one comes after one of 80 of 100 of its lengths.

    By the triangle these are 1.96 to 6.74 m; as a normal distribution of the same mean and variance 1.9 to
    6.5 m.
    The eye and the counter add a little.
    """
    tracker = tracker_on(UNKNOWN, "top plug", 60.0)
    here = 0.2 + 4 + 3
    belief = tracker.replay([Seen(4.2, "bend"), Seen(here, "tie-in", 9.0)])
    ahead = next(each for each in next_landmarks(tracker, belief) if each.landmark.kind == "bend")
    assert ahead.low - here == pytest.approx(LENGTH.ppf(0.1), abs=0.5)
    assert ahead.high - here == pytest.approx(LENGTH.ppf(0.9), abs=0.5)


@pytest.mark.parametrize("run", [2.0, 4.0, 6.0])
def test_as_much_has_come_through_as_pipes_are_shorter(run):
    tracker = tracker_on(UNKNOWN, "top plug", 60.0)
    chart = tracker.chart
    start = np.zeros((1, len(chart.ways), chart.cells))
    first = round((0.2 + 4 + 3) / chart.cell)
    start[0, 0, first] = 1
    stride = type(tracker.stride)(chart, np.ones(1), 0.2)
    through = float(stride.forth(start, run)[0, 0, first + round(LIKELY / chart.cell) :].sum())
    assert through == pytest.approx(LENGTH.cdf(run), abs=0.08)


def test_looked_back_is_the_same_sum_as_forth():
    """sum forth(p) w = sum p back(w), for any p and w: the one is the other turned round."""
    tracker = tracker_on(UNKNOWN, "top plug", 60.0)
    chart, random = tracker.chart, np.random.default_rng(3)
    shape = (len(tracker.rates), len(chart.ways), chart.cells)
    mass, worth = random.random(shape) * chart.there, random.random(shape) * chart.there
    forth = float((tracker.stride.forth(mass, 2.3) * worth).sum())
    assert forth == pytest.approx(float((mass * tracker.stride.back(worth, 2.3)).sum()), rel=1e-9)


def longer(tracker, belief) -> float:
    by_way = belief.mass.sum(axis=(0, 2))
    of = np.array([way.longer > 0 for way in tracker.chart.ways])
    return float(by_way[of].sum() / by_way.sum())


@pytest.mark.parametrize(("quality", "share"), [("measured", 0.05), ("sketch", 0.25), ("guess", 0.4)])
def test_past_the_drawn_end_with_no_end_seen_the_line_may_be_longer(quality, share):
    """Bayes by hand: an end is not logged in 3 of 10 cases. Far past it, share to (1 - share) x 0.3."""
    text = CHAIN.replace("sketch", quality).replace("- pipe: 30 m", "- pipe: 6 m")
    tracker = tracker_on(text, "top plug", 60.0)
    assert longer(tracker, tracker.start()) == pytest.approx(share)
    marks = [Seen(4.2, "bend"), Seen(7.2, "tie-in", 9.0), Seen(12.2, "bend"), Seen(18.2, "tie-in", 3.0)]
    past = tracker.replay([*marks, Read(35.0)])
    assert longer(tracker, past) == pytest.approx(share / (share + (1 - share) * 0.3), abs=0.02)
    # That is no way that a head could choose: drawn back and pushed anew, what was learned stays.
    again = tracker.replay([*marks, Read(35.0), Back(2.0), Read(5.0)])
    assert longer(tracker, again) == pytest.approx(longer(tracker, past), abs=0.03)
    ended = tracker.replay([*marks, Seen(24.2, "end")])
    assert longer(tracker, ended) < share / 4
