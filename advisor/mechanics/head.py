"""How long a rigid head may be and still turn through a bend.

One picture serves every function here. The bend's centre is the origin; the head lies along x,
its axis at height h above the centre, where h comes from the inner wall it leans on. From there
its flat end runs along x until a point of its rim meets the outer wall: in the curved part, or
in the straight pipe beyond, which makes the angle `tilt` with the head.

A bend whose radius is below half the bore has no inner curve left. Its straight walls are taken
to run on until they meet in a sharp corner, so radius 0 is a true mitre.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from advisor.mechanics.values import Array, Values, aligned

SMALL = 1e-12  # keeps a division finite where the result is replaced afterwards
COARSE_STEPS = 16  # finds the right valley: two valleys were the most seen over 3000 random bends
END_TILT = 1 / 64  # steers: a share of the corner's angle
CORNER_STEPS = 3  # Newton about a sharp corner: the length then stands still to 1e-5 (200,000 random ones)
HALVINGS = 9  # then the tilt is known to 1/16 of 2^-9 of the bend angle


def rigid_limit(bore: Values, diameter: Values, radius: Values, angle: Values) -> Values:
    """Give the longest flat-ended rigid head that turns through one bend between long straights.

    Shape: ends in the curve L = 2 sqrt((R+a)^2 - (h+r)^2); ends in the straights
        L = 2 (R + y - h c)/s, with a, r half the bore and head, c, s of half the angle,
        h = R - a + r, and y = a - r c, or y = s sqrt(a^2 - r^2) when r > a c, where the rim
        beside the bend's plane touches first. All arguments broadcast.
    Args:
        bore: inside diameter of the pipe, m.
        diameter: diameter of the head, m.
        radius: centreline radius of the bend, m; 0 is a mitre.
        angle: angle the bend turns through, rad, 0 to pi.
    Returns:
        Longest length, m; inf for a straight pipe, 0 when the head is as wide as the bore.
    Holds when: both straights are at least `straight_to_bind` long; the two bores are equal.
        Rounded ends or shorter straights only make it easier.
    Errors: exact for radius >= bore/2 and for radius 0. Between them (sharp inner corner under
        a curved back) within 0.1 % of a search over positions, for angles up to 90 degrees.
    Source: derived; compared with a ladder-in-hallways formula, a published conduit answer,
        planar polygons and a search over points of the solid head
        (tests/outside/test_rigid_head_*.py).
    """
    bore, diameter, radius, angle = aligned(bore, diameter, radius, angle)
    a, r, half = bore / 2, diameter / 2, angle / 2
    height = _axis_height(a, r, radius, 1 / np.maximum(np.cos(half), SMALL))
    length = 2 * _one_way(a, r, radius, height, half)
    return np.where(diameter >= bore, 0, np.where(angle <= 0, np.inf, length))[()]


def straight_to_bind(bore: Values, diameter: Values, radius: Values, angle: Values) -> Values:
    """Give the straight pipe a bend needs on each side before `rigid_limit` is reached.

    Shape: x = t c - z s for the rim point (t, z) that touches, t = L/2; 0 if inside the curve.
    Args:
        bore: inside diameter of the pipe, m.
        diameter: diameter of the head, m.
        radius: centreline radius of the bend, m.
        angle: angle the bend turns through, rad, 0 to pi.
    Returns:
        Length of straight from the end of the curve, m; inf for a straight pipe.
    Holds when: as `rigid_limit`; where the pipe opens out sooner, that limit is too strict. A second
        bend to the same side still tells up to 1.25 times this far on, by up to 7 % (11 % at a
        sharp corner): the head is then tightest away from mid bend, see `rigid_limit_u`.
    Errors: as `rigid_limit`.
    Source: derived; compared with a search over points of the solid head
        (tests/outside/test_rigid_head_search.py).
    """
    bore, diameter, radius, angle = aligned(bore, diameter, radius, angle)
    a, r, half = bore / 2, diameter / 2, angle / 2
    cosine, sine = np.cos(half), np.sin(half)
    height = _axis_height(a, r, radius, 1 / np.maximum(cosine, SMALL))
    side = np.sqrt(np.maximum(a * a - r * r, 0))
    touching = height + np.minimum(r, side * cosine / np.maximum(sine, SMALL))
    straight = _one_way(a, r, radius, height, half) * cosine - touching * sine
    straight = np.where(diameter >= bore, 0, np.maximum(straight, 0))
    return np.where(angle <= 0, np.inf, straight)[()]


def rigid_limit_u(bore: Values, diameter: Values, radius: Values, angle: Values, spacing: Values) -> Values:
    """Give the longest rigid head that turns through two equal bends to the same side.

    Shape: least over the tilt b in [0, angle] of back(b) + ahead(angle - b), each the distance
        to the outer wall; ahead may end on the second bend, whose centre lies one spacing on.
    Args:
        bore: inside diameter of the pipe, m.
        diameter: diameter of the head, m.
        radius: centreline radius of both bends, m.
        angle: angle of each bend, rad, 0 to pi/2.
        spacing: straight pipe between the two bends, m.
    Returns:
        Longest length, m; never more than `rigid_limit` of one bend.
    Holds when: the straights before and after the pair are long; both bends lie in one plane.
    Errors: the search over b errs by under 0.01 %. Strict for radius < bore/2 while the spacing is
        below (bore - 2 radius) tan(angle/2): the outer two inner walls then meet first.
    Source: derived; compared with planar polygons (tests/outside/test_rigid_head_shapely.py).
    """
    bore, diameter, radius, angle, spacing = aligned(bore, diameter, radius, angle, spacing)
    a, r, half = bore / 2, diameter / 2, angle / 2
    across = np.maximum(np.cos(half), SMALL)

    def length(share: Array) -> Array:
        tilt = share * angle
        height = _axis_height(a, r, radius, np.cos(tilt - half) / across)
        ahead = angle - tilt
        sine, cosine = np.sin(ahead), np.cos(ahead)
        first = _one_way(a, r, radius, height, ahead)
        second = spacing * cosine + _one_way(a, r, radius, height + spacing * sine, ahead + angle)
        short = first * cosine - (height + r) * sine <= spacing
        return _one_way(a, r, radius, height, tilt) + np.where(short, first, second)

    single = rigid_limit(bore, diameter, radius, angle)
    shortest = _least(length, single)
    settled = np.isinf(single) | (single == 0)  # no turn, or no room: nothing to search
    return np.where(settled, single, np.minimum(single, shortest))[()]


def rigid_limit_s(bore: Values, diameter: Values, radius: Values, angle: Values, spacing: Values) -> Values:
    """Give the longest rigid head that turns through two equal bends to opposite sides.

    Shape: that of one bend, since the second opens away; inf where a straight line passes both,
        2 R (1 - cos angle) + spacing sin angle <= bore - diameter.
    Args:
        bore: inside diameter of the pipe, m.
        diameter: diameter of the head, m.
        radius: centreline radius of both bends, m.
        angle: angle of each bend, rad, 0 to pi/2.
        spacing: straight pipe between the two bends, m.
    Returns:
        Longest length, m.
    Holds when: the bends lie in one plane.
    Errors: strict just above line of sight, where a longer head may still pass.
    Source: derived; line of sight compared with planar polygons
        (tests/outside/test_rigid_head_shapely.py).
    """
    bore, diameter, radius, angle, spacing = aligned(bore, diameter, radius, angle, spacing)
    offset = 2 * radius * (1 - np.cos(angle)) + spacing * np.sin(angle)
    clear = (offset <= bore - diameter) & (diameter < bore)
    return np.where(clear, np.inf, rigid_limit(bore, diameter, radius, angle))[()]


def rigid_limit_step(bore_in: Values, bore_out: Values, diameter: Values, angle: Values) -> Values:
    """Give the longest rigid head that turns a sharp corner from one bore into another.

    Shape: least over the tilt b of (D1 - d cos b)/sin b + (D2 - d cos(angle-b))/sin(angle-b), and no more
        than a mitre of the middle bore allows.
    Args:
        bore_in: inside diameter before the corner, m.
        bore_out: inside diameter after the corner, m.
        diameter: diameter of the head, m.
        angle: angle the corner turns through, rad, 0 to 2.7.
    Returns:
        Longest length, m; inf for no turn, 0 when the head is as wide as the smaller bore.
    Holds when: both straights are long and the inner corner is sharp.
    Errors: exact for equal bores, and while the head is slimmer than each bore times the cosine of its
        tilt there. A fatter head touches beside the plane and is bounded by the mitre of the middle bore
        too: within 3 % of a search over points of the solid head.
    Source: derived; compared with the published ladder in two hallways and a search over points of the
        solid head (tests/outside/test_rigid_head_published.py, test_rigid_head_search.py).
    """
    bore_in, bore_out, diameter, angle = aligned(bore_in, bore_out, diameter, angle)
    narrow = np.minimum(bore_in, bore_out)
    room = diameter < narrow
    d = np.where(room, diameter, narrow)
    # The answer where the angle is small: (D1 - d)/b + (D2 - d)/c, least where b/c is their ratio's root.
    first, second = np.sqrt(bore_in - d), np.sqrt(bore_out - d)
    tilt = angle * first / np.maximum(first + second, SMALL)
    for _ in range(CORNER_STEPS):
        before, rise_before = _corner_slope(bore_in, d, tilt)
        after, rise_after = _corner_slope(bore_out, d, angle - tilt)
        # The slope of the length only rises with the tilt, so Newton keeps its direction; the ends, where
        # the length is boundless, stay out of reach.
        tilt = np.clip(
            tilt - (before - after) / (rise_before + rise_after), angle * END_TILT, angle * (1 - END_TILT)
        )
    across_in, across_out = np.cos(tilt), np.cos(angle - tilt)
    length = (bore_in - d * across_in) / np.maximum(np.sin(tilt), SMALL) + (
        bore_out - d * across_out
    ) / np.maximum(np.sin(angle - tilt), SMALL)
    # A fat head touches beside the plane, which the mitre of the middle bore knows.
    length = np.minimum(length, rigid_limit((bore_in + bore_out) / 2, d, 0.0 * narrow, angle))
    return np.where(room, np.where(angle <= 0, np.inf, length), 0)[()]


def _corner_slope(bore: Array, diameter: Array, tilt: Array) -> tuple[Array, Array]:
    """Slope over the tilt of the head's part on one side of a sharp corner, and the slope's own slope."""
    sine, cosine = np.maximum(np.sin(tilt), SMALL), np.cos(tilt)
    square = sine * sine
    rise = (bore * (1 + cosine * cosine) - 2 * diameter * cosine) / (square * sine)
    return (diameter - bore * cosine) / square, rise


def _axis_height(a: Array, r: Array, radius: Array, lean: Array) -> Array:
    """Height of the head's axis when it rests on the inner wall.

    lean is cos(turn from mid bend)/cos(half the angle): how far the head cuts across a corner.
    """
    smooth = radius - a + r
    if np.all(radius >= a):
        return smooth
    side = np.sqrt(np.maximum(a * a - r * r, 0))
    edge = np.sqrt(np.maximum(lean * lean - 1, 0))
    # A fat head touches the corner's edge beside the plane: where the two straight bores cross
    # or, when that would lie beyond mid bend, at the point where the curved back begins.
    beside = np.where(
        radius * edge <= lean * side,
        radius * lean - side * edge,
        np.sqrt(np.maximum(radius * radius - side * side, 0)),
    )
    sharp = np.where(lean * side >= a * edge, (radius - a) * lean + r, beside)
    return np.where(radius >= a, smooth, sharp)


def _one_way(a: Array, r: Array, radius: Array, height: Array, tilt: Array) -> Array:
    """Distance along the head's axis at which its flat end first meets the outer wall."""
    side_squared = np.maximum(a * a - r * r, 0)
    side = np.sqrt(side_squared)
    # In the curve the touching rim point lies in the bend's plane, except under a sharp corner.
    room = np.maximum(radius * radius - height * height, SMALL)
    rim = np.clip(height * side / np.sqrt(room), -r, r)
    touching = height + rim
    outer = radius + np.sqrt(side_squared + rim * rim)
    curve = np.sqrt(np.maximum(outer * outer - touching * touching, 0))
    cosine, sine = np.cos(tilt), np.sin(tilt)
    lean = np.abs(cosine)
    across = np.where(r <= a * lean, a - r * lean, sine * side)
    straight = (radius + across - height * cosine) / np.maximum(sine, SMALL)
    return np.where(curve * cosine < touching * sine, curve, straight)


def _least(length: Callable[[Array], Array], like: Values) -> Array:
    """Smallest length over a share in [0, 1]: coarse look, then halve the step."""
    at = np.zeros_like(np.asarray(like))
    best = length(at)
    for number in range(1, COARSE_STEPS + 1):
        share = np.full_like(at, number / COARSE_STEPS)
        best, at = _shorter(length, share, best, at)
    step = 1 / COARSE_STEPS  # steers: the search
    for _ in range(HALVINGS):
        step /= 2
        centre = at
        for share in (np.maximum(centre - step, 0), np.minimum(centre + step, 1)):
            best, at = _shorter(length, share, best, at)
    return best


def _shorter(length: Callable[[Array], Array], share: Array, best: Array, at: Array) -> tuple[Array, Array]:
    here = length(share)
    return np.minimum(best, here), np.where(here < best, share, at)
