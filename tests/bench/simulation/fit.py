"""How head and rod lie in one passage of each hidden world, whatever the push."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from advisor.mechanics.head import rigid_limit, rigid_limit_s, rigid_limit_u
from advisor.mechanics.rod import chord_height, elastic_radius, pushed_radius, stiffness_load, stroke_slack
from advisor.mechanics.tip import tip_margin
from advisor.routes.passage import Passage
from tests.bench.simulation.fitting import Fitting
from tests.bench.simulation.truth import Gear, Numbers, Pipe, Truth

NEVER = np.inf
TOGETHER = 1.5  # m: two turns further apart than any head is long are met one by one


@dataclass(frozen=True)
class Fit:
    """Margins of one passage; a margin above 1 is room to spare. `load`, `slack`, `height` as mechanics."""

    fitting: Fitting
    pipe: Pipe  # beyond the passage, where the wall is that rubs
    bore_in: Numbers
    bore_out: Numbers
    wide_enough: NDArray[np.bool_]
    turns_head: NDArray[np.bool_]
    over_rim: Numbers  # slide margin of a rim ahead
    rod_lies: Numbers  # curve of the rod as it lies, over its smallest
    rod_pressed: Numbers  # the same pressed into the outer wall
    load: Numbers
    slack: Numbers
    height: Numbers

    @property
    def possible(self) -> NDArray[np.bool_]:
        """Worlds where no rigid limit is in the way."""
        return self.wide_enough & self.turns_head

    @property
    def jams(self) -> NDArray[np.bool_]:
        """Worlds where the head goes in and does not get round."""
        return self.wide_enough & ~self.turns_head


@dataclass(frozen=True)
class Behind:
    """The turn last come through and the straight since."""

    fitting: Fitting
    place: str
    gap: Numbers


def fit_of(
    passage: Passage | None, fitting: Fitting, pipes: tuple[Pipe, Pipe], gear: Gear, truth: Truth,
    behind: Behind | None,
) -> Fit:  # fmt: skip
    """The margins of a passage; None stands for a fitting that is on no sheet."""
    bore_in, bore_out = _bores(passage, pipes, truth)
    narrow = np.minimum(bore_in, bore_out)
    turns = fitting.turns
    # In the mouth of a junction the head turns between the two bores.
    room = np.where(fitting.way == "bend", narrow, (bore_in + bore_out) / 2)
    angle = np.where(turns, fitting.angle, 0.5)  # any angle: it is not used where nothing turns
    longest = rigid_limit(room, gear.head_diameter, fitting.radius, angle)
    if behind is not None and turns.any():
        longest = np.minimum(longest, _pair(passage, fitting, room, gear, truth, behind))
    spring = np.minimum(gear.spring_diameter, 0.9 * room)
    lies = np.minimum(
        elastic_radius(room, gear.diameter, fitting.radius, angle) / gear.minimum_radius,
        elastic_radius(room, spring, fitting.radius, angle) / gear.spring_minimum_radius,
    )
    pressed = pushed_radius(room, gear.diameter, fitting.radius) / gear.minimum_radius
    pressed = np.where(fitting.way == "bend", np.minimum(lies, pressed), lies)
    return Fit(
        fitting,
        pipes[1],
        bore_in,
        bore_out,
        narrow > gear.head_diameter,
        ~turns | (longest > gear.head_length),
        _rim(passage, bore_in, bore_out, pipes[1], gear, truth),
        np.where(turns, lies, NEVER),
        np.where(turns, pressed, NEVER),
        np.where(turns, stiffness_load(gear.stiffness, room, gear.diameter, fitting.radius, angle), 0),
        np.where(turns, stroke_slack(room, gear.diameter, angle), 0),
        np.asarray(chord_height(room, gear.diameter, fitting.radius, np.pi / 2)),
    )


def _bores(passage: Passage | None, pipes: tuple[Pipe, Pipe], truth: Truth) -> tuple[Numbers, Numbers]:
    bore_in, bore_out = pipes[0].bore, pipes[1].bore
    step = passage.step if passage else None
    if passage is None or step is None:
        return bore_in, bore_out
    hole = passage.piece.hole
    if not isinstance(step.bore, str):
        bore_in = truth.number(f"bore, step {passage.step_number} of {passage.piece.id}", step.bore)
    elif step.bore == "own" and hole is not None and hole.size is not None:
        share = bore_in / passage.piece.wall.nominal.value
        bore_in = np.minimum(bore_in, hole.size.value * share)
    return bore_in, bore_out if step.shape != "open" else bore_in


def _pair(
    passage: Passage | None, fitting: Fitting, room: Numbers, gear: Gear, truth: Truth, behind: Behind
) -> Numbers:
    """Longest head through this turn and the one close behind it, taken as two of the worse kind."""
    close = (behind.gap < TOGETHER) & fitting.turns & behind.fitting.turns
    if not close.any():
        return np.full(truth.count, NEVER)
    angle = np.where(close, np.maximum(fitting.angle, behind.fitting.angle), 0.5)
    radius = np.minimum(fitting.radius, behind.fitting.radius)
    gap = np.minimum(behind.gap, TOGETHER)
    place = passage.piece.id if passage else "hidden"
    if passage is not None and passage.piece.roll is not None:
        side = np.rint(np.cos(truth.number(f"roll of {place}", passage.piece.roll)))
    else:  # each quarter as likely: to the same side, opposite, or square to it
        side = np.rint(np.cos(np.pi / 2 * np.floor(4 * truth.luck(f"roll of {place} after {behind.place}"))))
    same = rigid_limit_u(room, gear.head_diameter, radius, angle, gap)
    opposite = rigid_limit_s(room, gear.head_diameter, radius, angle, gap)
    return np.where(close & (side > 0), same, np.where(close & (side < 0), opposite, NEVER))


def _rim(
    passage: Passage | None, bore_in: Numbers, bore_out: Numbers, pipe: Pipe, gear: Gear, truth: Truth
) -> Numbers:
    """Slide margin of a nose at a step in the wall: a round one meets it at acos(1 - h/r)."""
    kind = passage.piece.kind if passage else ""
    if kind == "joint" and passage is not None:
        belief = passage.piece.length or truth.tables.limits["joint_step"]
        step = truth.number(f"step of {passage.piece.id}", belief)
    elif kind == "reducer":
        step = np.maximum(bore_in - bore_out, 0) / 2
    else:
        return np.full(truth.count, NEVER)
    met = np.arccos(np.clip(1 - step / (gear.head_diameter / 2), -1, 1))
    angle = np.where(step > 0, np.pi / 2 if gear.flat_nose else met, 0)
    constants = truth.tables.junction
    margin = tip_margin(
        np.maximum(angle, 1e-3), pipe.friction, gear.flat_nose, np.zeros(truth.count),
        gear.spring_stiffness, gear.spring_length, constants,
    )  # fmt: skip
    return np.asarray(margin)
