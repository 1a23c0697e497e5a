"""The round section of a rod: its weight, and the stiffness and smallest bend of its core."""

from __future__ import annotations

import numpy as np

from advisor.mechanics.values import Values, aligned

GRAVITY = 9.80665  # m/s^2, standard


def rod_weight_per_length(density: Values, fill: Values, diameter: Values) -> Values:
    """Give the weight per length of a rod by its whole section.

    Shape: rho f g pi d^2/4.
    Args:
        density: rho of what the core is made of, kg/m^3.
        fill: weight f of the rod over that of its core's material as thick as the rod, no unit.
        diameter: outside diameter d of the rod, m.
    Returns:
        Weight per length, N/m.
    Holds when: the rod is round and the same all along.
    Errors: as good as `fill`; a weighed rod stands above it.
    Source: definition; compared with a section summed in small squares (tests/mechanics/test_section.py).
    """
    density, fill, diameter = aligned(density, fill, diameter)
    return (density * fill * GRAVITY * (np.pi / 4 * diameter**2))[()]


def core_stiffness(modulus: Values, core: Values) -> Values:
    """Give the bending stiffness of a round core.

    Shape: E pi d^4/64.
    Args:
        modulus: E along the core, Pa.
        core: diameter d of the core, m.
    Returns:
        Bending stiffness EI, N m^2.
    Holds when: the core carries all the stiffness; a jacket adds little.
    Errors: four times the share by which the diameter is off.
    Source: beam theory; compared with a section summed in small squares (tests/mechanics/test_section.py).
    """
    modulus, core = aligned(modulus, core)
    return (modulus * (np.pi / 64) * core**4)[()]


def core_diameter(stiffness: Values, modulus: Values) -> Values:
    """Give the diameter of the round core that is so stiff.

    Shape: (64 EI/(pi E))^(1/4), the inverse of `core_stiffness`.
    Args:
        stiffness: bending stiffness EI, N m^2.
        modulus: E along the core, Pa.
    Returns:
        Diameter, m.
    Holds when: as `core_stiffness`.
    Errors: a quarter of the share by which the stiffness is off.
    Source: inverse of `core_stiffness`; compared with it.
    """
    stiffness, modulus = aligned(stiffness, modulus)
    return ((64 * stiffness / (np.pi * modulus)) ** 0.25)[()]


def smallest_bend_radius(core: Values, strain_limit: Values) -> Values:
    """Give the smallest radius that a core may be bent to.

    Shape: d/(2 strain).
    Args:
        core: diameter d of the core, m.
        strain_limit: largest strain the outermost fibre bears, no unit.
    Returns:
        Radius of the core's axis, m.
    Holds when: the axis keeps its length, as in pure bending.
    Errors: as good as the strain limit.
    Source: beam theory; compared with the lengths of two arcs (tests/mechanics/test_section.py).
    """
    core, strain_limit = aligned(core, strain_limit)
    return (core / (2 * strain_limit))[()]
