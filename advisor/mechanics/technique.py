"""What may free a head that a steady push has left stuck: quick push, string, turning the rod."""

from __future__ import annotations

import math
from enum import StrEnum

import numpy as np

from advisor.mechanics.junction_constants import JunctionConstants
from advisor.mechanics.tip import head_room, logistic
from advisor.mechanics.values import Values, aligned

ALMOST_SURE = 1.0 - 1e-6  # steers: only keeps the logarithm of what is left finite


class Remedy(StrEnum):
    """What is tried after a steady push has stalled, besides one stroke (`quick_push_chance`)."""

    HARD_SLOW_PUSH = "pull back, then a slow hard push"
    HALF_TURN_SLOW_PUSH = "half a turn of the rod, then a slow hard push"
    THREE_QUICK_PUSHES = "three quick pushes"
    GENTLE_QUARTER_TURN = "quarter turn of the rod and a gentle push"


def stroke_left(stroke: Values, slack: Values) -> Values:
    """Give the stroke that reaches the head once the rod has crossed over in each bend behind.

    Shape: max(0, stroke - slack).
    Args:
        stroke: of the hand, m.
        slack: sum over the bends of angle times clearance, m.
    Returns:
        Stroke, m.
    Holds when: the rod was pulled back before the stroke.
    Errors: none.
    Source: plane geometry; compared with a worked stroke (tests/mechanics/test_tip_limits.py).
    """
    stroke, slack = aligned(stroke, slack)
    left: Values = np.maximum(stroke - slack, 0.0)
    return left


def quick_push_logit(
    spring_over_rod_stiffness: Values,
    bore_main_over_branch: Values,
    friction: Values,
    bends_before: Values,
    constants: JunctionConstants,
) -> Values:
    """Give how well placed a stalled head is for a quick push.

    Shape: level + a log10(B/EI) - b D_main/D_branch - c friction - d bends.
    Args:
        spring_over_rod_stiffness: B/EI, no unit.
        bore_main_over_branch: no unit.
        friction: no unit.
        bends_before: between hand and fitting, a count.
        constants: the junction table.
    Returns:
        Logit, no unit; `quick_push_chance` makes a chance of it.
    Holds when: swept fittings, rod 0.2 to 0.8 N m^2, friction 0.2 to 0.5, steps up to 2.
    Errors: too hopeful in a sweep of one branch bore; square tees are not covered.
    Source: engine-tables; compared with rates by group (tests/outside/test_engine_sweeps.py).
    """
    ratio, step, friction, bends = aligned(
        spring_over_rod_stiffness, bore_main_over_branch, friction, bends_before
    )
    logit: Values = (
        constants.quick_level
        + constants.quick_spring * np.log10(ratio)
        - constants.quick_step * step
        - constants.quick_friction * friction
        - constants.quick_bend * bends
    )
    return logit


def quick_push_chance(logit: Values, speed: Values, constants: JunctionConstants) -> Values:
    """Give the chance that one stroke passes where the steady push has stalled.

    Shape: logistic(s logit - offset - p (1 - share)); the share rises with ln(speed) from 0 at
        a slow push to 1 at a quick one.
    Args:
        logit: of `quick_push_logit`.
        speed: of the stroke at the head, m/s.
        constants: the junction table.
    Returns:
        Chance of one stroke.
    Holds when: pulled back about 0.3 m, up to 150 N; speed beyond the quick one adds nothing.
    Errors: single outcomes are near chaotic: two strokes on one case agree 73 % of the time.
    Source: engine-tables; compared with rates by group (tests/outside/test_engine_sweeps.py).
    """
    logit, speed = aligned(logit, speed)
    span = math.log(constants.quick_speed / constants.slow_speed)
    pace = np.log(np.maximum(speed / constants.slow_speed, 1.0))
    share = np.minimum(pace / span, 1.0)
    shrunk = constants.quick_shrink * logit - constants.quick_offset
    return logistic(shrunk - constants.slow_penalty * (1.0 - share))


def repeated_chance(chance: Values, strokes: Values, constants: JunctionConstants) -> Values:
    """Give the chance that one of several strokes passes, the strokes being much alike.

    Shape: 1 - (1 - q)^(n^a), a below 1.
    Args:
        chance: q of one stroke.
        strokes: n, a count.
        constants: the junction table.
    Returns:
        Chance.
    Holds when: strokes on one head in one place; nearly all of it is in the first two.
    Errors: none.
    Source: engine-tables; compared with three strokes (tests/outside/test_engine_sweeps.py).
    """
    chance, strokes = aligned(chance, strokes)
    left = np.log1p(-np.minimum(chance, ALMOST_SURE))
    together: Values = -np.expm1(left * strokes**constants.repeat_exponent)
    return together


