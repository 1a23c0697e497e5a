"""A passage and a loadout over the worlds, free of force: computed once, however many routes cross it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from advisor.kit.model import Loadout
from advisor.mechanics.head import (
    rigid_limit,
    rigid_limit_s,
    rigid_limit_step,
    rigid_limit_u,
    straight_to_bind,
)
from advisor.mechanics.rod import chord_height, elastic_radius, pushed_radius, stiffness_load, stroke_slack
from advisor.mechanics.tip import tip_margin
from advisor.mechanics.values import Values
from advisor.outcome.drawn import Drawn, RodDraw
from advisor.outcome.roots import Roots, roots_in
from advisor.outcome.turns import Turn, turn_of
from advisor.routes.passage import Passage
from advisor.site.network import Hole, Wall
from advisor.worlds.draws import Array

INFINITE = float("inf")
PAIR_REACH = 1.25  # computed: past it no pair of 70,000 random ones was tighter than one bend alone


@dataclass(frozen=True)
class Geometry:
    """Force-free quantities of one passage and loadout, float32[N] each.

    `rigid` is the longest head that turns here over the head that is there, `rod_radius` the sharpest
    curve of rod and spring as they lie over the smallest they may take, `pushed_radius` the same with
    the rod pushed hard against the outer wall, `fits` bore over head, `gap` the same between roots that do
    not part, `ledge` the slide margin over a rim that faces the head; all are margins, infinite where there
    is nothing to pass.
    """

    passage: Passage
    turn: Turn
    bore: Array
    bore_in: Array
    bore_out: Array
    friction: Array
    fits: Array
    rigid: Array | float = INFINITE
    alone: Array | float = INFINITE  # the longest head that turns here with no other turn close by, m
    rod_radius: Array | float = INFINITE
    pushed_radius: Array | float = INFINITE
    ledge: Array | float = INFINITE
    ledge_back: Array | float = INFINITE
    roots: Roots | None = None  # where some may stand
    gap: Array | float = INFINITE
    load: Array | float = 0.0
    slack: Array | float = 0.0
    height: Array | float = 0.0  # chord height of a quarter turn of this radius, m

    @property
    def bends_too_tight(self) -> float:
        """The share of cases in which rod or spring is bent under its least radius."""
        return float(np.mean(np.asarray(self.rod_radius) < 1))


@dataclass(frozen=True)
class Before:
    """The turn that the head has just come through, and the straight pipe since."""

    turn: Turn
    roll_key: str
    gap: Array


def geometry(passage: Passage, loadout: Loadout, drawn: Drawn, before: Before | None) -> Geometry:
    """The force-free margins of a passage; a turn close behind another is judged together with it."""
    kit = drawn.kit(loadout)
    turn = turn_of(passage, drawn)
    wall_in, wall_out = drawn.wall(passage.wall_in), drawn.wall(passage.wall_out)
    bore_in, bore_out = _entry_bores(passage, wall_in.bore, wall_out.bore, drawn)
    bore = np.minimum(bore_in, bore_out)
    friction = wall_out.friction
    fits = bore / kit.head_diameter
    ledge, ledge_back = _ledges(passage, bore_in, bore_out, kit, drawn, friction)
    shape = Geometry(
        passage, turn, bore, bore_in, bore_out, friction, fits, ledge=ledge, ledge_back=ledge_back
    )
    roots = roots_in(passage, drawn)
    if roots is not None:
        return replace(shape, roots=roots, gap=roots.bore / kit.head_diameter)
    if not turn.bends:
        return shape
    room = _room(shape)
    radius = np.asarray(turn.radius, np.float32)
    alone = rigid_limit(room, kit.head_diameter, radius, turn.angle)
    limit, mouth = _rigid_limit(passage, turn, alone, room, kit, drawn, before), _mouth_share(shape, kit)
    spring = np.minimum(kit.spring_diameter, 0.9 * room)
    rod_radius = np.minimum(
        elastic_radius(room, kit.diameter, radius, turn.angle) / kit.minimum_radius,
        elastic_radius(room, spring, radius, turn.angle) / kit.spring_minimum_radius,
    )
    # Only a bend has an outer wall of one curve that a push can lay the rod into.
    pushed = (
        pushed_radius(room, kit.diameter, radius) / kit.minimum_radius if turn.way == "bend" else INFINITE
    )
    load = stiffness_load(kit.stiffness, room, kit.diameter, radius, turn.angle)
    return replace(
        shape,
        rigid=np.asarray(limit * mouth / kit.head_length, np.float32),
        alone=np.asarray(alone * mouth, np.float32),
        rod_radius=np.asarray(rod_radius, np.float32),
        pushed_radius=np.minimum(rod_radius, pushed).astype(np.float32),
        load=load,
        slack=stroke_slack(room, kit.diameter, turn.angle),
        height=chord_height(room, kit.diameter, radius, np.pi / 2),
    )


def wetted(shape: Geometry, kit: RodDraw, drawn: Drawn) -> Geometry:
    """The same passage with water running: its wall is slippery, and so is a rim."""
    return _on_wall(shape, drawn.wall(shape.passage.wall_out).friction_wet, kit, drawn)


def _on_wall(shape: Geometry, friction: Array, kit: RodDraw, drawn: Drawn) -> Geometry:
    ledge, back = _ledges(shape.passage, shape.bore_in, shape.bore_out, kit, drawn, friction)
    return replace(shape, friction=friction, ledge=ledge, ledge_back=back)


def cleaned(shape: Geometry, kit: RodDraw, drawn: Drawn) -> Geometry:
    """The same passage once scale, grease and roots are out: the wall's own bore and friction are back.

    A turn close behind another keeps the share by which the other hinders it.
    """
    walls = drawn.wall(shape.passage.wall_in), drawn.wall(shape.passage.wall_out)
    bore_in, bore_out = _entry_bores(shape.passage, walls[0].bore_clean, walls[1].bore_clean, drawn)
    bore = np.minimum(bore_in, bore_out)
    wider = replace(shape, bore=bore, bore_in=bore_in, bore_out=bore_out, fits=bore / kit.head_diameter)
    better = _on_wall(wider, walls[1].friction_clean, kit, drawn)
    if shape.roots is not None:
        return replace(better, gap=shape.roots.bore_cut / kit.head_diameter)
    if not shape.turn.bends:
        return better
    radius = np.asarray(shape.turn.radius, np.float32)
    was = shape.alone
    now = rigid_limit(_room(better), kit.head_diameter, radius, shape.turn.angle) * _mouth_share(better, kit)
    # Where scale left no room for the head, nothing is known of what the turn before takes off.
    hindered = np.where(was > 0, shape.rigid * kit.head_length / np.where(was > 0, was, 1), 1)
    return replace(better, rigid=np.asarray(hindered * now / kit.head_length, np.float32))


def _room(shape: Geometry) -> Array:
    """Out of a branch into a wider main the head turns in the mouth, whose width is between the bores."""
    return shape.bore if shape.turn.way == "bend" else (shape.bore_in + shape.bore_out) / 2


def _mouth_share(shape: Geometry, kit: RodDraw) -> Array | float:
    """What is left, 0 to 1, of the length that one bore for both would allow to a head in a mouth.

    Round a sharp corner the limit from one bore into another is known; a curved throat, and a turn close
    before it, are taken to lose the same share. A head that the narrow bore does not take is no matter of
    its length: `fits` tells of it.
    """
    if shape.turn.way == "bend" or np.array_equal(shape.bore_in, shape.bore_out):
        return 1.0
    angle, head = np.asarray(shape.turn.angle, np.float32), kit.head_diameter
    alike = rigid_limit(_room(shape), head, np.zeros_like(head), angle)
    corner = rigid_limit_step(shape.bore_in, shape.bore_out, head, angle)
    known = (alike > 0) & np.isfinite(alike) & (corner > 0)
    return np.asarray(np.where(known, corner / np.where(known, alike, 1), 1), np.float32)


def _rigid_limit(
    passage: Passage,
    turn: Turn,
    alone: Values,
    room: Array,
    kit: RodDraw,
    drawn: Drawn,
    before: Before | None,
) -> Array:
    """Longest head that turns here, `alone` or together with the turn close behind it."""
    if before is None:
        return np.asarray(alone, np.float32)
    # Two turns to one side hinder each other over a little more than the straight that one alone needs.
    radius = np.asarray(turn.radius, np.float32)
    need = PAIR_REACH * straight_to_bind(room, kit.head_diameter, radius, turn.angle)
    close = before.gap < need
    if not close.any():
        return np.asarray(alone, np.float32)
    # Two turns of one kind stand for the pair: the wider angle on the tighter radius is never too kind.
    angle = np.maximum(turn.angle, np.asarray(before.turn.angle))
    tight = np.minimum(radius, np.asarray(before.turn.radius))
    gap = np.minimum(before.gap, need)
    same = rigid_limit_u(room, kit.head_diameter, tight, angle, gap)
    opposite = rigid_limit_s(room, kit.head_diameter, tight, angle, gap)
    side = _side(passage, drawn, before)
    pair = np.where(side > 0, same, np.where(side < 0, opposite, alone))
    return np.asarray(np.where(close, np.minimum(pair, alone), alone), np.float32)


def _side(passage: Passage, drawn: Drawn, before: Before) -> Array:
    """+1 where two turns go the same way, -1 opposite, 0 square to each other; drawn where not told."""
    roll = passage.piece.roll
    if roll is not None:
        angle = drawn.worlds.value(f"{passage.piece.id}/roll", roll)
    else:
        # Nothing is known of the roll: every quarter is as likely.
        angle = np.pi / 2 * np.floor(4 * drawn.worlds.uniform(f"{before.roll_key}|{passage.piece.id}/roll"))
    return np.asarray(np.rint(np.cos(angle)), np.float32)


def _entry_bores(passage: Passage, bore_in: Array, bore_out: Array, drawn: Drawn) -> tuple[Array, Array]:
    """An opening's own step may be narrower than the line: a threaded extension, a smaller riser."""
    step = passage.step
    if step is None:
        return bore_in, bore_out
    if not isinstance(step.bore, str):
        key = f"{passage.piece.id}/entry {passage.step_number}/bore"
        bore_in = drawn.worlds.value(key, step.bore)
    elif step.bore == "own" and passage.hole is not None:
        bore_in = through_hole(passage.hole, passage.piece.wall, bore_in)
    return bore_in, bore_out if step.shape != "open" else bore_in


