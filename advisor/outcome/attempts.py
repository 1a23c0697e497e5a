"""One try of each technique at a hard spot: its chance in each world, its minutes, and what it may cost.

The planner, the stop rule, the tracker and practice all use these; only a simulator draws luck.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from advisor.mechanics.junction_case import SQUARE, JunctionKind, Lie
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
)
from advisor.mechanics.tip import logistic
from advisor.outcome.geometry import Geometry, cleaned, wetted
from advisor.outcome.spot import Spot
from advisor.outcome.steady import Steady, natural_curl, steady
from advisor.worlds.draws import Array

STEADY, TURN, BLOW, STRING = "steady push", "turn the rod", "quick push", "string"
GUIDE, CLEANED = "guide", "clean first"
TECHNIQUES = (
    STEADY, TURN, BLOW, STRING, "water", GUIDE, "smaller head", "hands close", "straight in", CLEANED,
    "other opening",
)  # fmt: skip
# Habits and changes of plan: they hold everywhere or are assessed as another loadout or opening.
NO_TRY = ("smaller head", "hands close", "straight in", "other opening")


def called(technique: str) -> str:
    """What a try is called where somebody told it: whether a push was a steady one nobody knows beside it."""
    return "an even push" if technique == STEADY else technique


@dataclass(frozen=True)
class Attempt:
    """One try of one technique at one spot. Chances are float32[N]; minutes are of one try.

    `wedge` is given that the try fails, `kink` whether or not it does.
    """

    technique: str
    chance: Array
    minutes: float
    set_up_minutes: float
    wedge: Array
    kink: Array
    wedge_minutes: float
    kink_minutes: float

    @property
    def lost(self) -> Array:
        """The chance that the try ends the sequence: wedged or kinked."""
        return np.asarray(1 - (1 - self.wedge) * (1 - self.kink), np.float32)

    def worth(self, chance: Array, stuck: Array) -> tuple[float, float]:
        """The mean `chance` of one try in the worlds where the head is `stuck`, and the minutes of it, those
        of setting up and of harm counted in."""
        return mean_stuck(chance, stuck), self.cost(chance)

    def cost(self, chance: Array) -> float:
        """The minutes of one try that passes with `chance`, those of setting up and of harm counted in."""
        return self.minutes + self.set_up_minutes + float(self._harm(self._wedged(chance)).mean())

    def _wedged(self, chance: Array) -> Array:
        return np.asarray((1 - self.kink) * (1 - chance) * self.wedge)

    def _harm(self, wedged: Array) -> Array:
        return np.asarray(self.kink * self.kink_minutes + wedged * self.wedge_minutes, np.float32)

    def ends(self, chance: Array) -> tuple[Array, Array, Array]:
        """Of one try where `chance` gets by unless the rod kinks, float32[N] each: the share that is through,
        the share of the others that ends the sequence, and the minutes of harm, as the walk counts them."""
        through = np.asarray((1 - self.kink) * chance, np.float32)
        wedged = self._wedged(chance)
        lost = np.asarray((self.kink + wedged) / np.maximum(1 - through, 1e-6), np.float32)
        return through, lost, self._harm(wedged)


def mean_stuck(chance: Array, stuck: Array) -> float:
    """The mean `chance` of one try in the worlds where the head is `stuck`; both float32[N]."""
    return float((chance * stuck).sum() / max(float(stuck.sum()), 1e-6))


def attempts(spot: Spot) -> dict[str, Attempt]:
    """Every technique that is a try, whether or not a rule allows it."""
    plain = spot.plain
    made: dict[str, tuple[Array, Array]] = {
        STEADY: (plain.passes, plain.folds),
        TURN: _turned(spot),
        "quick push": _quick(spot),
        STRING: _string(spot),
        "water": _wetted(spot),
        "guide": _guided(spot),
        CLEANED: _cleaned(spot),
    }
    possible = spot.possible
    return {
        name: _attempt(name, chance if name == CLEANED else chance * possible, folds, spot)
        for name, (chance, folds) in made.items()
    }


def _attempt(name: str, chance: Array, folds: Array, spot: Spot) -> Attempt:
    drawn = spot.drawn
    shifted = chance
    if name != STEADY and chance.any():
        shifted = np.where(chance > 0, logistic(_logit(chance) + _offset(name, spot)), 0)
    # A head that folds, jams or stands in roots has mostly to be worked back; seldom is it lost. All fail.
    jams = (spot.shape.fits > 1) & ((spot.shape.rigid <= 1) | (np.asarray(spot.shape.gap) <= 1))
    folded = np.minimum(folds / np.maximum(1 - shifted, 1e-6), 1)
    wedge = folded * drawn.limit("fold_loss") + jams * drawn.limit("jam_loss")
    cost = drawn.tables.costs
    return Attempt(
        name,
        np.asarray(shifted, np.float32),
        cost[f"try, {name}"].likely,
        cost[f"set up, {name}"].likely if f"set up, {name}" in cost else 0.0,
        np.asarray(wedge, np.float32),
        spot.plain.kink,
        cost["wedge"].likely,
        cost["kink"].likely,
    )


def _offset(name: str, spot: Spot) -> Array:
    """How far this job's luck with a technique lies from the book: one draw for a class of fitting.

    What logged tries have taught moves all of it.
    """
    drawn, way = spot.drawn, spot.shape.turn.way
    luck = drawn.worlds.value(f"offset/{name}/{way}", drawn.tables.limits["technique_offset"])
    shift = drawn.learned.shift(name, way)
    return np.asarray(luck + np.float32(shift), np.float32) if shift else luck


def _turned(spot: Spot) -> tuple[Array, Array]:
    """The rod turned, its curl the way wanted: it mends what ran past or a joint held, less far in."""
    shape, drawn, kit, plain = spot.shape, spot.drawn, spot.kit, spot.plain
    control = np.exp(-spot.station.at / drawn.limit("turn_length"))
    way, steers, back = shape.turn.way, control * drawn.limit("turn_steers"), shape.turn.back
    mended = plain.passes + plain.wrong_way * steers * _against_sweep(spot) * _follows(plain)
    if way in ("leg", "hairpin", "fork"):
        return mended, plain.folds
    if way not in ("merge", "bend"):
        return _lifted(spot, steers) * (shape.passage.piece.kind == "joint"), plain.folds
    if shape.turn.merges and set(shape.turn.merges) <= set(SQUARE):
        # Pointed the right way where the turn arrives, else left to chance.
        natural = natural_curl(shape, drawn)
        aimed = np.where(drawn.worlds.uniform(f"{shape.passage.piece.id}/aim") < control, 0, natural)
        again = steady(shape, spot.station.force, kit, drawn, curl=aimed)
        # The model sees no effect of the curl in a tee on its side, where practice says there is one.
        turned = again.passes if shape.turn.lie is not Lie.FLAT else _raised(again.passes, steers)
        return np.asarray(turned if back is None else np.where(back, mended, turned)), again.folds
    # In a swept fitting half a turn only reshuffles which cases pass.
    half = remedy_chance(Remedy.HALF_TURN_SLOW_PUSH, _quick_logit(spot), drawn.tables.junction)
    return np.asarray(half if back is None else np.where(back, mended, half), np.float32), plain.folds


def _against_sweep(spot: Spot) -> Array:
    """What string and curl do where the head must come back round, over what they do elsewhere."""
    turn, less = spot.shape.turn, spot.drawn.limit("against_sweep")
    against = turn.way == "hairpin" if turn.back is None else turn.back
    return np.where(against, less, np.float32(1))


def _follows(plain: Steady) -> Array:
    """Of the heads that have turned, those whose rod comes after."""
    return np.clip(plain.passes / np.maximum(plain.passes + plain.rod_end, 1e-6), 0, 1)


def _quick(spot: Spot) -> tuple[Array, Array]:
    """Back off and one smooth stroke; nothing where the bends eat the stroke."""
    shape, drawn, kit = spot.shape, spot.drawn, spot.kit
    n = drawn.worlds.n
    if not shape.turn.bends:
        return np.zeros(n, np.float32), np.zeros(n, np.float32)
    constants = drawn.tables.junction
    chance = quick_push_chance(_quick_logit(spot), drawn.limit("quick_speed"), constants)
    # Out of a square turn the head leaves the far wall, but seldom the way wanted.
    chance = np.where(_square(shape), chance * drawn.limit("quick_square_share"), chance)
    if shape.turn.way in ("leg", "hairpin"):
        chance = chance * drawn.limit(f"steer_{shape.turn.way}")
    elif shape.turn.back is not None:
        chance = np.where(shape.turn.back, chance * drawn.limit("steer_hairpin"), chance)
    arrives = np.minimum(spot.stroke / drawn.limit("least_stroke"), 1)
    folds = quick_push_fold_chance(shape.bore_out, kit.head_length, kit.head_diameter, constants)
    turns = shape.turn.way != "bend"
    return np.asarray(chance * arrives, np.float32), np.asarray(folds * turns, np.float32)


def _square(shape: Geometry) -> NDArray[np.bool_]:
    """Worlds where the turn has no sweep to carry a moving head round: a straight tee that does not
    stand in a stack, or a square bend."""
    if shape.turn.square is not None:
        return shape.turn.square
    tee = shape.turn.merges.get(JunctionKind.STRAIGHT_TEE)
    if tee is None or shape.turn.lie is Lie.STACK:
        return np.zeros(shape.bore.shape, np.bool_)
    return tee


def _quick_logit(spot: Spot) -> Array:
    shape, kit = spot.shape, spot.kit
    step = np.maximum(shape.bore_in, shape.bore_out) / np.minimum(shape.bore_in, shape.bore_out)
    return np.asarray(
        quick_push_logit(
            kit.spring_over_rod,
            step,
            shape.friction * spot.drawn.error("quick push"),
            np.float32(spot.station.bends) * spot.drawn.limit("quick_bend_weight"),
            spot.drawn.tables.junction,
        ),
        np.float32,
    )


def _string(spot: Spot) -> tuple[Array, Array]:
    """A light pull on a slip line turns the head; the rod end behind it must still follow."""
    shape, drawn, plain = spot.shape, spot.drawn, spot.plain
    if shape.turn.way not in ("merge", "leg", "hairpin", "fork"):
        return np.zeros_like(plain.passes), np.zeros_like(plain.passes)
    turned = string_angle(spot)
    turns = string_chance(turned, drawn.tables.junction) * _against_sweep(spot)
    return np.asarray(turns * _follows(plain), np.float32), plain.folds


def string_angle(spot: Spot) -> Array:
    """The angle that the string turns the head through, rad.

    The hand aims at the middle of the window for the friction it expects; what arrives behind the
    bends is another matter. More than the arm's pull, or than the push that is left, is not to be had.
    """
    drawn, kit = spot.drawn, spot.kit
    constants = drawn.tables.junction
    arm = drawn.limit("string_eccentricity") + kit.head_diameter / 2
    aim = (constants.string_low + constants.string_high) / 2
    wanted = string_tension_for_turn(aim, arm, kit.spring_length, kit.spring_stiffness)
    expected = drawn.likely("string_friction")
    at_hand = wanted * np.exp(expected * spot.station.turned)
    at_hand = np.minimum(at_hand, drawn.limit("string_hand_tension"))
    at_head = string_tip_tension(at_hand, drawn.limit("string_friction"), spot.station.turned)
    at_head = np.minimum(at_head, np.maximum(spot.station.force, 0))
    turned = string_turn_angle(at_head, arm, kit.spring_length, kit.spring_stiffness)
    return np.asarray(turned * drawn.error("string"), np.float32)


def _wetted(spot: Spot) -> tuple[Array, Array]:
    """Running water wets the wall: the same push with less friction at the spot."""
    return _eased(spot, wetted(spot.shape, spot.kit, spot.drawn))


def _cleaned(spot: Spot) -> tuple[Array, Array]:
    """Descaled, flushed or cut clear of roots: the wall's own bore and friction come back."""
    return _eased(spot, cleaned(spot.shape, spot.kit, spot.drawn))


