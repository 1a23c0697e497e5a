"""The place at an earlier reading by all that was told after it, against every path of the head written out.

Three steps of a chain: the chance of each path, x1 to x2 to x3, is the product of what docs/pushing.md writes
of its steps and of what was seen; the place after the first is the sum over all paths through it. Nothing of
the filter is in that sum but the numbers of its grid.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import norm

from advisor.push.log.sighting import Back, Read, Seen
from tests.push.sites import CHAIN, tracker_on
from tests.push.test_track_against_hmm import CELL, LAG, STEP, WANDER, emission, one_rate, unlogged

CELLS = 60  # 12 m: farther than the head may be after three steps of 1.4 m


def paths(bend_last: bool) -> np.ndarray:
    """The chance of each path [x1, x2, x3], a bend told after the third step or nothing."""
    x = np.arange(CELLS) * CELL
    spread = np.sqrt(WANDER * STEP + 0.05**2)
    edges = x[None, :] - x[:, None] - STEP * (1 - LAG)
    step = norm.cdf((edges + CELL / 2) / spread) - norm.cdf((edges - CELL / 2) / spread)
    step[:, 0] += norm.cdf((edges[:, 0] - CELL / 2) / spread)  # nothing lies behind the opening
    seen = emission(x, (9.0,))[:, 1] if bend_last else np.ones(CELLS)
    each = step[0][:, None, None] * step[:, :, None] * step[None, :, :]
    each = each * (seen * unlogged(x))[None, None, :]
    return np.asarray(each / each.sum())


@pytest.mark.parametrize("bend_last", [True, False])
@pytest.mark.parametrize("after", [1, 2])
def test_the_place_before_is_the_sum_over_all_paths(bend_last, after):
    tracker = one_rate(tracker_on(CHAIN, "top plug", 60.0))
    last = Seen(3 * STEP, "bend") if bend_last else Read(3 * STEP)
    belief = tracker.replay([Read(STEP), Read(2 * STEP), last])
    ours = tracker.was_at(belief, after * STEP).mass[0, 0]
    others = tuple(axis for axis in range(3) if axis != after - 1)
    assert ours[:CELLS] == pytest.approx(paths(bend_last).sum(axis=others), abs=1e-5)
    assert float(ours[CELLS:].sum()) < 1e-6


def test_what_came_later_matters_in_that_sum():
    """The bend is drawn at 4.2 m and told at 4.2 m of counter: it draws the place before it together."""
    x = np.arange(CELLS) * CELL
    with_bend, without = (paths(each).sum(axis=(1, 2)) for each in (True, False))

    def spread(share: np.ndarray) -> float:
        mean = float((share * x).sum())
        return float(np.sqrt((share * (x - mean) ** 2).sum()))

    assert spread(with_bend) < 0.95 * spread(without)


def test_in_two_steps_back_as_in_one():
    tracker = one_rate(tracker_on(CHAIN, "top plug", 60.0))
    belief = tracker.replay([Read(STEP), Read(2 * STEP), Seen(3 * STEP, "bend")])
    at_once = tracker.was_at(belief, STEP)
    by_two = tracker.was_at(tracker.was_at(belief, 2 * STEP), STEP)
    assert by_two.mass == pytest.approx(at_once.mass, abs=1e-12)
    assert at_once.rod == by_two.rod == STEP
    # Where the head is now nothing is to be looked back for, nor is it where it never was.
    assert tracker.was_at(belief, 3 * STEP) is belief
    drawn = tracker.after(belief, Back(STEP))
    assert tracker.was_at(drawn, 2 * STEP) is drawn
