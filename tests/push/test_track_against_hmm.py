"""The filter on a chain against a general-purpose library of hidden Markov models.

hmmlearn 0.3 (CategoricalHMM) gives forward probabilities with one transition and one emission matrix, so
the counter runs in equal steps and what is told is one of four symbols. Its matrices are built here from the
model as docs/pushing.md writes it, with scipy's normal distribution, not from the filter.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hmmlearn.hmm import CategoricalHMM
from scipy.stats import norm

from advisor.push.log.sighting import Back, Read, Seen
from advisor.push.track.chart import Chart
from advisor.push.track.track import Tracker
from advisor.quantity import Known
from tests.push.sites import CHAIN, tracker_on

CELL, STEP, LAG, WANDER = 0.2, 1.4, 0.006, 0.2
ENTRY = 0.2  # m from the hand to the line
BENDS, TIE_INS = (4.0 + ENTRY, 12.0 + ENTRY), ((7.0 + ENTRY, 9.0), (18.0 + ENTRY, 3.0))


def one_rate(tracker: Tracker) -> Tracker:
    """The same tracker with one rate of the counter and nothing off the map: what the library can hold."""
    where = tracker.chart.where
    none = Known(0.0, where.travel.cell.evidence)
    one = Known(1.0, where.travel.cell.evidence)
    tracker.chart.where = where.model_copy(
        update={
            "travel": where.travel.model_copy(update={"counter_steps": one}),
            "off_map": where.off_map.model_copy(update={"at_start": none, "each_metre": none}),
        }
    )
    # One way as well: the line ends where it is drawn.
    (way,) = (each for each in tracker.chart.ways if each.longer <= 0)
    chart = Chart(tracker.chart.network, (replace(way, prior=1.0),), tracker.chart.where)
    return Tracker(chart, "sketch")


def unlogged(x: np.ndarray) -> np.ndarray:
    """Chance that none of what lies before x was logged though passed: 1 - p Phi((x - xj) / 0.25)."""
    kept = np.ones_like(x)
    for at in BENDS:
        kept *= 1 - 0.5 * norm.cdf((x - at) / 0.25)
    for at, _ in TIE_INS:
        kept *= 1 - 0.7 * norm.cdf((x - at) / 0.25)
    return kept


def hour(told: float, true: float) -> float:
    """.9 of a normal distribution of one hour wrapped round the dial, .1 of none."""
    around = sum(norm.pdf(told - true + turn) for turn in (-24, -12, 0, 12, 24))
    return 0.9 * around + 0.1 / 12


def emission(x: np.ndarray, clocks: tuple[float, ...]) -> np.ndarray:
    """[cells, symbols]: nothing, a bend, a tie-in at each clock; a last column takes what is left."""
    bend = 0.02 + sum(0.5 / 0.5 * norm.pdf(x, at, 0.25) for at in BENDS)
    columns = [np.ones_like(x), bend]
    for clock in clocks:
        columns.append(
            0.02 / 12 + sum(0.7 / 0.3 * norm.pdf(x, at, 0.25) * hour(clock, true) for at, true in TIE_INS)
        )
    table = np.stack(columns, axis=1)
    table = table / (
        table.sum(axis=1).max() * 1.01
    )  # only the proportion of one symbol over the cells counts
    return np.concatenate([table, 1 - table.sum(axis=1, keepdims=True)], axis=1)


@pytest.mark.parametrize(
    ("told", "steps"),
    [
        ((0, 0, 1, 0, 2, 0, 0, 0, 0, 0), 10),
        ((0, 1, 1, 0, 0, 2, 3, 0, 1, 0, 0, 0, 3), 13),  # a false bend, and a tie-in at the wrong hour
    ],
)
def test_filter_is_the_librarys_forward_pass(told, steps):
    tracker = one_rate(tracker_on(CHAIN, "top plug", 60.0))
    cells = tracker.chart.cells
    assert len(tracker.chart.ways) == 1
    x = np.arange(cells) * CELL
    spread = np.sqrt(WANDER * STEP + 0.05**2)
    edges = x[None, :] - x[:, None] - STEP * (1 - LAG)
    transition = norm.cdf((edges + CELL / 2) / spread) - norm.cdf((edges - CELL / 2) / spread)
    transition[:, 0] += norm.cdf((edges[:, 0] - CELL / 2) / spread)  # nothing lies behind the opening
    transition[:, -1] += np.maximum(1 - transition.sum(axis=1), 0)  # far behind the head in this test
    clocks = (9.0, 3.0)
    model = CategoricalHMM(n_components=cells)
    model.startprob_ = np.eye(cells)[0]
    model.transmat_ = transition
    model.emissionprob_ = emission(x, clocks)
    # The library's first symbol is told before the first step: one that says nothing stands there.
    observed = np.array([0, *told])[:, None]
    belief = tracker.start()
    for number, symbol in enumerate(told, start=1):
        counter = number * STEP
        sighting = (
            Read(counter)
            if symbol == 0
            else Seen(counter, "bend")
            if symbol == 1
            else Seen(counter, "tie-in", clocks[symbol - 2])
        )
        # What was told before changes of it is no part of such a model: each is told as the first.
        belief = tracker.after(replace(belief, ties=(), bends=()), sighting)
        forward = model.predict_proba(observed[: number + 1])[-1] * unlogged(x)
        ours = belief.mass[0, 0]
        assert ours == pytest.approx(forward / forward.sum(), abs=1e-6), f"step {number}"
    assert number == steps


@pytest.mark.parametrize("back_to", [3, 5, 8])
def test_drawn_back_is_the_librarys_backward_pass(back_to):
    """The place at an earlier step given all that was told, which the library's posterior is as well."""
    told = (0, 0, 1, 0, 2, 0, 0, 0, 0, 0)
    tracker = one_rate(tracker_on(CHAIN, "top plug", 60.0))
    x = np.arange(tracker.chart.cells) * CELL
    spread = np.sqrt(WANDER * STEP + 0.05**2)
    edges = x[None, :] - x[:, None] - STEP * (1 - LAG)
    transition = norm.cdf((edges + CELL / 2) / spread) - norm.cdf((edges - CELL / 2) / spread)
    transition[:, 0] += norm.cdf((edges[:, 0] - CELL / 2) / spread)
    transition[:, -1] += np.maximum(1 - transition.sum(axis=1), 0)
    table = emission(x, (9.0, 3.0))
    # One symbol more, told last: that no more was logged up to there, taken from what is left.
    nothing_more = 0.009 * unlogged(x)
    model = CategoricalHMM(n_components=len(x))
    model.startprob_, model.transmat_ = np.eye(len(x))[0], transition
    model.emissionprob_ = np.column_stack([table[:, :-1], nothing_more, table[:, -1] - nothing_more])
    symbols = np.array([0, *told[:-1], table.shape[1] - 1])[:, None]
    foreseen = model.predict_proba(symbols)[back_to]
    seen = [
        Read(n * STEP) if s == 0 else Seen(n * STEP, *(("bend",) if s == 1 else ("tie-in", 9.0)))
        for n, s in enumerate(told, start=1)
    ]
    # Taut rod lies in no curve: this reading is the one on the way in.
    ours = tracker.replay([*seen, Back(back_to * STEP * (1 - LAG))]).mass[0, 0]
    assert ours == pytest.approx(foreseen, abs=1e-5)


def test_the_check_can_fail():
    """With another wander the two part by far more than the bound."""
    tracker = one_rate(tracker_on(CHAIN, "top plug", 60.0))
    other = Tracker(tracker.chart, "measured")
    one = tracker.after(tracker.start(), Read(STEP)).mass
    assert np.abs(one - other.after(other.start(), Read(STEP)).mass).max() > 1e-3
