"""Rows 3 to 6 of the mechanics check table: a rectangle in a planar pipe, by polygon algebra.

A rectangle at one tilt fits if the pipe, eroded by its two sides, is not empty. The longest head
is the least over the tilts it must go through of the longest rectangle that fits. The numbers
.2642, .4175, .1378 and .2642/.3126/.3969/.3982 were found this way before this project, on a
coarser grid; here the search is run again.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from shapely import LineString, Polygon, affinity, box, union_all

from advisor.mechanics.head import rigid_limit, rigid_limit_s, rigid_limit_u

pytestmark = pytest.mark.slow


def pipe(bore, radius, turns, spacing, leg):
    """Polygon of a pipe that starts along x; a positive turn goes left."""
    point, heading, line = np.array([-leg, 0.0]), 0.0, [np.array([-leg, 0.0])]
    for number, turn in enumerate(turns):
        point = point + (leg if number == 0 else spacing) * direction(heading)
        line.append(point)
        side = np.sign(turn)
        centre = point + side * radius * direction(heading + np.pi / 2)
        for step in np.linspace(0, turn, 90)[1:]:
            point = centre - side * radius * direction(heading + step + np.pi / 2)
            line.append(point)
        heading += turn
    line.append(point + leg * direction(heading))
    return LineString(line).buffer(bore / 2, cap_style="flat", join_style="mitre", quad_segs=64)


def direction(angle):
    return np.array([np.cos(angle), np.sin(angle)])


def eroded(shape, vector, frame):
    """Points from which the whole of a segment along the vector stays in the shape."""
    outside = frame.difference(shape)
    pieces = [outside, affinity.translate(outside, *-vector)]
    for part in getattr(outside, "geoms", [outside]):
        for ring in (part.exterior, *part.interiors):
            ends = np.asarray(ring.coords)
            for start, end in pairwise(ends):
                swept = Polygon([start, end, end - vector, start - vector])
                if swept.area > 0:
                    pieces.append(swept)
    return frame.difference(union_all(pieces))


def longest(shape, diameter, tilt, low, high):
    frame = box(*(np.array(shape.bounds) + np.array([-1, -1, 1, 1]) * high))
    thin = eroded(shape, diameter * direction(tilt + np.pi / 2), frame)
    while high - low > 2e-4 * low:
        middle = (low + high) / 2
        fits = not thin.is_empty and not eroded(thin, middle * direction(tilt), frame).is_empty
        low, high = (middle, high) if fits else (low, middle)
    return low


def search(bore, diameter, radius, turns, spacing, tilts):
    shape = pipe(bore, radius, turns, spacing, leg=0.8)
    return min(longest(shape, diameter, tilt, 0.05, 0.6) for tilt in tilts)


@pytest.mark.parametrize(
    ("bore", "diameter", "radius", "degrees"),
    [(0.1, 0.03, 0.1, 90), (0.1, 0.03, 0.15, 45), (0.077, 0.04, 0.0385, 90)],
)
def test_one_bend(bore, diameter, radius, degrees):
    angle = np.radians(degrees)
    found = search(bore, diameter, radius, [angle], 0, angle * np.array([0.4, 0.5]))
    assert rigid_limit(bore, diameter, radius, angle) == pytest.approx(found, rel=5e-3)


@pytest.mark.parametrize(
    ("diameter", "radius", "degrees", "spacing"),
    [
        (0.03, 0.1, 45, 0.0),
        (0.03, 0.1, 45, 0.05),
        (0.03, 0.1, 45, 0.15),
        (0.03, 0.1, 45, 0.3),
        (0.05, 0.08, 60, 0.05),
        (0.05, 0.05, 30, 0.1),
        (0.05, 0.10, 28.6, 0.185),  # beyond `straight_to_bind`, yet tighter than one bend
    ],
)
def test_two_bends_to_one_side(diameter, radius, degrees, spacing):
    angle = np.radians(degrees)
    tilts = angle * np.linspace(0.4, 1.0, 7)  # the rest by the pair's symmetry
    found = search(0.1, diameter, radius, [angle, angle], spacing, tilts)
    assert rigid_limit_u(0.1, diameter, radius, angle, spacing) == pytest.approx(found, rel=5e-3)


def test_two_sharp_corners_to_one_side():
    """Sharp inner corners under a curved back: the polygon is built from the two walls."""
    angle, spacing, a, radius = np.pi / 4, 0.12, 0.05, 0.02
    shape = pipe(0.1, radius, [angle, angle], spacing, leg=0.8)
    found = min(longest(shape, 0.03, tilt, 0.05, 0.6) for tilt in angle * np.linspace(0.3, 1.0, 8))
    assert a > radius
    assert rigid_limit_u(0.1, 0.03, radius, angle, spacing) == pytest.approx(found, rel=5e-3)


@pytest.mark.parametrize("gap", [0.95, 1.05])
def test_line_of_sight_through_two_opposite_bends(gap):
    """Just on either side of line of sight, a very long head lying straight along the pipe."""
    angle, spacing = np.pi / 8, 0.04
    offset = 2 * 0.1 * (1 - np.cos(angle)) + spacing * np.sin(angle)
    diameter = 0.1 - gap * offset
    shape = pipe(0.1, 0.1, [angle, -angle], spacing, leg=0.8)
    sees = longest(shape, diameter, 0.0, 0.05, 1.2) > 1.1
    assert np.isinf(rigid_limit_s(0.1, diameter, 0.1, angle, spacing)) == sees