def remedy_chance(remedy: Remedy, logit: Values, constants: JunctionConstants) -> Values:
    """Give the chance that a remedy passes where the steady push has stalled.

    Shape: `quick_push_chance` at the slow speed; three strokes at the quick one by
        `repeated_chance`; a quarter turn with a gentle push as a slow push less a penalty.
    Args:
        remedy: what is tried.
        logit: of `quick_push_logit`.
        constants: the junction table.
    Returns:
        Chance.
    Holds when: as `quick_push_logit`. Half a turn only reshuffles which cases pass, so it is
        a fair second try and no more.
    Errors: does not tell a stuck head from a stuck rod end, where quick has no edge over slow.
    Source: engine-tables; compared with rates by remedy (tests/outside/test_engine_sweeps.py).
    """
    if remedy is Remedy.GENTLE_QUARTER_TURN:
        (logit,) = aligned(logit)
        shrunk = constants.quick_shrink * logit - constants.quick_offset
        return logistic(shrunk - constants.gentle_penalty)
    if remedy in (Remedy.HARD_SLOW_PUSH, Remedy.HALF_TURN_SLOW_PUSH):
        return quick_push_chance(logit, constants.slow_speed, constants)
    one = quick_push_chance(logit, constants.quick_speed, constants)
    return repeated_chance(one, 3.0, constants)


def quick_push_fold_chance(
    bore_main: Values, head_length: Values, head_diameter: Values, constants: JunctionConstants
) -> Values:
    """Give the chance that a quick stroke ends with the head folded back: look after each one.

    Shape: logistic(level + room ln(D/diagonal)); 0 where D < diagonal.
    Args:
        bore_main: m.
        head_length: m.
        head_diameter: m.
        constants: the junction table.
    Returns:
        Chance.
    Holds when: bore over diagonal from 1.2 to 2.4.
    Errors: too high in a stack, where 1 stroke of 52 folded.
    Source: engine-tables; compared with rates by pair (tests/outside/test_engine_sweeps.py).
    """
    room = head_room(bore_main, head_length, head_diameter)
    logit = constants.quick_fold_level + constants.quick_fold_room * np.log(room)
    return logistic(logit) * (room >= 1.0)


def string_turn_angle(tension: Values, eccentricity: Values, length: Values, stiffness: Values) -> Values:
    """Give the angle through which a string tied off-centre at the head bends the spring.

    Shape: T e L/B.
    Args:
        tension: at the head, N.
        eccentricity: of the knot from the axis, m.
        length: of the spring, m.
        stiffness: B of the spring, N m^2.
    Returns:
        Angle, rad; a lower bound, for a free string bows out and gains lever.
    Holds when: below about half a radian.
    Errors: none.
    Source: beam under an end moment; compared with worked pulls
        (tests/mechanics/test_tip_limits.py).
    """
    tension, eccentricity, length, stiffness = aligned(tension, eccentricity, length, stiffness)
    return (tension * eccentricity * length / stiffness)[()]


def string_tension_for_turn(angle: Values, eccentricity: Values, length: Values, stiffness: Values) -> Values:
    """Give the tension at the head that bends the spring through an angle.

    Shape: angle B/(e L).
    Args:
        angle: rad.
        eccentricity: of the knot from the axis, m.
        length: of the spring, m.
        stiffness: B of the spring, N m^2.
    Returns:
        Tension, N.
    Holds when: as `string_turn_angle`.
    Errors: none.
    Source: inverse of `string_turn_angle`; compared with it.
    """
    angle, eccentricity, length, stiffness = aligned(angle, eccentricity, length, stiffness)
    return (angle * stiffness / (eccentricity * length))[()]


def string_tip_tension(hand_tension: Values, friction: Values, angle: Values) -> Values:
    """Give the tension left at the head after the string has gone round the bends behind it.

    Shape: T e^(-mu theta).
    Args:
        hand_tension: N.
        friction: of string on pipe, no unit.
        angle: sum of the bends, rad.
    Returns:
        Tension, N.
    Holds when: light string.
    Errors: none.
    Source: capstan; compared with worked pulls (tests/mechanics/test_tip_limits.py).
    """
    hand_tension, friction, angle = aligned(hand_tension, friction, angle)
    return (hand_tension * np.exp(-friction * angle))[()]


def string_chance(angle: Values, constants: JunctionConstants) -> Values:
    """Give the chance that a light pull on the string turns the head.

    Shape: straight lines through nothing at 0, half, the window, hooking, hooked.
    Args:
        angle: of `string_turn_angle`, rad.
        constants: the junction table.
    Returns:
        Chance that the head turns; the rod end has still to follow (`rod_end_logit`).
    Holds when: backed off about 80 mm, tension first, then advanced; pulling while pushing
        passes none.
    Errors: with a stiff rod the rod end sticks all the same (0 of 97 passed).
    Source: engine-tables; compared with string rows (tests/outside/test_engine_cases.py).
    """
    (angle,) = aligned(angle)
    knots = (
        (0.0, 0.0),
        (constants.string_half, 0.5),
        (constants.string_low, constants.string_best),
        (constants.string_high, constants.string_best),
        (constants.string_hooking, constants.string_hooking_chance),
        (constants.string_hooked, 0.0),
    )
    angles, chances = zip(*knots, strict=True)
    return np.asarray(np.interp(angle, angles, chances)).astype(angle.dtype)[()]
