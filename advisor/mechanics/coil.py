"""A rod coiled against the wall of a straight pipe: its loss of push per length, in closed form.

Parts of `push.py`; all take arrays that `aligned` has made alike.
"""

from __future__ import annotations

import numpy as np

from advisor.mechanics.values import Array

SMALL = 1e-12  # keeps a division finite where friction or gravity vanish


def buckling_root(stiffness: Array, weight: Array, clearance: Array, cosine: Array) -> Array:
    """sqrt(EI w cos(slope)/r), which every onset of buckling is a multiple of."""
    return np.sqrt(stiffness * weight * np.maximum(cosine, 0) / clearance)


def rates(
    friction: Array,
    weight: Array,
    slope: Array,
    stiffness: Array,
    clearance: Array,
    helical_factor: Array,
) -> tuple[Array, Array, Array]:
    """Loss per length of a lying rod (k), coiled loss per length and force^2 (A), onset."""
    cosine = np.maximum(np.cos(slope), 0)
    drag = weight * (friction * cosine - np.sin(slope))
    coil = friction * clearance / (4 * stiffness)
    return drag, coil, helical_factor * buckling_root(stiffness, weight, clearance, cosine)


def tangent_span(length: Array, drag: Array, coil: Array) -> Array:
    """Length bent by the tangent that solves dF/dx = -(k + A F^2): F = (F0-kT)/(1+A F0 T)."""
    rate = np.maximum(np.sqrt(np.abs(drag) * coil), SMALL)
    turn = rate * length
    if np.all(drag >= 0):
        return np.tan(turn) / rate
    return np.where(drag >= 0, np.tan(turn), np.tanh(turn)) / rate


def coiled_length(force: Array, force_end: Array, drag: Array, coil: Array) -> Array:
    """Length over which a coiled rod's push falls from force to force_end; inf if never."""
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
