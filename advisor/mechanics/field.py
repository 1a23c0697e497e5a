"""The field of a transmitter in the pipe, as met above ground: how deep it lies.

The transmitter is a small coil along the pipe: far from it, a magnetic dipole. Below, x runs along the pipe
with its origin above the transmitter, z upward, h is the height of the receiver's coil over the transmitter.
"""

from __future__ import annotations

import numpy as np

from advisor.mechanics.values import Values, aligned


def depth_by_nulls(spacing: Values) -> Values:
    """Give the height over a level transmitter from the spacing of the two nulls of the field along the pipe.

    Shape: the field of a dipole along its level axis, mu_0 m/(4 pi r^3) (3 x^2/r^2 - 1) with
        r^2 = x^2 + h^2, vanishes at x = -+ h/sqrt(2), so h = spacing/sqrt(2).
    Args:
        spacing: distance from null to null along the pipe, m.
    Returns:
        Height of the receiver's coil over the transmitter, m.
    Holds when: the transmitter lies level, the ground is level, no iron is near, and the distance is many
        lengths of the coil. Tilted by t it seems deeper by sqrt(1 + 9 tan^2 t/8) - 1 of the depth.
    Errors: below 2 % from 4 lengths of the coil onward, and the share by which the spacing is measured
        wrong; iron pipe bends the field beyond any figure.
    Source: derived; compared with finite loops (tests/outside/test_dipole_loops.py).
    """
    (spaced,) = aligned(spacing)
    height: Values = (spaced / np.sqrt(2))[()]
    return height


def depth_by_two_heights(near: Values, far: Values, raised: Values) -> Values:
    """Give the height over the transmitter from the signal at two heights over the same spot.

    Shape: straight above, the field falls as h^-3: near/far = ((h + d)/h)^3, so
        h = d/((near/far)^(1/3) - 1).
    Args:
        near: signal with the receiver low, any linear unit.
        far: signal with the receiver raised, the same unit; less than `near`, more than 0.
        raised: d by which it was raised, m.
    Returns:
        Height of the receiver's coil over the transmitter when low, m; infinite where the signal does not
        fall.
    Holds when: the reading is linear in the field and not scaled in between; no iron is near. At any tilt.
    Errors: a share e in near/far gives about e (h + d)/(3 d) of h: raise by half the depth or more.
    Source: derived from the field of a dipole; compared with finite loops of current
        (tests/outside/test_dipole_loops.py).
    """
    near, far, raised = aligned(near, far, raised)
    with np.errstate(divide="ignore"):
        found = raised / (np.cbrt(near / far) - 1)
    return np.where(near > far, found, np.inf)[()]
