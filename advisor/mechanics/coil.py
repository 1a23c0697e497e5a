"""A rod coiled against the wall of a straight pipe: its loss of push per length, in closed form.

Parts of `push.py`; all take arrays that `aligned` has made alike.
"""

from __future__ import annotations

import numpy as np

from advisor.mechanics.values import Array

SMALL = 1e-12  # keeps a division finite where friction or gravity vanish


def buckling_root(stiffness: Array, weight: Array, clearance: Array, cosine: Array) -> Array:
    """Give the force which every onset of buckling is a multiple of.

    Shape: sqrt(EI w cos(slope)/r).
    Args:
        stiffness: bending stiffness EI, N m^2.
        weight: weight per length of the rod, N/m.
        clearance: half the bore less half the rod, m.
        cosine: cosine of the slope of the pipe, no unit.
    Returns:
        Force, N; 0 in a vertical pipe.
    Holds when: the run is many wavelengths long.
    Errors: published factors on it for coiling range from 2.83 to 5.66.
    Source: course notes on drill-string mechanics citing Chen, Lin and Cheatham 1990; compared in form
        (tests/mechanics/test_push_limits.py).
    """
    return np.sqrt(stiffness * weight * np.maximum(cosine, 0) / clearance)


def rates(
    friction: Array,
    weight: Array,
    slope: Array,
    stiffness: Array,
    clearance: Array,
    helical_factor: Array,
) -> tuple[Array, Array, Array]:
    """Give the three numbers that the loss of push along a straight run depends on.

    Shape: k = w (mu cos(slope) - sin(slope)); A = mu r/(4 EI); onset =
        helical_factor sqrt(EI w cos(slope)/r).
    Args:
        friction: coefficient of friction, no unit.
        weight: weight per length of the rod, N/m.
        slope: downhill angle toward the tip, rad.
        stiffness: bending stiffness EI, N m^2.
        clearance: half the bore less half the rod, m.
        helical_factor: 2.83 to 5.66, no unit.
    Returns:
        Loss per length of a lying rod, N/m; what coiling adds per length and squared force,
        1/(N m); the push above which the rod is coiled, N.
    Holds when: the rod slides and a coil lies against the wall all round.
    Errors: as `push_straight`.
    Source: as `push_straight`, which compares it.
    """
    cosine = np.maximum(np.cos(slope), 0)
    drag = weight * (friction * cosine - np.sin(slope))
    coil = friction * clearance / (4 * stiffness)
    return drag, coil, helical_factor * buckling_root(stiffness, weight, clearance, cosine)


def tangent_span(length: Array, drag: Array, coil: Array) -> Array:
    """Give the length, bent by the tangent, with which a coiled run is solved in closed form.

    Shape: dF/dx = -(k + A F^2) has F = (F0 - k T)/(1 + A F0 T) with T = tan(sqrt(k A) x)/sqrt(k A);
        tanh in place of tan where k is below zero.
    Args:
        length: length x of the run, m.
        drag: loss per length k of a lying rod, N/m.
        coil: what coiling adds, A, 1/(N m).
    Returns:
        T, m.
    Holds when: the tangent stays short of its pole; `push_straight` cuts the run before it.
    Errors: rounding only.
    Source: derived by separating the variables; compared as `push_straight`.
    """
    rate = np.maximum(np.sqrt(np.abs(drag) * coil), SMALL)
    turn = rate * length
    if np.all(drag >= 0):
        return np.tan(turn) / rate
    return np.where(drag >= 0, np.tan(turn), np.tanh(turn)) / rate


def coiled_length(force: Array, force_end: Array, drag: Array, coil: Array) -> Array:
    """Give the length over which a coiled rod's push falls from one value to another.

    Shape: x = arctan(sqrt(k A) s)/sqrt(k A) with s = (F0 - F1)/(k + A F0 F1): the inverse of
        `tangent_span`.
    Args:
        force: push at the near end F0, N.
        force_end: push at the far end F1, N.
        drag: loss per length k of a lying rod, N/m.
        coil: what coiling adds, A, 1/(N m).
    Returns:
        Length, m; 0 where it has fallen that far already, infinite where it never does.
    Holds when: the rod is coiled all the way.
    Errors: rounding only.
    Source: derived; compared as `reach_straight` in tests/outside/test_push_ode.py.
    """
    rate = np.maximum(np.sqrt(np.abs(drag) * coil), SMALL)
    drop = force - force_end
    loss = drag + coil * force * force_end
    span = drop / np.where(loss > 0, loss, SMALL)
    turn = rate * span
    length = (
        np.arctan(turn)
        if np.all(drag >= 0)
        else np.where(drag >= 0, np.arctan(turn), np.arctanh(np.clip(turn, 0, 1 - 1e-7)))
    )
    never = (loss <= 0) | ((drag < 0) & (turn >= 1))
    return np.where(drop <= 0, 0, np.where(never, np.inf, length / rate))
