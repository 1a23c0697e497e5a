"""A steady push from a branch into a main: the head turns, then the rod end behind its spring."""

from __future__ import annotations

import math

import numpy as np

from advisor.mechanics.junction_case import SQUARE, JunctionChances, JunctionKind, Lie, Push
from advisor.mechanics.junction_constants import JunctionConstants
from advisor.mechanics.tip import fold_back_chance, logistic, slide_angle, spring_column_load
from advisor.mechanics.values import Array, Values, aligned

SIDEWAYS = math.pi / 2  # roll of the natural curl at which it favours neither way
LEAST_FORCE = 1e-3  # steers: N; only keeps the logarithm of no push finite


def tee_height(bore_branch: Values, bore_main: Values, rod_diameter: Values) -> Values:
    """Give the room across a junction in which the rod must make its quarter turn.

    Shape: (D_branch + D_main)/2 - d.
    Args:
        bore_branch: m.
        bore_main: m.
        rod_diameter: m.
    Returns:
        Height, m.
    Holds when: square tees; swept fittings take it too and carry an ease of their own.
    Errors: none.
    Source: engine-tables; compared only through `steady_push`.
    """
    bore_branch, bore_main, rod_diameter = aligned(bore_branch, bore_main, rod_diameter)
    return (0.5 * (bore_branch + bore_main) - rod_diameter)[()]


def rod_end_number(force: Values, height: Values, friction: Values, stiffness: Values) -> Values:
    """Give the push over the friction that bending the rod into a turn calls up.

    Shape: F H^2/(mu EI).
    Args:
        force: push that arrives, N.
        height: chord height of the turn, m; `tee_height` or that of a bend.
        friction: no unit.
        stiffness: EI of the rod, N m^2.
    Returns:
        Number, no unit.
    Holds when: quarter turns.
    Errors: none.
    Source: engine-tables; compared with a case worked by hand
        (tests/mechanics/test_tip_limits.py).
    """
    force, height, friction, stiffness = aligned(force, height, friction, stiffness)
    return (force * height * height / (friction * stiffness))[()]


def rod_end_margin(
    force: Values,
    height: Values,
    friction: Values,
    stiffness: Values,
    spring_stiffness: Values,
    constants: JunctionConstants,
    curl: Values = SIDEWAYS,
) -> Values:
    """Give what there is over what is needed for the rod end to follow the head round.

    Shape: rod-end number/need * e^(c cos curl); need = low (high/low)^(1/(1 + (b/knee)^n))
        falls from high behind a soft spring, where the rod end turns alone, to low, b = B/EI.
    Args:
        force: push that arrives, N.
        height: chord height of the turn, m.
        friction: no unit.
        stiffness: EI of the rod, N m^2.
        spring_stiffness: B, N m^2.
        constants: the junction table.
        curl: roll of the rod's natural curl, rad, 0 pointing the way of the turn.
    Returns:
        Margin, no unit; above 1 it passes. Its logit is rod_steepness * ln(margin).
    Holds when: bends, and tees into a stack; b from 0.002 to 0.3.
    Errors: does not see that a spring as stiff as its rod stops as well.
    Source: engine-tables; compared with bends and tees into stacks
        (tests/outside/test_engine_cases.py).
    """
    force, height, friction, stiffness, spring_stiffness, curl = aligned(
        force, height, friction, stiffness, spring_stiffness, curl
    )
    ratio = spring_stiffness / stiffness / constants.spring_knee
    softness = 1.0 / (1.0 + ratio**constants.spring_sharpness)
    span = math.log(constants.rod_end_stiff / constants.rod_end_graded)
    need = constants.rod_end_graded * np.exp(span * softness)
    curled = np.exp(constants.rod_curl * np.cos(curl))
    return rod_end_number(force, height, friction, stiffness) / need * curled


def rod_end_logit(kind: JunctionKind, lie: Lie, push: Push, constants: JunctionConstants) -> Values:
    """Give the logit that the rod end follows a head that has turned downstream.

    Shape: k ln(margin * ease); in a swept fitting ease = a e^(-mu wrap), for the push is
        eaten along the sweep.
    Args:
        kind: of the junction.
        lie: of the junction.
        push: what meets it.
        constants: the junction table.
    Returns:
        Logit, no unit.
    Holds when: rod stiffness 0.1 to 3 N m^2.
    Errors: a single tee at a rod stiffness near 1 N m^2 is close to a toss-up.
    Source: engine-tables; compared by kind and lie (tests/outside/test_engine_cases.py).
    """
    height = tee_height(push.bore_branch, push.bore_main, push.rod_diameter)
    force = np.maximum(push.force, LEAST_FORCE)
    margin = rod_end_margin(
        force,
        height,
        push.friction,
        push.rod_stiffness,
        push.spring_stiffness,
        constants,
        push.curl,
    )
    ease = 1.0 if lie is Lie.STACK else constants.rod_off_stack
    if kind in SQUARE:
        return constants.rod_steepness * np.log(margin * ease)
    further = {
        JunctionKind.WYE: constants.wye_ease,
        JunctionKind.LONG_LEG: constants.long_leg_ease,
        JunctionKind.SHORT_LEG: constants.short_leg_ease,
        JunctionKind.SWEEP: 1.0,
    }[kind]
    in_hand = np.log(margin * ease * constants.sweep_ease * further)
    return constants.rod_steepness * (in_hand - constants.sweep_wrap * push.friction)


