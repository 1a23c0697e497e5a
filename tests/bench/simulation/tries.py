"""One try of a technique at one passage of each hidden world: its chance, and the chance to fold back."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from advisor.mechanics.hand import largest_hand_distance
from advisor.mechanics.junction_case import SQUARE, Lie
from advisor.mechanics.technique import (
    Remedy,
    quick_push_chance,
    quick_push_fold_chance,
    quick_push_logit,
    remedy_chance,
    string_chance,
    string_tension_for_turn,
    string_tip_tension,
    string_turn_angle,
    stroke_left,
)
from advisor.mechanics.tip import logistic
from tests.bench.simulation.steady import Ends, Place, kink, steady
from tests.bench.simulation.truth import Numbers

STEADY = "steady push"
CLEANED = "clean first"
_STEERED = ("leg", "hairpin", "fork")


@dataclass(frozen=True)
class Try:
    """Chances of one try: it passes, it fails and the head stays, the rod is harmed."""

    passes: Numbers
    wedges: Numbers  # given that it fails
    kinks: Numbers


def one_try(technique: str, place: Place) -> Try:
    """The chances of one try with the values as they are."""
    plain = steady(place)
    if technique == STEADY:
        passes, folded = plain.passes, plain.folded
    else:
        passes, folded = _MADE[technique](place, plain)
        passes = _shifted(passes, _offset(technique, place))
    fit = place.clean if technique == CLEANED else place.fit
    passes = _twisted(np.clip(passes * fit.possible, 0, 1), technique, place)
    truth = place.truth
    failed = np.maximum(1 - passes, 1e-9)
    folded = np.minimum(folded / failed, 1)
    wedges = folded * truth.limit("fold_loss") + place.fit.jams * truth.limit("jam_loss")
    return Try(passes, wedges, kink(place))


def _turned(place: Place, plain: Ends) -> tuple[Numbers, Numbers]:
    """The rod turned to point its curl; the further in, the less of the turn arrives."""
    truth, way = place.truth, place.way
    arrives = np.exp(-place.at / truth.limit("turn_length"))
    mended = arrives * truth.limit("turn_steers")
    aimed = np.where(truth.luck(f"aim at {place.key}") < arrives, 0, place.natural_curl)
    again = steady(place, curl=aimed)
    square = np.isin(place.fit.fitting.kind, SQUARE) & (way == "merge")
    swept = np.asarray(remedy_chance(Remedy.HALF_TURN_SLOW_PUSH, _quick_logit(place), truth.tables.junction))
    passes = np.where(np.isin(way.astype(str), ("merge", "bend")), swept, 0)
    if place.fit.fitting.lie is Lie.FLAT:
        passes = np.where(square, again.passes + (1 - again.passes) * mended, passes)
    else:
        passes = np.where(square, again.passes, passes)
    # Before one side of a joint the curl, rolled, lays the nose elsewhere; a rim all round is met alike.
    one_side = np.isfinite(place.fit.over_rim) & (place.fit.bore_in == place.fit.bore_out)
    steered = np.isin(way.astype(str), _STEERED) | one_side
    passes = np.where(steered, plain.passes + (1 - plain.passes) * mended, passes)
    return passes, np.where(square, again.folded, plain.folded)


def _quick(place: Place, plain: Ends) -> tuple[Numbers, Numbers]:
    """Back off, then one smooth stroke; the bends behind eat of it."""
    truth, fit, way = place.truth, place.fit, place.way
    chance = np.asarray(
        quick_push_chance(_quick_logit(place), truth.limit("quick_speed"), truth.tables.junction)
    )
    chance = np.where(fit.fitting.square, chance * truth.limit("quick_square_share"), chance)
    for steered in ("leg", "hairpin"):
        chance = np.where(way == steered, chance * truth.limit(f"steer_{steered}"), chance)
    free = largest_hand_distance(
        place.gear.stiffness, truth.limit("short_force"), truth.limit("end_factor_guided"),
        truth.limit("quick_safety"),
    )  # fmt: skip
    stroke = stroke_left(np.minimum(free, truth.limit("quick_stroke")), place.slack)
    chance = chance * np.minimum(stroke / truth.limit("least_stroke"), 1)
    folds = quick_push_fold_chance(
        fit.bore_out, place.gear.head_length, place.gear.head_diameter, truth.tables.junction
    )
    return np.where(fit.fitting.turns, chance, 0), np.where(fit.fitting.turns & (way != "bend"), folds, 0)


def _quick_logit(place: Place) -> Numbers:
    fit, truth, gear = place.fit, place.truth, place.gear
    step = np.maximum(fit.bore_in, fit.bore_out) / np.minimum(fit.bore_in, fit.bore_out)
    return np.asarray(
        quick_push_logit(
            gear.spring_stiffness / gear.stiffness, step, fit.pipe.friction * truth.error("quick push"),
            place.bends * truth.limit("quick_bend_weight"), truth.tables.junction,
        )
    )  # fmt: skip


def _string(place: Place, plain: Ends) -> tuple[Numbers, Numbers]:
    """A light pull turns the head; the rod end behind it has still to follow."""
    truth, gear = place.truth, place.gear
    constants = truth.tables.junction
    arm = truth.limit("string_eccentricity") + gear.head_diameter / 2
    wanted = string_tension_for_turn(
        (constants.string_low + constants.string_high) / 2, arm, gear.spring_length, gear.spring_stiffness
    )
    # The hand pulls for the friction it expects and feels nothing of what arrives.
    expected = truth.tables.limits["string_friction"].likely
    pull = np.minimum(wanted * np.exp(expected * place.turned), truth.limit("string_hand_tension"))
    arrives = string_tip_tension(pull, truth.limit("string_friction"), place.turned)
    arrives = np.minimum(arrives, np.maximum(place.force, 0))
    turned = string_turn_angle(arrives, arm, gear.spring_length, gear.spring_stiffness)
    turned = turned * truth.error("string")
    head_turns = np.maximum(plain.passes + plain.rod_end_stuck, 1e-6)
    follows = np.minimum(plain.passes / head_turns, 1)
    helps = np.isin(place.way.astype(str), ("merge", *_STEERED))
    return np.where(helps, string_chance(turned, constants) * follows, 0), plain.folded


def _wetted(place: Place, plain: Ends) -> tuple[Numbers, Numbers]:
    return plain.passes, plain.folded  # water has been run already: the wall is wet


def _cleaned(place: Place, plain: Ends) -> tuple[Numbers, Numbers]:
    """Cleaned of scale or grease, the wall has its own bore and friction again."""
    again = steady(replace(place, fit=place.clean))
    return again.passes, again.folded


def _guided(place: Place, plain: Ends) -> tuple[Numbers, Numbers]:
    if place.gear.guided:
        return plain.passes, plain.folded
    lifted = place.truth.limit("guide_lifts") * np.isfinite(place.fit.over_rim)
    return plain.passes + (1 - plain.passes) * lifted, plain.folded


_MADE = {
    "turn the rod": _turned,
    "quick push": _quick,
    "string": _string,
    "water": _wetted,
    "guide": _guided,
    CLEANED: _cleaned,
}


def _offset(technique: str, place: Place) -> Numbers:
    """How far this job's luck with a technique is off the book: one number for a class of fitting."""
    spread = place.truth.tables.limits["technique_offset"]
    found = np.zeros(place.truth.count)
    for way in set(place.way):
        here = place.way == way
        found[here] = place.truth.number(f"offset of {technique} at {way}", spread)[here]
    return found


def _twisted(chance: Numbers, technique: str, place: Place) -> Numbers:
    """What the truth's twist makes of a chance; what is sure or shut stays so."""
    twist = place.truth.twist
    if not twist.logit:
        return chance
    by = np.full(place.truth.count, twist.logit)
    if twist.either_way:
        by = np.where(place.truth.luck(f"coin for {technique}") < 0.5, by, -by)
    return np.where(chance >= 1 - 1e-9, chance, _shifted(chance, by))


def _shifted(chance: Numbers, by: Numbers) -> Numbers:
    inside = np.clip(chance, 1e-9, 1 - 1e-9)
    moved = np.asarray(logistic(np.log(inside / (1 - inside)) + by))
    return np.where((chance > 0) & (chance < 1), moved, chance)
