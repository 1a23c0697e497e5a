"""The uncertain quantities of a case, drawn over the worlds: walls, kit and hand."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from advisor.kit.model import Head, Loadout, Rod, Spring
from advisor.mechanics.section import core_stiffness, rod_weight_per_length, smallest_bend_radius
from advisor.outcome.learned import BOOK, Learned
from advisor.quantity import Estimate, Known
from advisor.site.network import Piece, Wall
from advisor.tables.conditions import ROOTS
from advisor.tables.load import Tables
from advisor.worlds.draws import Array, Choice, Worlds


@dataclass(frozen=True)
class WallDraw:
    """One stretch of pipe over the worlds; `wet` and `clean` are what water or descaling would make."""

    bore: Array
    friction: Array
    friction_wet: Array
    friction_clean: Array
    bore_clean: Array
    rough: Array  # share of worlds, as 0 or 1
    rooted: Array  # the same: worlds in which roots stand at some of its joints


@dataclass(frozen=True)
class RodDraw:
    """A rod, its spring and its head over the worlds."""

    diameter: Array
    stiffness: Array
    weight: Array
    minimum_radius: Array
    reel: Array
    head_diameter: Array
    head_length: Array
    flat_nose: bool
    guided: bool
    spring_diameter: Array
    spring_length: Array
    spring_stiffness: Array
    spring_minimum_radius: Array
    pull_limit: Array

    @property
    def spring_over_rod(self) -> Array:
        """Stiffness of the spring over that of the rod."""
        return np.asarray(self.spring_stiffness / self.stiffness, np.float32)


class Drawn:
    """Draws each quantity once and keeps it; every passage and route of a case shares them."""

    def __init__(self, worlds: Worlds, tables: Tables, wet: bool | None, learned: Learned = BOOK) -> None:
        """`wet` is whether water has been run through the line before the push; None if not known."""
        self.worlds, self.tables, self.wet, self.learned = worlds, tables, wet, learned
        self._walls: dict[str, tuple[Wall, WallDraw]] = {}
        self._rods: dict[str, RodDraw] = {}
        self._lengths: dict[str, tuple[Known | Estimate | None, Array]] = {}
        self._limits: dict[str, Array] = {}
        self._errors: dict[str, Array] = {}
        # Asked for in every combination of every wall, and the same each time.
        self._bore_factor = cache(tables.bore_factor)
        self._friction = cache(tables.friction)

    def limit(self, name: str) -> Array:
        """A number of rules/tables/limits.yaml, drawn once for the whole job."""
        found = self._limits.get(name)
        if found is None:
            found = self._limits[name] = self.worlds.value(f"limit/{name}", self.tables.limits[name])
        return found

    def likely(self, name: str) -> float:
        """The likely value of a limit that is a decision of ours, not an unknown."""
        return self.tables.limits[name].likely

    def length(self, piece: Piece) -> Array:
        """Length of a piece in m."""
        belief = None if piece.kind == "joint" else piece.length
        found = self._lengths.get(piece.id)
        if found is None or (found[0] is not belief and found[0] != belief):
            length = (
                np.zeros(self.worlds.n, np.float32)
                if belief is None
                else self.worlds.value(f"{piece.id}/length", belief)
            )
            found = self._lengths[piece.id] = belief, length
        return found[1]

    def variant(self, piece: Piece) -> tuple[list[str], Choice]:
        """Names of what a fitting may be, and which it is in each world."""
        assert piece.fitting is not None
        return [name for name, _ in piece.fitting.options], self.worlds.choice(
            f"{piece.id}/kind", piece.fitting
        )

    def wall(self, wall: Wall) -> WallDraw:
        """Bore and friction of a stretch of pipe."""
        found = self._walls.get(wall.id)
        if found is None or found[0] is not wall:
            same = found is not None and found[0] == wall
            found = self._walls[wall.id] = wall, found[1] if found and same else self._draw_wall(wall)
        return found[1]

    def _draw_wall(self, wall: Wall) -> WallDraw:
        worlds, tables = self.worlds, self.tables
        material = worlds.choice(f"{wall.id}/material", wall.material)
        condition = worlds.choice(f"{wall.id}/condition", wall.condition)
        materials = [name for name, _ in wall.material.options]
        conditions = [name for name, _ in wall.condition.options]
        both = material * len(conditions) + condition
        pairs = [(m, c) for m in materials for c in conditions]

        def pick(key: str, beliefs: list[Known | Estimate]) -> Array:
            return worlds.mixed(f"{wall.id}/{key}", both, beliefs)

        bore = worlds.mixed(
            f"{wall.id}/bore", material, [tables.bore(m, wall.nominal.value) for m in materials]
        )
        left = pick("bore left", [self._bore_factor(m, c) for m, c in pairs])
        sound = pick("bore left", [self._bore_factor(m, "sound") for m, _ in pairs])
        # One uniform for all three frictions: a slippery world stays slippery when it is wetted.
        friction = pick("friction", [self._friction(m, c, self.wet) for m, c in pairs])
        wet = pick("friction", [self._friction(m, c, True) for m, c in pairs])
        clean = pick("friction", [self._friction(m, "sound", True) for m, _ in pairs])
        if self.learned.friction != 1:
            factor = np.float32(self.learned.friction)
            friction, wet, clean = factor * friction, factor * wet, factor * clean
        rough_ones = self.tables.files.conditions.rough
        heavy = np.array([c in rough_ones for c in conditions], np.float32)
        rooted = np.array([c == ROOTS for c in conditions], np.float32)
        return WallDraw(
            np.asarray(bore * left, np.float32),
            friction,
            np.minimum(friction, wet),
            np.minimum(friction, clean),
            np.asarray(bore * np.maximum(left, sound), np.float32),
            heavy[condition],
            rooted[condition],
        )

    def kit(self, loadout: Loadout) -> RodDraw:
        """Rod, spring and head of a loadout; the guide widens and lengthens the head."""
        found = self._rods.get(loadout.name)
        if found is None:
            found = self._rods[loadout.name] = self._draw_kit(loadout)
        return found

    def _draw_kit(self, loadout: Loadout) -> RodDraw:
        value = self.worlds.value
        rod, spring, head = loadout.rod, loadout.spring, loadout.head
        core = value(f"rod {rod.name}/core", rod.core)
        stiffness, weight, radius = self._rod_of_core(rod, core)
        diameter, length = self._head_size(head, loadout)
        return RodDraw(
            value(f"rod {rod.name}/diameter", rod.diameter),
            value(f"rod {rod.name}/stiffness", rod.stiffness) if rod.stiffness else stiffness,
            value(f"rod {rod.name}/weight", rod.weight) if rod.weight else weight,
            value(f"rod {rod.name}/radius", rod.minimum_radius) if rod.minimum_radius else radius,
            value(f"rod {rod.name}/reel", rod.length),
            diameter,
            length,
            head.flat_nose,
            loadout.guide is not None,
            *self._spring(spring),
        )

    def _rod_of_core(self, rod: Rod, core: Array) -> tuple[Array, Array, Array]:
        """Stiffness and minimum radius of one core in each world, and between them the rod's weight."""
        value, name = self.worlds.value, f"rod {rod.name}"
        stiffness = core_stiffness(value(f"{name}/modulus", rod.modulus), core)
        weight = rod_weight_per_length(
            value(f"{name}/density", rod.density),
            value(f"{name}/fill", rod.fill),
            value(f"{name}/diameter", rod.diameter),
        )
        radius = smallest_bend_radius(core, value(f"{name}/strain limit", rod.strain_limit))
        return np.asarray(stiffness), np.asarray(weight), np.asarray(radius)

    def _head_size(self, head: Head, loadout: Loadout) -> tuple[Array, Array]:
        value = self.worlds.value
        diameter = value(f"head {head.name}/diameter", head.diameter)
        length = value(f"head {head.name}/length", head.length)
        if loadout.guide is not None:
            guide = loadout.guide
            diameter = np.maximum(diameter, value(f"guide {guide.name}/diameter", guide.diameter))
            length = length + value(f"guide {guide.name}/length", guide.length)
        return diameter, length

    def _spring(self, spring: Spring) -> tuple[Array, Array, Array, Array, Array]:
        value, name = self.worlds.value, f"spring {spring.name}"
        return (
            value(f"{name}/diameter", spring.diameter),
            value(f"{name}/length", spring.length),
            value(f"{name}/stiffness", spring.stiffness),
            value(f"{name}/minimum radius", spring.minimum_radius),
            value(f"{name}/pull limit", spring.pull_limit),
        )

    def error(self, model: str) -> Array:
        """The model's own error as a factor, drawn once per world and model."""
        found = self._errors.get(model)
        if found is None:
            belief = self.tables.limits["model_error"]
            found = self._errors[model] = self.worlds.value(f"model error/{model}", belief)
        return found