def head_logit(kind: JunctionKind, lie: Lie, push: Push, constants: JunctionConstants) -> Values:
    """Give the logit that the head turns downstream.

    Shape: swept fitting: k (slide angle - approach + leans) + c ln(F/column load);
        square tee: level of the lie (and curl, on its back) + c ln(F/column load).
    Args:
        kind: of the junction.
        lie: of the junction.
        push: what meets it.
        constants: the junction table.
    Returns:
        Logit, no unit.
    Holds when: friction 0.2 to 0.6, bores 52 to 102 mm, main up to twice the branch.
    Errors: which way a head goes in a square tee lying flat is noise.
    Source: engine-tables; compared by kind and lie (tests/outside/test_engine_cases.py).
    """
    force = np.maximum(push.force, LEAST_FORCE)
    column = spring_column_load(push.spring_stiffness, push.spring_length, constants)
    pressed = constants.column_slope * np.log(force / column)
    downstream = np.cos(push.curl)
    if kind in SQUARE:
        if lie is Lie.DROP:
            return constants.square_drop + constants.square_drop_curl * downstream + pressed
        return (constants.square_stack if lie is Lie.STACK else constants.square_flat) + pressed
    approach = {
        JunctionKind.WYE: constants.approach_wye,
        JunctionKind.LONG_LEG: constants.approach_long_leg,
        JunctionKind.SHORT_LEG: constants.approach_short_leg,
        JunctionKind.SWEEP: constants.approach_sweep,
    }[kind]
    lean = {Lie.STACK: constants.lean_stack, Lie.FLAT: 0.0, Lie.DROP: constants.lean_drop}[lie]
    step = np.log(np.divide(push.bore_main, push.bore_branch))
    in_hand = slide_angle(push.friction, push.flat_nose, constants) - approach + lean
    in_hand = in_hand + constants.lean_curl * downstream - constants.lean_step * step
    return constants.head_steepness * in_hand + pressed


def crossing_over_chance(curl: Values, constants: JunctionConstants) -> Values:
    """Give the chance that a head crosses a double sanitary tee into the branch opposite.

    Shape: logistic(level - c cos curl).
    Args:
        curl: roll of the rod's natural curl, rad, 0 pointing down the stack.
        constants: the junction table.
    Returns:
        Chance.
    Holds when: double sanitary tee in a stack, rod stiffness near 1 N m^2.
    Errors: blind to bores: 52 into 52 mm crossed every time, a step of 2 seldom.
    Source: engine-tables; compared with its totals by curl
        (tests/outside/test_engine_cases.py).
    """
    (curl,) = aligned(curl)
    return logistic(constants.cross_level - constants.cross_curl * np.cos(curl))


def steady_push(kind: JunctionKind, lie: Lie, push: Push, constants: JunctionConstants) -> JunctionChances:
    """Give the chance of each end of one gentle steady push meant to go downstream.

    Shape: passes = head * rod end; what the head loses is shared out among folding back,
        setting off the wrong way and standing still.
    Args:
        kind: of the junction.
        lie: of the junction.
        push: what meets it.
        constants: the junction table.
    Returns:
        Six chances of one shape.
    Holds when: friction 0.2 to 0.6, rod 0.1 to 3 and spring 0.002 to 0.2 N m^2, bores 52 to
        102 mm. Weak for any single tee at a rod stiffness near 1 N m^2, for the direction in
        a tee lying flat, and from 52 into 102 mm: compare rates, not single cases.
    Errors: shares of the failures are rates over all kinds, not by kind.
    Source: engine-tables; compared by kind and lie, and with totals over rows it was not
        fitted on (tests/outside/test_engine_cases.py, test_engine_sweeps.py).
    """
    crossed: Values = 0.0
    if kind is JunctionKind.DOUBLE_SANITARY_TEE:
        crossed = crossing_over_chance(push.curl, constants)
    head = logistic(head_logit(kind, lie, push, constants))
    rod_end = logistic(rod_end_logit(kind, lie, push, constants))
    folds = fold_back_chance(
        push.spring_stiffness, push.bore_main, push.head_length, push.head_diameter, constants
    )
    turned = (1.0 - crossed) * head
    failed = (1.0 - crossed) * (1.0 - head)
    unfolded = failed * (1.0 - folds)
    ends: tuple[Array, ...] = aligned(
        turned * rod_end,
        unfolded * constants.wrong_way_share,
        failed * folds,
        unfolded * (1.0 - constants.wrong_way_share),
        turned * (1.0 - rod_end),
        crossed,
    )
    return JunctionChances(*np.broadcast_arrays(*ends))
