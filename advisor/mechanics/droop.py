"""The droop test: what a rod hung over an edge, and again rolled half round, tells of its stiffness."""

from __future__ import annotations

import numpy as np

from advisor.mechanics.elastica import droop_ratio
from advisor.mechanics.values import Array, Values

LARGEST_LOAD = 20.0  # within these two a pair of droops has one rod only
LARGEST_CURL = 1.2
_STEPS = 25
_NEAR = 1e-9  # of the length: far below any reading
_NUDGE = 1e-6  # steers: the step of a numerical slope


def stiffness_from_droop(
    length: Values, droop: Values, rolled: Values, weight: Values
) -> tuple[Values, Values]:
    """Give a rod's bending stiffness and its own curl from the droops of its free end.

    Shape: the W and c for which the heavy elastica droops as measured with the curl down (c) and,
        rolled half round, with the curl up (-c); EI = w l^3/W, curl = c/l. Without curl and little
        bent that is w l^4/(8 droop).
    Args:
        length: how much rod hangs free, m.
        droop: fall of its end with the curl downward, m.
        rolled: fall of its end with the rod rolled half round, m; below 0 above the clamp.
        weight: weight per length, N/m.
    Returns:
        Stiffness, N m^2, and curvature of the curl, 1/m; nan where no rod droops so within W to 20
        and c to 1.2.
    Holds when: clamped level, the curl upright and the same all along, the rod at rest.
    Errors: none beyond the readings; beyond a droop of 0.85 of the length it is ill-posed.
    Source: heavy elastica; compared with a boundary-value solver
        (tests/outside/test_droop_inverse.py).
    """
    span, first, second, load_per_length = np.broadcast_arrays(
        *(np.asarray(value, np.float64) for value in (length, droop, rolled, weight))
    )
    wanted = np.array([first / span, second / span])
    middle, gap = wanted.mean(axis=0), wanted[0] - wanted[1]
    # Steers: a light rod droops W/8, and a full droop takes endless weight.
    load = np.clip(8 * middle / np.clip(1 - middle, 0.1, 1), 0.05, LARGEST_LOAD)
    curl = np.clip(gap, -1.5, 1.5)
    good = np.zeros(load.shape, bool)
    for _ in range(_STEPS):
        here, by_load, by_curl = _droops_and_slopes(load, curl)
        missing = wanted - here
        good = np.asarray((np.abs(missing) < _NEAR).all(axis=0))
        if np.all(good):
            break
        load, curl = _stepped(load, curl, missing, by_load, by_curl)
    good &= (load < LARGEST_LOAD) & (np.abs(curl) < LARGEST_CURL)
    stiffness = np.where(good, load_per_length * span**3 / load, np.nan)
    return stiffness[()], np.where(good, curl / span, np.nan)[()]


def _droops_and_slopes(load: Array, curl: Array) -> tuple[Array, Array, Array]:
    """Droops with the curl down and up, over the length, and how they move with log load and with curl."""
    loads = np.array([load, load * (1 + _NUDGE), load])
    curls = np.array([curl, curl, curl + _NUDGE])
    droops = np.asarray(droop_ratio(np.array([loads, loads]), np.array([curls, -curls])))
    here = droops[:, 0]
    return here, (droops[:, 1] - here) / _NUDGE, (droops[:, 2] - here) / _NUDGE


def _stepped(load: Array, curl: Array, missing: Array, by_load: Array, by_curl: Array) -> tuple[Array, Array]:
    """One Newton step in the logarithm of the load and in the curl, never a long one."""
    det = by_load[0] * by_curl[1] - by_load[1] * by_curl[0]
    det = np.where(np.abs(det) < 1e-12, 1e-12, det)  # steers: keeps a flat spot from dividing by nothing
    more = (missing[0] * by_curl[1] - missing[1] * by_curl[0]) / det
    bent = (by_load[0] * missing[1] - by_load[1] * missing[0]) / det
    load = np.clip(load * np.exp(np.clip(more, -0.7, 0.7)), 1e-4, LARGEST_LOAD)  # steers
    curl = np.clip(curl + np.clip(bent, -0.5, 0.5), -LARGEST_CURL, LARGEST_CURL)  # steers
    return load, curl
