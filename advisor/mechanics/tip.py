"""The head against a wall: does it slide, does its spring give way, does it fold back."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from advisor.mechanics.hand import euler_load
from advisor.mechanics.junction_constants import JunctionConstants
from advisor.mechanics.values import Values, aligned


def logistic(logit: Values) -> Values:
    """Give the chance of a logit, without overflow at either end.

    Shape: 1/(1 + e^-z), written with tanh.
    Args:
        logit: any number, no unit.
    Returns:
        Chance, 0 to 1.
    Holds when: always.
    Errors: none.
    Source: identity; compared with scipy's expit (tests/mechanics/test_tip_limits.py).
    """
    (logit,) = aligned(logit)
    chance: Values = (0.5 * (1.0 + np.tanh(0.5 * logit)))[()]
    return chance


def slide_angle(
    friction: Values, flat_nose: bool | NDArray[np.bool_], constants: JunctionConstants
) -> Values:
    """Give the largest angle between head and wall at which a pushed head still slides.

    Shape: atan(1/friction) less a loss, larger for a flat nose.
    Args:
        friction: coefficient between head and wall, no unit.
        flat_nose: True for a flat nose, False for a round one.
        constants: the junction table.
    Returns:
        Angle, rad.
    Holds when: the spring is firm (push below `spring_column_load`); friction 0.2 to 0.6.
    Errors: at friction 0.6 a round nose was seen to slide up to 12 degrees further.
    Source: engine-tables; compared with heads pushed against a plane
        (tests/outside/test_engine_cases.py).
    """
    (friction,) = aligned(friction)
    loss = np.where(flat_nose, constants.slide_loss_flat, constants.slide_loss_round)
    angle: Values = (np.arctan(1.0 / friction) - loss.astype(friction.dtype))[()]
    return angle


def spring_column_load(
    spring_stiffness: Values, spring_length: Values, constants: JunctionConstants
) -> Values:
    """Give the push at which the spring behind a stopped head buckles.

    Shape: pi^2 B/(K L)^2.
    Args:
        spring_stiffness: bending stiffness B of the spring, N m^2.
        spring_length: m.
        constants: the junction table.
    Returns:
        Push, N.
    Holds when: the nose is stopped and the rod end guides the rear of the spring.
    Errors: none for a straight spring.
    Source: Euler; compared as `tip_margin`.
    """
    return euler_load(spring_stiffness, spring_length, constants.spring_end_factor)


def tip_margin(
    angle: Values,
    friction: Values,
    flat_nose: bool | NDArray[np.bool_],
    force: Values,
    spring_stiffness: Values,
    spring_length: Values,
    constants: JunctionConstants,
) -> Values:
    """Give what there is over what is needed for a head to leave a wall it runs into.

    Shape: max(slide angle/angle, force/column load): it slides, or its spring gives way.
    Args:
        angle: head axis to wall, rad.
        friction: no unit.
        flat_nose: True for a flat nose.
        force: push at the head, N.
        spring_stiffness: N m^2.
        spring_length: m.
        constants: the junction table.
    Returns:
        Margin, no unit. Where only the spring gives way the head turns *some* way.
    Holds when: a plain wall met at 50 to 83 degrees.
    Errors: as `slide_angle`.
    Source: engine-tables; compared with heads pushed against a plane
        (tests/outside/test_engine_cases.py).
    """
    angle, friction, force, spring_stiffness, spring_length = aligned(
        angle, friction, force, spring_stiffness, spring_length
    )
    sliding = slide_angle(friction, flat_nose, constants) / angle
    buckling = force / spring_column_load(spring_stiffness, spring_length, constants)
    margin: Values = np.maximum(sliding, buckling)
    return margin


def head_room(bore_main: Values, head_length: Values, head_diameter: Values) -> Values:
    """Give the bore of the main over the diagonal of the head: below 1 it cannot turn over.

    Shape: D/hypot(L, d).
    Args:
        bore_main: m.
        head_length: m.
        head_diameter: m.
    Returns:
        Ratio, no unit.
    Holds when: flat ends; a round nose has a little more room.
    Errors: none.
    Source: plane geometry; not compared.
    """
    bore_main, head_length, head_diameter = aligned(bore_main, head_length, head_diameter)
    return (bore_main / np.hypot(head_length, head_diameter))[()]


def fold_back_chance(
    spring_stiffness: Values,
    bore_main: Values,
    head_length: Values,
    head_diameter: Values,
    constants: JunctionConstants,
) -> Values:
    """Give the chance that a head which a steady push has failed to turn ends folded back.

    Shape: logistic(level + room ln(D/diagonal) - spring ln(B/B0)); 0 where D < diagonal.
    Args:
        spring_stiffness: N m^2.
        bore_main: m.
        head_length: m.
        head_diameter: m.
        constants: the junction table.
    Returns:
        Chance, given that failure.
    Holds when: spring 0.002 to 0.06 N m^2, mains of 52 to 102 mm.
    Errors: a rate only: row by row it does no better than saying never.
    Source: engine-tables; compared with the share folded by spring
        (tests/outside/test_engine_cases.py).
    """
    spring_stiffness, bore_main, head_length, head_diameter = aligned(
        spring_stiffness, bore_main, head_length, head_diameter
    )
    room = head_room(bore_main, head_length, head_diameter)
    firmness = np.log(spring_stiffness / constants.fold_spring_reference)
    logit = constants.fold_level + constants.fold_room * np.log(room) - constants.fold_spring * firmness
    return logistic(logit) * (room >= 1.0)
