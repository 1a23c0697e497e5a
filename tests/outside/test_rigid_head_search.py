"""Row 7 of the mechanics check table: the solid head, by search over points of its surface.

The pipe is the set of points inside one straight bore, the swept curve, or the other straight
bore; nothing is taken from the closed forms. For a head turned by some angle from mid bend the
search lowers the head onto the inner wall and slides points of its rim outward until one leaves
the pipe. Reference figures 1.6282, 1.2004, 0.8716 for the mitre were obtained before this project
by a different optimiser over a point cloud.
"""

from __future__ import annotations

import numpy as np
import pytest

from advisor.mechanics.head import rigid_limit, rigid_limit_step, straight_to_bind

RIM = np.linspace(0, np.pi, 181)  # the pipe is symmetric about the bend's plane


def inside(x, h, z, bore, radius, angle):
    """Whether points lie in the pipe: x along the head, h from the bend's centre, z sideways."""
    a, half = bore / 2, angle / 2
    result = np.zeros(np.broadcast(x, h, z).shape, dtype=bool)
    for side in (1, -1):
        along = side * x * np.cos(half) - h * np.sin(half)
        across = side * x * np.sin(half) + h * np.cos(half) - radius
        result |= (along >= 0) & (across**2 + z**2 <= a**2)
    swept = np.abs(np.arctan2(x, h)) <= half
    return result | (swept & ((np.hypot(x, h) - radius) ** 2 + z**2 <= a**2))


def longest(bore, diameter, radius, angle, turn=0.0):
    """Longest head at one turn from mid bend, and the point of its rim that touches (x, h)."""
    r = diameter / 2
    cosine, sine = np.cos(turn), np.sin(turn)
    z = r * np.sin(RIM)[:, None]

    def holds(x, height):
        level = height + r * np.cos(RIM)[:, None]
        return inside(x * cosine + level * sine, level * cosine - x * sine, z, bore, radius, angle)

    corner = max(bore / 2 - radius, 0) / np.cos(angle / 2) * sine  # where the inner walls meet
    near = corner + np.linspace(-0.05 * bore, 0.05 * bore, 41)[None, :]
    lower = np.cos(RIM) < 0  # the rest of the rim is the outer wall's matter
    low, high = radius - 1.5 * bore, radius + bore / 2
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (low, middle) if holds(near, middle)[lower].all() else (middle, high)
    height, ends = high, []
    for direction in (1, -1):
        good = np.zeros(len(RIM))
        bad = np.full(len(RIM), 8 * (bore + radius))
        for _ in range(40):
            probe = (good + bad) / 2
            fits = holds(direction * probe[:, None], height)[:, 0]
            good, bad = np.where(fits, probe, good), np.where(fits, bad, probe)
        ends.append((good.min(), height + r * np.cos(RIM[good.argmin()])))
    return ends[0][0] + ends[1][0], ends[0]


BENDS = np.random.default_rng(7)
CASES = [
    (BENDS.uniform(0.05, 0.97), radius, BENDS.uniform(0.3, np.pi / 2))
    for radius in (*BENDS.uniform(0.5, 2, 12), *BENDS.uniform(0, 0.5, 12), 0.5, 0.0, 0.0)
]
CASES += [(0.6, 0.0, np.pi / 2), (0.8, 0.0, np.pi / 2), (0.9, 0.0, np.pi / 2)]


@pytest.mark.parametrize(("diameter", "radius", "angle"), CASES)
def test_longest_head_and_its_touching_point(diameter, radius, angle):
    found, (x, h) = longest(1.0, diameter, radius, angle)
    assert rigid_limit(1.0, diameter, radius, angle) == pytest.approx(found, rel=1e-3)
    straight = max(x * np.cos(angle / 2) - h * np.sin(angle / 2), 0)
    # the touching place is flat in the rim angle, so it is known less well than the length
    assert straight_to_bind(1.0, diameter, radius, angle) == pytest.approx(straight, abs=5e-3)


@pytest.mark.parametrize(("diameter", "expected"), [(0.6, 1.6282), (0.8, 1.2004), (0.9, 0.8716)])
def test_mitre_against_the_earlier_point_cloud(diameter, expected):
    assert rigid_limit(1.0, diameter, 0.0, np.pi / 2) == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize(("diameter", "radius", "angle"), CASES[::3])
def test_mid_bend_is_the_tightest_place(diameter, radius, angle):
    middle = longest(1.0, diameter, radius, angle)[0]
    for share in (0.1, 0.25, 0.4):
        assert longest(1.0, diameter, radius, angle, share * angle)[0] >= middle - 1e-3


def corner_search(bore_in, bore_out, diameter, angle, leans=24, heights=60, rims=61, steps=801):
    """The longest solid cylinder that turns from one straight bore into another round a sharp inner corner.

    The corner is the origin, the first bore runs down from it and the second away at `angle`; for each lean
    and each height over the corner the cylinder grows both ways until a point of its surface leaves both.
    """
    a, b, r = bore_in / 2, bore_out / 2, diameter / 2
    out = np.array([-np.cos(angle), -np.sin(angle)])
    rim = np.linspace(0, np.pi, rims)
    along = np.linspace(-3 * (bore_in + bore_out), 3 * (bore_in + bore_out), steps)
    middle, least = steps // 2, np.inf
    for lean in np.linspace(0.05, angle - 0.05, leans):
        axis, normal = np.array([np.sin(lean), -np.cos(lean)]), np.array([-np.cos(lean), -np.sin(lean)])
        longest_here = 0.0
        for height in np.linspace(0, 1.4 * r, heights):
            x, y = (
                normal[i] * height + axis[i] * along[None, :] + (r * np.cos(rim) * normal[i])[:, None]
                for i in (0, 1)
            )
            z = (r * np.sin(rim))[:, None]
            beyond = x * out[0] + y * out[1]
            first = ((x + a) ** 2 + z**2 <= a * a * (1 + 1e-9)) & (beyond <= b)
            second = (beyond - b) ** 2 + z**2 <= b * b * (1 + 1e-9)
            held = (first | second).all(0)
            if not held[middle]:
                continue
            outside = np.flatnonzero(~held)
            at = np.searchsorted(outside, middle)
            low = outside[at - 1] if at > 0 else 0
            high = outside[at] if at < len(outside) else steps - 1
            longest_here = max(longest_here, along[high] - along[low])
        least = min(least, longest_here)
    return least


CORNERS = [  # degrees, bores, head: slim, fat, nearly as wide as the branch, back on itself
    (90, 0.05, 0.1, 0.03),
    (90, 0.05, 0.1, 0.048),
    (135, 0.077, 0.102, 0.05),
    pytest.param(90, 0.05, 0.1, 0.045, marks=pytest.mark.slow),
    pytest.param(90, 0.077, 0.102, 0.07, marks=pytest.mark.slow),
    pytest.param(135, 0.05, 0.1, 0.03, marks=pytest.mark.slow),
    pytest.param(45, 0.05, 0.1, 0.04, marks=pytest.mark.slow),
    pytest.param(90, 0.1, 0.1, 0.09, marks=pytest.mark.slow),
]


@pytest.mark.parametrize(("degrees", "bore_in", "bore_out", "diameter"), CORNERS)
def test_corner_of_two_bores_against_a_search_over_the_solid_head(degrees, bore_in, bore_out, diameter):
    angle = np.radians(degrees)
    found = corner_search(bore_in, bore_out, diameter, angle)
    assert rigid_limit_step(bore_in, bore_out, diameter, angle) == pytest.approx(found, rel=0.04)
