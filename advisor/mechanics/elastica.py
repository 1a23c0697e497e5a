"""The elastica: large bending of a thin rod, by push (fold) or by its own weight (droop)."""

from __future__ import annotations

import numpy as np

from advisor.mechanics.values import Array, Values, aligned

MEANS = 6  # arithmetic-geometric means converge quadratically: 6 reach a double below m = 0.9999
DROOP_STEPS = 40  # Runge-Kutta steps along the rod: 1e-7 of the droop up to a load of 40
NEWTON_STEPS = 30


def complete_elliptic(parameter: Values) -> tuple[Values, Values]:
    """Give the complete elliptic integrals of the first and second kind.

    Shape: K(m), E(m) with m = k^2, by the arithmetic-geometric mean.
    Args:
        parameter: m, no unit, 0 to 0.9999.
    Returns:
        K and E, no unit.
    Holds when: 0 <= m <= 0.9999.
    Errors: rounding only.
    Source: Gauss; compared with a general-purpose library (tests/outside/test_elastica_table.py).
    """
    (parameter,) = aligned(parameter)
    mean, root = np.ones_like(parameter), np.sqrt(1 - parameter)
    weight, deficit = 0.5, parameter / 2
    for _ in range(MEANS):
        half_gap = (mean - root) / 2
        mean, root = (mean + root) / 2, np.sqrt(mean * root)
        weight *= 2
        deficit = deficit + weight * half_gap * half_gap
    first = np.pi / (2 * mean)
    return first[()], (first * (1 - deficit))[()]


def post_buckling(parameter: Values) -> tuple[Values, Values, Values]:
    """Give the state of a folded rod with freely turning ends.

    Shape: (2 K/pi)^2, 2 E/K - 1, 4 k K, with k = sqrt(m) the sine of half the end angle.
    Args:
        parameter: m, no unit, 0 (just folding) to 0.9999.
    Returns:
        Push over the Euler load; distance of the ends over the length; sharpest curvature
        times the length. No units.
    Holds when: the rod is straight when free and carries no weight.
    Errors: none beyond the elastica.
    Source: Euler's elastica; compared with a textbook table from memory and with a discrete
        rod (tests/outside/test_elastica_table.py).
    """
    (parameter,) = aligned(parameter)
    first, second = complete_elliptic(parameter)
    ratio = 2 * first / np.pi
    return ratio * ratio, 2 * second / first - 1, 4 * np.sqrt(parameter) * first


def droop_ratio(load: Values, curl: Values = 0.0) -> Values:
    """Give the droop of the free end of a rod clamped level, as a share of its length.

    Shape: theta'' = -W (1-s) cos(theta), theta(0) = 0, theta'(1) = c; droop = integral of
        sin(theta). W/8 + c/2 for small W and c.
    Args:
        load: W = w l^3/EI, no unit, 0 to 100; to 40 with a curl.
        curl: c = l over the radius of the rod's own curl, no unit, -2 to 2, above 0 where it
            points down.
    Returns:
        Droop over length, no unit; below 0 where the curl holds the end above the clamp.
    Holds when: the curl is the same all along and lies upright.
    Errors: 1e-6 of the length up to W = 20; near the full length the inverse is ill-posed.
    Source: heavy elastica; compared with a boundary-value solver
        (tests/outside/test_heavy_elastica.py).
    """
    load, curl = aligned(load, curl)
    kind = load.dtype
    work, bow = np.broadcast_arrays(load.astype(np.float64), curl.astype(np.float64))
    # Shoot from the free end, where only the curl bends it, for the end angle that leaves the clamp
    # level. The angle at the clamp rises with the end angle; bisect whenever Newton leaves.
    low, high = np.full_like(work, -np.pi), np.full_like(work, np.pi)
    end = np.minimum(work / 6, 1.0) + bow  # steers: the light rod's end angle
    end = np.clip(end, -1.5, 1.5)  # steers: a start between the bounds
    droop = np.zeros_like(work)
    for _ in range(NEWTON_STEPS):
        clamp, slope, droop = _shoot(work, bow, end)
        low, high = np.where(clamp < 0, end, low), np.where(clamp < 0, high, end)
        newton = end - clamp / slope
        inside = (newton > low) & (newton < high)
        level = np.abs(clamp) < 1e-12  # a rod that is there stays, while others are still on their way
        end = np.where(level, end, np.where(inside, newton, (low + high) / 2))
        if np.all(level):
            break
    return droop.astype(kind)[()]


def _shoot(load: Array, curl: Array, end: Array) -> tuple[Array, Array, Array]:
    """Angle at the clamp, its derivative by the end angle, and the droop, from the free end."""
    step = 1 / DROOP_STEPS
    zero = np.zeros_like(load)
    # angle, its slope, both differentiated by the end angle, droop so far
    state = np.array([end, -curl, np.ones_like(end), zero, zero])

    def rates(at: float, y: Array) -> Array:
        pull = load * at
        return np.array([y[1], -pull * np.cos(y[0]), y[3], pull * np.sin(y[0]) * y[2], np.sin(y[0])])

    for number in range(DROOP_STEPS):
        at = number * step
        k1 = rates(at, state)
        k2 = rates(at + step / 2, state + step / 2 * k1)
        k3 = rates(at + step / 2, state + step / 2 * k2)
        k4 = rates(at + step, state + step * k3)
        state = state + step / 6 * (k1 + 2 * k2 + 2 * k3 + k4)
    return state[0], state[2], state[4]