def _eased(spot: Spot, shape: Geometry) -> tuple[Array, Array]:
    """The same push on an easier wall; nothing where it is not the wall that stops the head."""
    pairs = ((getattr(each, name) for each in (shape, spot.shape)) for name in ("friction", "bore", "gap"))
    if all(np.array_equal(eased, as_found) for eased, as_found in pairs):
        return np.zeros_like(spot.plain.passes), spot.plain.folds
    again = steady(shape, spot.station.force, spot.kit, spot.drawn)
    gained = float((again.passes - spot.plain.passes).mean()) > spot.drawn.likely("worth_trying")
    return (again.passes if gained else np.zeros_like(again.passes)), again.folds


def _guided(spot: Spot) -> tuple[Array, Array]:
    """One guide near the head lifts the nose over a rim; it turns nothing."""
    over = _lifted(spot, spot.drawn.limit("guide_lifts"))
    return np.zeros_like(over) if spot.kit.guided else over, spot.plain.folds


def _lifted(spot: Spot, share: Array) -> Array:
    """The chance over a rim when a share of what it stopped now passes; nothing where there is no rim."""
    return np.asarray(_raised(spot.plain.passes, share) * np.isfinite(spot.shape.ledge), np.float32)


def _raised(chance: Array, share: Array) -> Array:
    """The chance when a share of what failed now passes."""
    return np.asarray(chance + (1 - chance) * share, np.float32)


def _logit(chance: Array) -> Array:
    inside = np.clip(chance, 1e-6, 1 - 1e-6)
    return np.asarray(np.log(inside / (1 - inside)), np.float32)
