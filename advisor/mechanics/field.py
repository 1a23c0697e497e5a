"""The field of a transmitter in the pipe, as met above ground: how deep it lies, and where.

The transmitter is a small coil along the pipe: far from it, a magnetic dipole. Below, x runs along the pipe
with its origin above the transmitter, z upward, h is the height of the receiver's coil over the transmitter.
"""

from __future__ import annotations

import numpy as np

from advisor.mechanics.values import Values, aligned

MU_0 = 4e-7 * np.pi  # T m/A, to 1e-9 of the value measured since 2019
STEEPEST = np.radians(45)  # of a transmitter for which the peak above ground is looked for
SWEEPS = 8  # Newton's steps to the peak; the error squares in each


def dipole_field(moment: Values, along: Values, height: Values, tilt: Values) -> tuple[Values, Values]:
    """Give the field of a dipole in the upright plane through its axis.

    Shape: B = mu_0/(4 pi r^3) (3 (m.r)r/r^2 - m), m = moment (cos t, sin t), r = (x, h).
    Args:
        moment: moment of the dipole, A m^2.
        along: x of the receiver, m.
        height: h of the receiver, m; more than 0.
        tilt: t of the dipole's axis out of the level, rad.
    Returns:
        The field along the pipe and upward, T.
    Holds when: the distance is many times the length of the coil; nothing magnetic is near.
    Errors: below 2 % from 4 lengths of the coil onward; iron pipe bends the field beyond any figure.
    Source: textbook electromagnetism, from memory; compared with the field of finite loops of current, summed
        numerically (tests/outside/test_dipole_loops.py).
    """
    moment, along, height, tilt = aligned(moment, along, height, tilt)
    square = along**2 + height**2
    level, upright = np.cos(tilt), np.sin(tilt)
    scale = MU_0 * moment / (4 * np.pi * square**1.5)
    axial = 3 * (along * level + height * upright) / square
    return (scale * (axial * along - level))[()], (scale * (axial * height - upright))[()]


def nulls(height: Values, tilt: Values) -> tuple[Values, Values]:
    """Give the two places at which the field along the pipe vanishes.

    Shape: the bracket of `dipole_field` is 0: 2 x^2 + 3 h x tan t - h^2 = 0, so
        x = h (-3 tan t -+ sqrt(9 tan^2 t + 8))/4; level: x = -+ h/sqrt(2).
    Args:
        height: h of the receiver, m.
        tilt: t of the transmitter out of the level, rad, less than a right angle.
    Returns:
        The places behind and ahead, x, m.
    Holds when: as `dipole_field`.
    Errors: as `dipole_field`.
    Source: derived from `dipole_field`; compared with finite loops (tests/outside/test_dipole_loops.py).
    """
    height, tilt = aligned(height, tilt)
    slant = 3 * np.tan(tilt)
    root = np.sqrt(slant**2 + 8)
    return (height * (-slant - root) / 4)[()], (height * (-slant + root) / 4)[()]


def depth_by_nulls(spacing: Values) -> Values:
    """Give the height over a level transmitter from the spacing of the two nulls of the field along the pipe.

    Shape: `nulls` of a level transmitter lie sqrt(2) h apart, so h = spacing/sqrt(2).
    Args:
        spacing: distance from null to null along the pipe, m.
    Returns:
        Height of the receiver's coil over the transmitter, m.
    Holds when: the transmitter lies level (`spacing_excess`), the ground is level, no iron is near.
    Errors: as `dipole_field`, and the share by which the spacing is measured wrong.
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
    Source: derived from `dipole_field`; compared with finite loops (tests/outside/test_dipole_loops.py).
    """
    near, far, raised = aligned(near, far, raised)
    with np.errstate(divide="ignore"):
        found = raised / (np.cbrt(near / far) - 1)
    return np.where(near > far, found, np.inf)[()]


def spacing_excess(tilt: Values) -> Values:
    """Give the share by which the nulls of a tilted transmitter make it seem deeper than it is.

    Shape: the spacing of `nulls` over that of a level one, less 1: sqrt(1 + 9 tan^2 t/8) - 1.
    Args:
        tilt: t of the transmitter out of the level, rad.
    Returns:
        Share of the depth, no unit; infinite upright, where there are no two nulls.
    Holds when: as `nulls`.
    Errors: as `nulls`.
    Source: derived; compared with finite loops (tests/outside/test_dipole_loops.py).
    """
    (tilt,) = aligned(tilt)
    return (np.sqrt(1 + 9 * np.tan(tilt) ** 2 / 8) - 1)[()]


def peak_shift(height: Values, tilt: Values) -> Values:
    """Give how far along the pipe the strongest signal lies from the spot above a tilted transmitter.

    Shape: d/dx of the field along the pipe is 0: with u = x/h, 2 u^3 + 4 tan t u^2 - 3 u - tan t = 0; the
        root near 0, about -tan t/3, by Newton's method.
    Args:
        height: h of the receiver, m.
        tilt: t of the transmitter out of the level, rad, taken within 45 degrees.
    Returns:
        x of the peak, m.
    Holds when: the receiver's coil lies level along the pipe.
    Errors: as `dipole_field`.
    Source: derived; compared with finite loops (tests/outside/test_dipole_loops.py).
    """
    height, tilt = aligned(height, tilt)
    slant = np.tan(np.clip(tilt, -STEEPEST, STEEPEST))
    u = -slant / 3
    for _ in range(SWEEPS):
        u = u - (2 * u**3 + 4 * slant * u**2 - 3 * u - slant) / (6 * u**2 + 8 * slant * u - 3)
    return (height * u)[()]
