"""What is really there, drawn from the same graded beliefs that the planner works with.

Hidden worlds lie side by side in arrays. Each quantity has a generator of its own, seeded by its name, so
that a changed truth (more friction, say) leaves all other draws and all luck as they were.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any
from zlib import crc32

import numpy as np
from numpy.typing import NDArray

from advisor.kit.model import Loadout
from advisor.quantity import Chances, Estimate, Known
from advisor.site.network import Piece, Wall
from advisor.tables.load import Tables

Numbers = NDArray[np.floating[Any]]
Names = NDArray[np.object_]
GRAVITY = 9.80665  # m/s^2, standard


@dataclass(frozen=True)
class Twist:
    """How the truth differs from what is believed."""

    friction: float = 1.0  # factor on the friction of every wall
    bend: bool = False  # one 1/8 bend that is on no sheet
    logit: float = 0.0  # every try easier or harder by as much
    either_way: bool = False  # that logit up or down, by a coin for each technique and class of fitting
    wrong_condition: float = 0.0  # share of stretches whose told condition is not so


AS_BELIEVED = Twist()


@dataclass(frozen=True)
class Pipe:
    """One stretch of pipe as it is; bores in m."""

    bore: Numbers
    friction: Numbers
    bore_clean: Numbers  # descaled or flushed
    friction_clean: Numbers

    def cleaned(self) -> Pipe:
        """The same stretch with scale and grease off."""
        return replace(self, bore=self.bore_clean, friction=self.friction_clean)


@dataclass(frozen=True)
class Gear:
    """Rod, spring and head as they are, SI."""

    diameter: Numbers
    stiffness: Numbers
    weight: Numbers
    minimum_radius: Numbers
    reel: Numbers
    head_diameter: Numbers
    head_length: Numbers
    flat_nose: bool
    guided: bool
    spring_diameter: Numbers
    spring_length: Numbers
    spring_stiffness: Numbers
    spring_minimum_radius: Numbers
    pull_limit: Numbers


class Truth:
    """`count` hidden worlds of one site."""

    def __init__(
        self, seed: int, count: int, tables: Tables, year: int | None = None, twist: Twist = AS_BELIEVED
    ) -> None:
        self.seed, self.count, self.tables, self.year, self.twist = seed, count, tables, year, twist
        self._pipes: dict[str, Pipe] = {}
        self._gear: dict[str, Gear] = {}
        self._numbers: dict[tuple[str, float, float, float], Numbers] = {}

    def luck(self, key: str) -> Numbers:
        """A number from 0 to 1 in each world."""
        return self._generator(key).random(self.count)

    def number(self, key: str, belief: Known | Estimate) -> Numbers:
        """A quantity in each world: as known, or from a triangle between its ends."""
        if isinstance(belief, Known) or belief.low == belief.high:
            return np.full(self.count, belief.likely)
        ends = belief.low, belief.likely, belief.high
        if (key, *ends) not in self._numbers:
            drawn = self._generator(key).triangular(*ends, self.count)
            drawn.flags.writeable = False
            self._numbers[key, *ends] = drawn
        return self._numbers[key, *ends]

    def name(self, key: str, chances: Chances) -> Names:
        """Which of the names it is in each world."""
        names = np.array([name for name, _ in chances.options], object)
        shares = np.array([share for _, share in chances.options])
        return names[self._generator(key).choice(len(names), self.count, p=shares / shares.sum())]

    def limit(self, name: str) -> Numbers:
        """A number of the limits table as it is on this job."""
        return self.number(f"limit {name}", self.tables.limits[name])

    def error(self, model: str) -> Numbers:
        """The factor by which a model is off on this job."""
        return self.number(f"error of {model}", self.tables.limits["model_error"])

    def length(self, piece: Piece) -> Numbers:
        """Length of a piece in m; a joint's entry is its step, not a length."""
        if piece.length is None or piece.kind == "joint":
            return np.zeros(self.count)
        return self.number(f"length of {piece.id}", piece.length)

    def pipe(self, wall: Wall) -> Pipe:
        """Bore and friction of a stretch; the line is holding no water, so water was run before the push."""
        if wall.id not in self._pipes:
            self._pipes[wall.id] = self._pipe(wall)
        return self._pipes[wall.id]

    def _pipe(self, wall: Wall) -> Pipe:
        material = self.name(f"material of {wall.id}", wall.material)
        condition = self._condition(wall)
        found = {key: np.zeros(self.count) for key in ("sound", "left", "left clean", "friction", "clean")}
        for m in set(material):
            for c in set(condition[material == m]):
                # Drawn under one name each, so a slippery pipe stays a slippery one when it is cleaned.
                beliefs = {
                    "sound": ("bore", self.tables.bore(m, wall.nominal.value)),
                    "left": ("left", self.tables.bore_factor(m, c)),
                    "left clean": ("left", self.tables.bore_factor(m, "sound")),
                    "friction": ("friction", self.tables.friction(m, c, True)),
                    "clean": ("friction", self.tables.friction(m, "sound", True)),
                }
                here = (material == m) & (condition == c)
                for key, (what, belief) in beliefs.items():
                    found[key][here] = self.number(f"{what} of {wall.id}", belief)[here]
        friction = found["friction"] * self.twist.friction
        clean = np.minimum(friction, found["clean"] * self.twist.friction)
        left = np.maximum(found["left"], found["left clean"])
        return Pipe(found["sound"] * found["left"], friction, found["sound"] * left, clean)

    def _condition(self, wall: Wall) -> Names:
        condition = self.name(f"condition of {wall.id}", wall.condition)
        if self.twist.wrong_condition and len(wall.condition.options) == 1:
            usual = self.tables.likely_condition(wall.material.likeliest, self.year)
            other = self.name(f"unlike the sheet, {wall.id}", usual)
            wrong = self.luck(f"is {wall.id} as told") < self.twist.wrong_condition
            condition = np.where(wrong, other, condition)
        return condition

    def between_roots(self, run: tuple[Piece, ...], wall: Wall) -> tuple[Numbers, Numbers]:
        """Bore left at the worst joint of a run, as found and after a cutter; each place drawn by itself."""
        row, material = self.tables.files.conditions.roots, self.name(f"material of {wall.id}", wall.material)
        joint = np.zeros(self.count)
        for m in set(material):
            belief = self.tables.joint_length(m)
            joint[material == m] = self.number(f"joint length of {wall.id}", belief)[material == m]
        rooted = self._condition(wall) == "roots"
        per_metre = rooted * self.number(f"joints with roots, {wall.id}", row.joints_with) / joint
        parting = self.number(f"parting roots, {wall.id}", row.parting)
        bore, cut = self.pipe(wall).bore, self.number("roots cut", row.cut)
        found, after = np.full(self.count, np.inf), np.full(self.count, np.inf)
        left = row.bore_left
        for piece in run:
            chance = self._generator(f"roots in {piece.id}")
            count = chance.poisson(per_metre * self.length(piece))
            for number in range(int(count.max(initial=0))):
                gap = bore * chance.triangular(left.low, left.likely, left.high, self.count)  # type: ignore[union-attr]
                holds = (number < count) & (chance.random(self.count) >= parting)
                stays = holds & (chance.random(self.count) >= cut)
                found = np.where(holds, np.minimum(found, gap), found)
                after = np.where(stays, np.minimum(after, gap), after)
        return found, after

    def gear(self, loadout: Loadout) -> Gear:
        """Rod, spring and head of a loadout; a guide widens the head and lengthens it."""
        if loadout.name not in self._gear:
            self._gear[loadout.name] = self._draw_gear(loadout)
        return self._gear[loadout.name]

    def _draw_gear(self, loadout: Loadout) -> Gear:
        rod, spring, head, guide = loadout.rod, loadout.spring, loadout.head, loadout.guide

        def of(part: str, **beliefs: Known | Estimate) -> list[Numbers]:
            return [self.number(f"{what} of {part}", belief) for what, belief in beliefs.items()]

        jacket, core, reel = of(f"rod {rod.name}", jacket=rod.diameter, core=rod.core, reel=rod.length)
        modulus, density, fill, strain = of(
            f"rod {rod.name}",
            modulus=rod.modulus,
            density=rod.density,
            fill=rod.fill,
            strain=rod.strain_limit,
        )
        made: dict[str, Numbers] = {
            "stiffness": modulus * np.pi * core**4 / 64,
            "weight": GRAVITY * density * fill * np.pi * jacket**2 / 4,
            "minimum_radius": core / 2 / strain,
        }
        for what in made:
            measured = getattr(rod, what)
            if measured is not None:
                (made[what],) = of(f"rod {rod.name}", **{what: measured})
        wide, long = of(f"head {head.name}", diameter=head.diameter, length=head.length)
        if guide is not None:
            ring, added = of(f"guide {guide.name}", ring=guide.diameter, added=guide.length)
            wide, long = np.maximum(wide, ring), long + added
        return Gear(
            jacket, made["stiffness"], made["weight"], made["minimum_radius"], reel,
            wide, long, head.flat_nose, guide is not None,
            *of(f"spring {spring.name}", diameter=spring.diameter, length=spring.length,
                stiffness=spring.stiffness, radius=spring.minimum_radius, pull=spring.pull_limit),
        )  # fmt: skip

    def _generator(self, key: str) -> np.random.Generator:
        return np.random.default_rng([self.seed, crc32(key.encode())])
