"""What was known at each reading on the way in, and what is known of it once more was seen.

The distance along one pipe between two readings of a push is the counter's, whatever the sheet says of its
length. So the head that is drawn back to a reading is where it was at that reading, seen with all that was
told since: the backward pass of a hidden Markov model, from the reading that is left to that drawn back to.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from advisor.push.track.chart import Array
from advisor.push.track.stride import NOTHING, Stride


@dataclass(frozen=True)
class Been:
    """How likely each place was at so much rod, m, after what was told till then.

    `mass` begins at the cell `low`; `new` says whether the ground after it was gone over for the first time.
    """

    rod: float
    low: int
    mass: Array
    new: bool


def been(rod: float, mass: Array, new: bool) -> Been:
    """Only the cells that count are kept: a push has many readings."""
    live = np.flatnonzero(mass.max(axis=(0, 1)) > NOTHING)
    low, high = (int(live[0]), int(live[-1]) + 1) if len(live) else (0, 0)
    return Been(rod, low, mass[:, :, low:high].copy(), new)


def whole(then: Been, cells: int) -> Array:
    """Over all cells again, [B, R, C]."""
    found = np.zeros((*then.mass.shape[:2], cells))
    found[:, :, then.low : then.low + then.mass.shape[2]] = then.mass
    return found


def carried(stride: Stride, then: Been, mass: Array, run: float, unlogged: Array) -> Array:
    """Some of what was known `then`, `run` m on; over ground that is new, nothing was logged on it."""
    if not then.new:
        return stride.forth(mass, run)
    return stride.forth(mass / unlogged, run) * unlogged


def looked_back(stride: Stride, then: Been, now: Array, run: float, unlogged: Array) -> Array:
    """Where the head was at `then`, by what is known `run` m of rod later, `now`.

    then(x) sum_y K(x, y) now(y) / sum_z then(z) K(z, y), with K the step from the one to the other.
    """
    before = whole(then, now.shape[2])
    if run <= 0:
        return now
    kept = unlogged[None, :, :] if then.new else np.ones((1, 1, 1))
    foreseen = stride.forth(before / kept, run) * kept
    least = NOTHING * float(foreseen.max())
    worth = np.divide(now, foreseen, out=np.zeros_like(now), where=foreseen > least)
    found = before / kept * stride.back(worth * kept, run)
    total = float(found.sum())
    return found * (float(now.sum()) / total) if total > 0 else before
