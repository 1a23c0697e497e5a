"""One gentle steady push at one passage: its chance in each world, and what becomes of the rest."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from advisor.mechanics.junction import rod_end_margin, steady_push
from advisor.mechanics.junction_case import JunctionChances, JunctionKind, Lie, Push
from advisor.mechanics.push import UNLOADING
from advisor.mechanics.tip import logistic
from advisor.outcome.drawn import Drawn, RodDraw
from advisor.outcome.geometry import Geometry
from advisor.quantity import Estimate
from advisor.worlds.draws import Array


@dataclass(frozen=True)
class Steady:
    """What one steady push does; chances, float32[N], of which the first six add up to one."""

    passes: Array
    wrong_way: Array
    folds: Array
    far_wall: Array
    rod_end: Array
    crosses: Array
    kink: Array  # a rod or spring forced under its smallest radius

    @property
    def stuck(self) -> Array:
        """The chance that it does not pass."""
        return np.asarray(1 - self.passes, np.float32)


def steady(
    shape: Geometry,
    force: Array,
    kit: RodDraw,
    drawn: Drawn,
    curl: Array | float | None = None,
) -> Steady:
    """One steady push with `force` left at the passage; the curl may be turned from where it lies.

    What cannot be (a head wider than the bore or than roots leave, or longer than the turn lets through, a
    stopper) is zero whatever the push; what is a matter of degree follows the junction and rod-end models.
    """
    n = drawn.worlds.n
    possible = (shape.fits > 1) & (shape.rigid > 1)
    steep = drawn.likely("try_steepness")
    over_rim = logistic(steep * np.log(np.maximum(shape.ledge * drawn.error("ledge"), 1e-6)))
    if kit.guided:
        over_rim = over_rim + (1 - over_rim) * drawn.limit("guide_lifts")
    zero = np.zeros(n, np.float32)
    way = shape.turn.way
    if way == "stop":
        return Steady(zero, zero, zero, zero + 1, zero, zero, zero)
    if way in ("none", "past", "fork"):
        keeps = zero + 1 if way != "fork" else drawn.limit("fork_keeps_straight")
        over = possible * over_rim * (np.asarray(shape.gap) > 1)
        return Steady(over * keeps, over * (1 - keeps), zero, 1 - over, zero, zero, zero)
    if shape.turn.merges:
        ends = _merging(shape, force, kit, drawn, curl)
    else:
        ends = _bending(shape, force, kit, drawn)
        if way in ("leg", "hairpin"):
            # Nothing but the hand turns the head aside here: the guide of the fitting is against it.
            ends = _steered(ends, drawn.limit(f"steer_{way}"))
    kink = _kink(shape, force, drawn)
    passes = ends.passes * possible * over_rim
    return Steady(
        np.asarray(passes, np.float32),
        np.asarray(ends.wrong_way * possible, np.float32),
        np.asarray(ends.folded * possible, np.float32),
        np.asarray(
            1 - passes - (ends.wrong_way + ends.folded + ends.rod_end_stuck + ends.crossed_over) * possible,
            np.float32,
        ),
        np.asarray(ends.rod_end_stuck * possible, np.float32),
        np.asarray(ends.crossed_over * possible, np.float32),
        np.asarray(kink * possible, np.float32),
    )


def pushed(shape: Geometry, force: Array, kit: RodDraw, drawn: Drawn, curl: Array) -> Push:
    """The junction model's view of a push."""
    return Push(
        force=np.maximum(force, np.float32(1e-3)) * drawn.error("junction"),
        friction=shape.friction,
        rod_stiffness=kit.stiffness,
        rod_diameter=kit.diameter,
        spring_stiffness=kit.spring_stiffness,
        spring_length=kit.spring_length,
        head_length=kit.head_length,
        head_diameter=kit.head_diameter,
        curl=curl,
        bore_branch=np.minimum(shape.bore_in, shape.bore_out),
        bore_main=np.maximum(shape.bore_in, shape.bore_out),
        flat_nose=kit.flat_nose,
    )


