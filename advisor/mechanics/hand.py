"""The free rod between the hand and the opening: how close to hold it, how far to stroke."""

from __future__ import annotations

import numpy as np

from advisor.mechanics.elastica import complete_elliptic, post_buckling
from advisor.mechanics.values import Values, aligned

ENDS_MEET = 0.8261147659  # elliptic parameter at which 2 E = K: the folded rod's ends touch
NEWTON_STEPS = 7  # the last one no longer moves a double; see safe_stroke


def euler_load(stiffness: Values, length: Values, end_factor: Values) -> Values:
    """Give the push at which a free length of rod folds sideways.

    Shape: pi^2 EI/(K l)^2.
    Args:
        stiffness: bending stiffness EI, N m^2.
        length: free length, m.
        end_factor: K: 1 for two loose ends, 0.7 for one held in line, 0.5 for both.
    Returns:
        Push, N.
    Holds when: the free length is straight.
    Errors: a rod with curl folds sooner.
    Source: Euler; compared with a calculator handbook's worked column
        (tests/outside/test_euler_handbook.py).
    """
    stiffness, length, end_factor = aligned(stiffness, length, end_factor)
    ratio = np.pi / (end_factor * length)
    return (ratio * ratio * stiffness)[()]


def largest_hand_distance(stiffness: Values, force: Values, end_factor: Values, safety: Values) -> Values:
    """Give the longest free rod between hand and opening that does not fold under a push.

    Shape: (pi/K) sqrt(EI/(safety F)).
    Args:
        stiffness: bending stiffness EI, N m^2.
        force: push, N.
        end_factor: K, as `euler_load`.
        safety: factor on the push, no unit.
    Returns:
        Distance, m.
    Holds when: as `euler_load`. A folding rod keeps its push: the hand feels no warning. It is the
        longest stroke toward a guiding hand as well, which starts as free rod between the hands.
    Errors: as `euler_load`; a stroke is not short enough to outrun the fold, which grows in
        4 to 6 ms against a contact of some 20 ms.
    Source: Euler, solved for the length; compared in tests/outside/test_euler_handbook.py.
    """
    stiffness, force, end_factor, safety = aligned(stiffness, force, end_factor, safety)
    return (np.pi / end_factor * np.sqrt(stiffness / (safety * force)))[()]


def safe_stroke(length: Values, minimum_radius: Values) -> Values:
    """Give how far the hand may go on after the tip has stopped before the free rod is harmed.

    Shape: l (2 - 2 E/K) at the fold whose sharpest curve is the smallest radius: 4 k K = l/rho.
    Args:
        length: free length between hand and opening, m.
        minimum_radius: smallest radius the rod may be bent to, m.
    Returns:
        Stroke, m; at most the length itself, when the ends of the fold meet.
    Holds when: both ends turn freely.
    Errors: none beyond the elastica.
    Source: derived from the elastica; compared with a least-energy discrete rod's figures
        (tests/outside/test_elastica_table.py).
    """
    length, minimum_radius = aligned(length, minimum_radius)
    wanted = length / (4 * minimum_radius)
    # k K(k) rises and curves upward, so Newton from the far end never oversteps the root.
    last = float(np.sqrt(ENDS_MEET))
    k = np.full_like(wanted, last)
    for _ in range(NEWTON_STEPS):
        first, second = complete_elliptic(k * k)
        run = (1 - k * k) / second  # steers: the inverse slope of k K(k)
        k = np.clip(k - (k * first - wanted) * run, 0, last)
    _, chord, _ = post_buckling(k * k)
    return (length * (1 - chord))[()]
