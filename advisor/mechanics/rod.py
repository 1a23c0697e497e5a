"""An elastic rod lying in a bend: how sharply it curves and how hard it presses on the wall."""

from __future__ import annotations

import numpy as np
from numpy.polynomial import Chebyshev, Polynomial

from advisor.mechanics.values import Array, Values, aligned

QUADRATURE_POINTS = 40
SHAPE_DEGREE = 8  # leaves the polynomial within 1e-10 of the quadrature


def elastic_radius(bore: Values, rod_diameter: Values, radius: Values, angle: Values) -> Values:
    """Give the smallest radius an unpushed rod takes on in a bend.

    Shape: rho = H/(I sqrt(s)), H the `chord_height`, I = integral of sqrt(sin) from 0 to half
        the angle, s the sine of half the angle. The rod touches outer, inner, outer wall.
    Args:
        bore: inside diameter of the pipe, m.
        rod_diameter: outside diameter of the rod, m; less than the bore.
        radius: centreline radius of the bend, m.
        angle: angle the bend turns through, rad, 0 to pi.
    Returns:
        Radius of curvature at the sharpest point, m; inf for a straight pipe.
    Holds when: each straight is at least 2 sqrt(s) H/I - (radius - (bore-rod)/2) s long;
        shorter ones bend the rod more sharply. The rod is straight when free.
    Errors: within 1.5 % of a least-energy rod in the same channel.
    Source: derived (inextensible elastica); compared with a discrete least-energy rod
        (tests/outside/test_rod_energy.py).
    """
    bore, rod_diameter, radius, angle = aligned(bore, rod_diameter, radius, angle)
    sine = np.sin(angle / 2)
    height = _height(bore, rod_diameter, radius, np.cos(angle / 2))
    spread = _root_sine_integral(angle / 2) * np.sqrt(sine)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(angle <= 0, np.inf, height / spread)[()]


def pushed_radius(bore: Values, rod_diameter: Values, radius: Values) -> Values:
    """Give the radius of a rod pushed hard against the outer wall of a bend.

    Shape: R + (D - d)/2.
    Args:
        bore: inside diameter of the pipe, m.
        rod_diameter: outside diameter of the rod, m.
        radius: centreline radius of the bend, m.
    Returns:
        Radius of the rod's centreline, m.
    Holds when: the push has lifted the rod off the inner wall.
    Errors: none beyond the wall being a true arc.
    Source: geometry; compared with points of the wall (tests/mechanics/test_rod_limits.py).
    """
    bore, rod_diameter, radius = aligned(bore, rod_diameter, radius)
    return (radius + (bore - rod_diameter) / 2)[()]


def chord_height(bore: Values, rod_diameter: Values, radius: Values, angle: Values) -> Values:
    """Give the height a rod has to bend through, from its outer contacts to its inner one.

    Shape: H = Ro - Ri c, with Ro, Ri = R +- (D-d)/2 and c the cosine of half the angle;
        H = Ro - Ri once Ri is negative and the inner wall is a sharp corner.
    Args:
        bore: inside diameter of the pipe, m.
        rod_diameter: outside diameter of the rod, m.
        radius: centreline radius of the bend, m.
        angle: angle the bend turns through, rad.
    Returns:
        Height, m, measured square to the straight pipe.
    Holds when: both straights carry an outer contact.
    Errors: none beyond the geometry.
    Source: derived; compared in tests/mechanics/test_rod_limits.py with points of the walls.
    """
    bore, rod_diameter, radius, angle = aligned(bore, rod_diameter, radius, angle)
    return _height(bore, rod_diameter, radius, np.cos(angle / 2))[()]


def stiffness_load(
    stiffness: Values, bore: Values, rod_diameter: Values, radius: Values, angle: Values
) -> Values:
    """Give the sum of the wall forces that hold an unpushed rod bent.

    Shape: S0 = I^2 (1 + c) EI/H^2, symbols as in `elastic_radius`.
    Args:
        stiffness: bending stiffness EI of the rod, N m^2.
        bore: inside diameter of the pipe, m.
        rod_diameter: outside diameter of the rod, m.
        radius: centreline radius of the bend, m.
        angle: angle the bend turns through, rad, 0 to pi.
    Returns:
        Sum of the sizes of all wall forces, N; 0 for a straight pipe.
    Holds when: as `elastic_radius`.
    Errors: within 1.5 % of a least-energy rod. A first passage needs 2 to 5 times the friction
        of this load where the rod's end butts the wall (see junction.py).
    Source: derived; compared with a discrete least-energy rod (tests/outside/test_rod_energy.py).
    """
    stiffness, bore, rod_diameter, radius, angle = aligned(stiffness, bore, rod_diameter, radius, angle)
    cosine = np.cos(angle / 2)
    ratio = _root_sine_integral(angle / 2) / _height(bore, rod_diameter, radius, cosine)
    load: Array = ratio * ratio * (1 + cosine) * stiffness
    return load[()]


def stroke_slack(bore: Values, rod_diameter: Values, angle: Values) -> Values:
    """Give the part of a stroke lost in one bend as the rod moves from inner to outer wall.

    Shape: angle (D - d).
    Args:
        bore: inside diameter of the pipe, m.
        rod_diameter: outside diameter of the rod, m.
        angle: angle the bend turns through, rad.
    Returns:
        Length of stroke that never reaches the tip, m.
    Holds when: the rod lay on the inner wall, as after a pull back.
    Errors: an upper bound: straights hold back less than a full change of wall.
    Source: derived, difference of two arcs; compared with the arcs' lengths
        (tests/mechanics/test_rod_limits.py).
    """
    bore, rod_diameter, angle = aligned(bore, rod_diameter, angle)
    return (angle * (bore - rod_diameter))[()]


def _height(bore: Array, rod_diameter: Array, radius: Array, cosine: Array) -> Array:
    clearance = (bore - rod_diameter) / 2
    inner = radius - clearance
    return radius + clearance - np.minimum(inner, inner * cosine)


def _root_sine_integral(angle: Array) -> Array:
    """Integral of sqrt(sin x) from 0 to the angle, up to pi/2."""
    square = angle * angle
    total = np.full_like(square, _SHAPE[-1])
    for coefficient in _SHAPE[-2::-1]:
        total *= square
        total += coefficient
    return total * angle * np.sqrt(angle)


def _tabulate_root_sine() -> list[float]:
    """Coefficients, in angle^2, of the integral divided by angle^(3/2), which is smooth."""
    nodes, weights = np.polynomial.legendre.leggauss(QUADRATURE_POINTS)
    nodes, weights = (nodes + 1) / 2, weights / 2

    def over_power(square: Array) -> Array:
        # with x = angle u^2 the root at zero is gone: 2 u sqrt(sin(angle u^2)/angle)
        angle = np.sqrt(square)[:, None]
        inside = 2 * nodes * np.sqrt(np.sin(angle * nodes**2) / angle)
        return np.asarray(inside @ weights)

    sampled = [0, (np.pi / 2) ** 2]  # steers: the range over which the fit is close
    fitted = Chebyshev.interpolate(over_power, SHAPE_DEGREE, domain=sampled)
    return [float(c) for c in fitted.convert(kind=Polynomial).coef]


_SHAPE = _tabulate_root_sine()
