"""One gentle push at one passage of each hidden world."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace

import numpy as np

from advisor.mechanics.junction import rod_end_margin, steady_push
from advisor.mechanics.junction_case import JunctionKind, Lie, Push
from advisor.mechanics.push import UNLOADING
from advisor.mechanics.tip import logistic
from tests.bench.simulation.fit import Fit
from tests.bench.simulation.truth import Gear, Names, Numbers, Truth

LEAST_PUSH = 1e-3  # N


@dataclass(frozen=True)
class Ends:
    """Chances of each end of one push; what is missing to one stands still before it."""

    passes: Numbers
    wrong_way: Numbers
    folded: Numbers
    rod_end_stuck: Numbers
    crossed_over: Numbers


@dataclass(frozen=True)
class Place:
    """A passage with what stands behind the head when it gets there."""

    key: str
    fit: Fit
    clean: Fit  # the same passage descaled or flushed
    gear: Gear
    truth: Truth
    at: Numbers  # m from the opening
    force: Numbers  # N left of the hand's push
    slack: Numbers  # m of stroke lost in the bends behind
    turned: Numbers  # rad, sum of the bends behind
    bends: Numbers  # count behind

    @property
    def way(self) -> Names:
        """The way of the fitting in each world."""
        return self.fit.fitting.way

    @property
    def natural_curl(self) -> Numbers:
        """Where the rod's own set points: any way, rad."""
        return 2 * np.pi * self.truth.luck(f"curl at {self.key}")


def steady(place: Place, curl: Numbers | None = None) -> Ends:
    """The ends of a steady push; the curl may be turned from where it lies."""
    fit, truth = place.fit, place.truth
    friction = fit.pipe.friction
    curl = place.natural_curl if curl is None else curl
    zero = np.zeros(truth.count)
    found = {field.name: zero.copy() for field in fields(Ends)}

    def put(here: Numbers, **chances: Numbers) -> None:
        for name, chance in chances.items():
            found[name][here] = np.broadcast_to(chance, here.shape)[here]

    way = place.way
    for kind in {k for k in fit.fitting.kind if k is not None}:
        lie = _lie(kind, fit.fitting.lie)
        made = steady_push(kind, lie, _push(place, friction, curl), truth.tables.junction)
        here = (fit.fitting.kind == kind) & (way == "merge")
        put(here, **{name: getattr(made, name) for name in found})
    follows = _rod_end(place, friction)
    put(way == "bend", passes=follows, rod_end_stuck=1 - follows)
    for steered in ("leg", "hairpin"):
        if (way == steered).any():
            hand = truth.limit(f"steer_{steered}")
            put(way == steered, passes=hand * follows, rod_end_stuck=hand * (1 - follows), wrong_way=1 - hand)
    put(way == "none", passes=zero + 1)
    keeps = truth.limit("fork_keeps_straight")
    put(way == "fork", passes=keeps, wrong_way=1 - keeps)
    over = over_rim(place)
    ends = Ends(**{name: chance * fit.possible for name, chance in found.items()})
    return replace(ends, passes=ends.passes * over)


def over_rim(place: Place) -> Numbers:
    """The chance that the nose slides over a rim ahead; a guide lifts it over some that it would not."""
    truth = place.truth
    margin = np.maximum(place.fit.over_rim * truth.error("ledge"), 1e-6)
    over = np.asarray(logistic(truth.limit("try_steepness") * np.log(margin)))
    return over + (1 - over) * truth.limit("guide_lifts") if place.gear.guided else over


def kink(place: Place) -> Numbers:
    """The chance that rod or spring is harmed: a push that lifts the rod lays it into the outer wall."""
    fit, truth = place.fit, place.truth
    angle = fit.fitting.angle
    lifted = place.force * (angle + UNLOADING * np.sin(angle / 2)) > fit.load
    curve = np.maximum(np.where(lifted, fit.rod_pressed, fit.rod_lies), 1e-3)
    over = logistic(-truth.limit("try_steepness") * np.log(curve))
    return np.where(fit.possible & fit.fitting.turns, over * truth.limit("kink_share"), 0)


def _lie(kind: JunctionKind, lie: Lie) -> Lie:
    return Lie.STACK if kind is JunctionKind.DOUBLE_SANITARY_TEE else lie  # known in a stack only


def _push(place: Place, friction: Numbers, curl: Numbers) -> Push:
    gear, fit = place.gear, place.fit
    return Push(
        force=np.maximum(place.force, LEAST_PUSH) * place.truth.error("junction"),
        friction=friction,
        rod_stiffness=gear.stiffness,
        rod_diameter=gear.diameter,
        spring_stiffness=gear.spring_stiffness,
        spring_length=gear.spring_length,
        head_length=gear.head_length,
        head_diameter=gear.head_diameter,
        curl=curl,
        bore_branch=np.minimum(fit.bore_in, fit.bore_out),
        bore_main=np.maximum(fit.bore_in, fit.bore_out),
        flat_nose=gear.flat_nose,
    )


def _rod_end(place: Place, friction: Numbers) -> Numbers:
    """Known for quarter turns; each eighth less is easier by a factor, each more is harder by it."""
    truth, gear = place.truth, place.gear
    constants = truth.tables.junction
    eighths = place.fit.fitting.angle / (np.pi / 4)
    margin = rod_end_margin(
        np.maximum(place.force, LEAST_PUSH), place.fit.height, friction, gear.stiffness,
        gear.spring_stiffness, constants,
    ) * truth.limit("eighth_turn_ease") ** (2 - eighths)  # fmt: skip
    margin = np.maximum(margin, 1e-9)
    follows = logistic(constants.rod_steepness * np.log(margin * truth.error("rod end")))
    # No try passes where even a short hard push falls short by more than the model may be off.
    hardest = margin * truth.limit("short_force") / truth.limit("push_force")
    off = truth.tables.limits["model_error"]
    return np.where(hardest * getattr(off, "high", off.likely) < 1, 0, follows)
