"""Water running in a part-full round pipe."""

from __future__ import annotations

import numpy as np

from advisor.mechanics.values import Array, Values, aligned

FULLEST_SHARE = 0.938  # depth over bore at which the flow peaks; above it the pipe fills
HALVINGS = 30  # depth to 1e-9 of the bore


def manning_flow(diameter: Values, depth: Values, slope: Values, roughness: Values) -> Values:
    """Give the steady flow at a depth.

    Shape: A (A/P)^(2/3) sqrt(slope)/n, A = D^2 (t - sin t)/8, P = D t/2,
        t = 2 acos(1 - 2 y/D).
    Args:
        diameter: inside diameter, m.
        depth: depth of water, m; taken between 0 and the diameter.
        slope: fall over length, no unit.
        roughness: Manning's n, s/m^(1/3).
    Returns:
        Flow, m^3/s.
    Holds when: the flow is steady and uniform, which takes many diameters of pipe.
    Errors: some 10 to 20 % through n.
    Source: Manning; compared with a published exercise and a general-purpose fluids library
        (tests/outside/test_manning.py).
    """
    diameter, depth, slope, roughness = aligned(diameter, depth, slope, roughness)
    share = np.clip(depth / diameter, 0, 1)
    return (full_flow(diameter, slope, roughness) * _flow_share(share))[()]


def full_flow(diameter: Values, slope: Values, roughness: Values) -> Values:
    """Give the steady flow of a pipe running just full.

    Shape: (pi D^2/4) (D/4)^(2/3) sqrt(slope)/n.
    Args:
        diameter: inside diameter, m.
        slope: fall over length, no unit.
        roughness: Manning's n, s/m^(1/3).
    Returns:
        Flow, m^3/s.
    Holds when: as `manning_flow`, without pressure.
    Errors: as `manning_flow`.
    Source: as `manning_flow`.
    """
    diameter, slope, roughness = aligned(diameter, slope, roughness)
    area = np.pi / 4 * diameter * diameter
    return (area * (diameter / 4) ** (2 / 3) * np.sqrt(slope) / roughness)[()]


def normal_depth(flow: Values, diameter: Values, slope: Values, roughness: Values) -> Values:
    """Give the depth at which a steady flow runs.

    Shape: inverse of `manning_flow` below its peak, by bisection.
    Args:
        flow: flow, m^3/s.
        diameter: inside diameter, m.
        slope: fall over length, no unit.
        roughness: Manning's n, s/m^(1/3).
    Returns:
        Depth, m; the diameter itself when the pipe runs full.
    Holds when: as `manning_flow`.
    Errors: as `manning_flow`.
    Source: compared with a general-purpose fluids library (tests/outside/test_manning.py).
    """
    flow, diameter, slope, roughness = aligned(flow, diameter, slope, roughness)
    wanted = flow / full_flow(diameter, slope, roughness)
    low = np.zeros_like(wanted)
    step = np.full_like(wanted, FULLEST_SHARE)
    for _ in range(HALVINGS):
        step = step / 2
        low = np.where(_flow_share(low + step) <= wanted, low + step, low)
    full = wanted >= _flow_share(np.asarray(FULLEST_SHARE, dtype=wanted.dtype))
    return (diameter * np.where(full, 1, low))[()]


def _flow_share(share: Array) -> Array:
    """Flow over full flow at a depth given as a share of the bore."""
    turn = 2 * np.arccos(1 - 2 * share)
    segment = np.maximum(turn - np.sin(turn), 0)
    share_of_full: Array = segment ** (5 / 3) / (2 * np.pi * np.maximum(turn, 1e-6) ** (2 / 3))
    return share_of_full