def natural_curl(shape: Geometry, drawn: Drawn) -> Array:
    """Which way the rod's own curl happens to point at a junction: nobody knows, rad."""
    return 2 * np.pi * drawn.worlds.uniform(f"{shape.passage.piece.id}/curl")


def _merging(
    shape: Geometry, force: Array, kit: RodDraw, drawn: Drawn, curl: Array | float | None
) -> JunctionChances:
    """Each kind of junction that it may be, in the worlds where it is that."""
    rolled = natural_curl(shape, drawn) if curl is None else np.full(drawn.worlds.n, 0, np.float32) + curl
    push = pushed(shape, force, kit, drawn, rolled)
    names = JunctionChances.__dataclass_fields__
    total = {name: np.zeros(drawn.worlds.n, np.float32) for name in names}
    constants = drawn.tables.junction
    for kind, where in shape.turn.merges.items():
        lie = Lie.STACK if kind is JunctionKind.DOUBLE_SANITARY_TEE else shape.turn.lie
        worlds = np.flatnonzero(where)
        ends = steady_push(kind, lie, push.only(worlds), constants)
        for name in names:
            total[name][worlds] = getattr(ends, name)
    back = shape.turn.back
    if back is not None and back.any():
        hairpin = _steered(_bending(shape, force, kit, drawn), drawn.limit("steer_hairpin"))
        for name in total:
            total[name] = np.where(back, getattr(hairpin, name), total[name])
    return JunctionChances(**total)


def _bending(shape: Geometry, force: Array, kit: RodDraw, drawn: Drawn) -> JunctionChances:
    """A bend guides the head by itself; the rod end behind the spring must follow.

    The rod-end number is known for quarter turns; an eighth turn is easier by a factor, a longer turn
    harder by the same factor for each eighth more.
    """
    ease = drawn.limit("eighth_turn_ease") ** (
        2 - np.asarray(shape.turn.angle, np.float32) / np.float32(np.pi / 4)
    )
    constants = drawn.tables.junction
    margin = rod_end_margin(
        np.maximum(force, np.float32(1e-3)),
        shape.height,
        shape.friction,
        kit.stiffness,
        kit.spring_stiffness,
        constants,
    )
    margin = margin * ease
    follows = logistic(constants.rod_steepness * np.log(margin * drawn.error("rod end")))
    # Where even a short hard push falls short by more than the model's own error, no try passes.
    best = margin * drawn.limit("short_force") / drawn.limit("push_force")
    follows = np.where(best * _largest(drawn) < 1, 0, follows)
    zero = np.zeros_like(follows)
    return JunctionChances(follows, zero, zero, zero, 1 - follows, zero)


def _largest(drawn: Drawn) -> float:
    error = drawn.tables.limits["model_error"]
    return error.high if isinstance(error, Estimate) else error.value


def _steered(ends: JunctionChances, steer: Array) -> JunctionChances:
    missed = (1 - steer) * (ends.passes + ends.rod_end_stuck)
    return replace(
        ends,
        passes=ends.passes * steer,
        rod_end_stuck=ends.rod_end_stuck * steer,
        wrong_way=ends.wrong_way + missed,
    )


def _kink(shape: Geometry, force: Array, drawn: Drawn) -> Array:
    """Chance that forcing rod or spring under its smallest radius harms it.

    A push that lifts the rod off the inner wall (capstan load above the stiffness load) lays it into
    the tighter curve of the outer wall; a gentler one leaves it as it lies.
    """
    steep = drawn.likely("try_steepness")
    angle = np.asarray(shape.turn.angle, np.float32)
    lifted = force * (angle + UNLOADING * np.sin(angle / 2)) > shape.load
    radius = np.where(lifted, shape.pushed_radius, shape.rod_radius)
    over = logistic(-steep * np.log(np.maximum(radius, 1e-3)))
    return np.asarray(over * drawn.limit("kink_share"), np.float32)