def through_hole(hole: Hole, wall: Wall, bore: Array) -> Array:
    """The bore of an opening, m: perhaps smaller than its line, and never cleaner than the wall of that."""
    if hole.size is None:
        return bore
    share = bore / np.float32(wall.nominal.value)
    return np.asarray(np.minimum(bore, np.float32(hole.size.value) * share))


def _ledges(
    passage: Passage, bore_in: Array, bore_out: Array, kit: RodDraw, drawn: Drawn, friction: Array
) -> tuple[Array | float, Array | float]:
    """Slide margins over the rim where the bore narrows ahead of the head, and behind it on the way out."""
    if passage.piece.kind == "joint":
        step = drawn.worlds.value(
            f"{passage.piece.id}/step", passage.piece.length or drawn.tables.limits["joint_step"]
        )
        both = _over_rim(step, kit, drawn, friction)
        return both, both
    if passage.piece.kind != "reducer":
        return INFINITE, INFINITE
    narrowing = np.maximum(bore_in - bore_out, 0) / 2
    widening = np.maximum(bore_out - bore_in, 0) / 2
    return _over_rim(narrowing, kit, drawn, friction), _over_rim(widening, kit, drawn, friction)


def _over_rim(step: Array, kit: RodDraw, drawn: Drawn, friction: Array) -> Array:
    """A round nose of radius r meets a rim of height h at acos(1 - h/r) to the wall; a flat one square on."""
    nose = kit.head_diameter / 2
    met = np.arccos(np.clip(1 - step / nose, -1, 1))
    angle = np.where(step > 0, np.pi / 2 if kit.flat_nose else met, 1e-3)
    force = np.zeros_like(angle)
    return np.asarray(
        tip_margin(
            np.maximum(angle, 1e-3),
            friction,
            kit.flat_nose,
            force,
            kit.spring_stiffness,
            kit.spring_length,
            drawn.tables.junction,
        ),
        np.float32,
    )
