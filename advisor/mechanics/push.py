"""How much of a push is left at the tip, and how hard the rod comes back.

Forces are marched from the hand to the tip: one pass then gives both the reach and the place
where the push dies. A compressing force is positive. A result below zero where the hand pushed
means that the push died on the way: the rod would have to be drawn from its tip
(`reach_straight` gives the place). A force already below zero is a hanging rod's tension.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

import numpy as np

from advisor.mechanics.coil import SMALL, coiled_length, rates, tangent_span
from advisor.mechanics.values import Values, aligned

UNLOADING = 0.8  # share of 2 F sin(angle/2) that the first push takes off the walls; see push_bend


class Straight(NamedTuple):
    """One straight run: the arguments of `push_straight` after the force."""

    length: Values
    friction: Values
    weight: Values
    slope: Values
    stiffness: Values
    clearance: Values
    helical_factor: Values


class Bend(NamedTuple):
    """One bend: the arguments of `push_bend` after the force."""

    friction: Values
    angle: Values
    load: Values


Segment = Straight | Bend


def push_straight(
    force: Values,
    length: Values,
    friction: Values,
    weight: Values,
    slope: Values,
    stiffness: Values,
    clearance: Values,
    helical_factor: Values,
) -> Values:
    """Give the push left at the far end of a straight run.

    Shape: dF/dx = -(k + A F^2) while the rod is coiled, -k while it lies, with
        k = w (mu cos(slope) - sin(slope)), A = mu r/(4 EI); it coils above
        helical_factor sqrt(EI w cos(slope)/r). Closed forms, no steps.
    Args:
        force: push at the near end, N; below zero for a hanging rod.
        length: length of the run, m.
        friction: coefficient of friction, no unit.
        weight: weight per length of the rod, N/m.
        slope: downhill angle toward the tip, rad; pi/2 is straight down.
        stiffness: bending stiffness EI, N m^2.
        clearance: half the bore less half the rod, m.
        helical_factor: 2.83 to 5.66, no unit.
    Returns:
        Push at the far end, N; below zero where a push died on the way.
    Holds when: the whole run slides. A vertical rod counts as coiled under any push.
    Errors: the coiled wall force is known to the spread of `helical_factor`; friction dominates.
    Source: derived from the usual soft-string and helical contact terms; compared with
        step-by-step integration (tests/outside/test_push_ode.py).
    """
    force, length, friction, weight, slope, stiffness, clearance, helical_factor = aligned(
        force, length, friction, weight, slope, stiffness, clearance, helical_factor
    )
    drag, coil, onset = rates(friction, weight, slope, stiffness, clearance, helical_factor)
    gain = np.maximum(-drag, SMALL)
    # Steep downhill a lying rod gains push until it coils; elsewhere this stretch is empty.
    lying = np.where(drag < 0, np.clip((onset - force) / gain, 0, length), 0)
    after = force - drag * lying
    left = length - lying
    coiled = np.maximum(after, onset)
    # What follows is coiled until the push has fallen to the onset, then lying again. Downhill
    # it never lies again: at the onset the coiled rod loses push and the lying one gains it.
    until = coiled_length(coiled, onset, drag, coil)
    over = np.where(drag < 0, left, np.minimum(left, until))
    span = tangent_span(over, drag, coil)
    end = np.maximum((coiled - drag * span) / (1 + coil * coiled * span), onset)
    return (end - (coiled - after) - np.maximum(drag, 0) * (left - over))[()]


def reach_straight(
    force: Values,
    force_end: Values,
    friction: Values,
    weight: Values,
    slope: Values,
    stiffness: Values,
    clearance: Values,
    helical_factor: Values,
) -> Values:
    """Give the length of a straight run over which the push falls to a given force.

    Shape: inverse of `push_straight` in closed form.
    Args:
        force: push at the near end, N.
        force_end: push still wanted at the far end, N.
        friction: coefficient of friction, no unit.
        weight: weight per length of the rod, N/m.
        slope: downhill angle toward the tip, rad.
        stiffness: bending stiffness EI, N m^2.
        clearance: half the bore less half the rod, m.
        helical_factor: 2.83 to 5.66, no unit.
    Returns:
        Length, m; 0 if the push starts no higher, inf if it never falls that far.
    Holds when: as `push_straight`.
    Errors: as `push_straight`.
    Source: derived; compared with step-by-step integration (tests/outside/test_push_ode.py).
    """
    force, force_end, friction, weight, slope, stiffness, clearance, helical_factor = aligned(
        force, force_end, friction, weight, slope, stiffness, clearance, helical_factor
    )
    drag, coil, onset = rates(friction, weight, slope, stiffness, clearance, helical_factor)
    coiled = np.maximum(force, onset)
    length = coiled_length(coiled, np.maximum(force_end, onset), drag, coil)
    lying = np.minimum(force, onset) - force_end
    with np.errstate(divide="ignore", invalid="ignore"):
        length = length + np.where(lying > 0, np.where(drag > 0, lying / np.maximum(drag, 0), np.inf), 0)
    return np.where(force <= force_end, 0, length)[()]


def push_bend(force: Values, friction: Values, angle: Values, load: Values) -> Values:
    """Give the push left behind a bend.

    Shape: min((F - mu S0)/(1 - 0.8 mu sin(angle/2)), F exp(-mu angle)): the stiff rod's wall
        load, eased by the push, until the push has lifted the rod off the inner wall.
    Args:
        force: push before the bend, N; below zero for a hanging rod.
        friction: coefficient of friction, no unit; below 1.25.
        angle: angle the bend turns through, rad.
        load: wall load S0 of the unpushed rod, N (`rod.stiffness_load`).
    Returns:
        Push behind the bend, N; below zero where the push died in it.
    Holds when: the rod already lies through the bend; its end entering is junction.py's matter.
    Errors: 0.8 is a fit, 1 % on the wall load; at large pushes the lumped wall load is up to
        20 % above the rope value, which the exponential makes up at a friction of about 0.3.
    Source: derived and fitted; compared with a least-energy rod (tests/outside/test_rod_energy.py)
        and published conduit pulls (tests/outside/test_conduit_pulling.py).
    """
    force, friction, angle, load = aligned(force, friction, angle, load)
    eased = 1 - UNLOADING * friction * np.sin(angle / 2)
    rope = force * np.exp(-np.copysign(friction * angle, force))
    return np.minimum((force - friction * load) / eased, rope)[()]


def march(force: Values, segments: Iterable[Segment]) -> list[Values]:
    """Give the push before each segment and, last, at the tip.

    Shape: one entry more than there are segments.
    Args:
        force: push of the hand, N.
        segments: straights and bends from the hand to the tip.
    Returns:
        Pushes, N; the first below zero comes after the segment in which the push died.
    Holds when: as `push_straight` and `push_bend`.
    Errors: as its parts.
    Source: compared with soft-string torque-and-drag code (tests/outside/test_soft_string.py).
    """
    forces = [force]
    for segment in segments:
        step = push_straight if isinstance(segment, Straight) else push_bend
        forces.append(step(forces[-1], *segment))
    return forces


def pull_straight(tension: Values, length: Values, friction: Values, weight: Values, slope: Values) -> Values:
    """Give the tension at the hand's side of a straight run while the rod is drawn back.

    Shape: T + w x (mu cos(slope) + sin(slope)), not below 0.
    Args:
        tension: tension at the tip's side, N.
        length: length of the run, m.
        friction: coefficient of friction, no unit.
        weight: weight per length of the rod, N/m.
        slope: downhill angle toward the tip, rad.
    Returns:
        Tension at the hand's side, N; 0 where the rod slides back by its own weight.
    Holds when: the rod lies on the bottom of the pipe.
    Errors: as good as the friction.
    Source: soft string; compared with torque-and-drag code (tests/outside/test_soft_string.py).
    """
    tension, length, friction, weight, slope = aligned(tension, length, friction, weight, slope)
    drag = weight * (friction * np.maximum(np.cos(slope), 0) + np.sin(slope))
    return np.maximum(tension + drag * length, 0)[()]


def pull_bend(tension: Values, friction: Values, angle: Values, load: Values) -> Values:
    """Give the tension at the hand's side of a bend while the rod is drawn back.

    Shape: max(T (1 + 0.8 mu sin(angle/2)) + mu S0, T exp(mu angle)).
    Args:
        tension: tension at the tip's side, N.
        friction: coefficient of friction, no unit.
        angle: angle the bend turns through, rad.
        load: wall load S0 of the rod with no force in it, N.
    Returns:
        Tension at the hand's side, N.
    Holds when: the head itself clears the bend.
    Errors: the first branch carries `push_bend`'s fit over to tension, where it is not tested.
    Source: rope formula compared with published conduit pulls
        (tests/outside/test_conduit_pulling.py); the stiffness branch not compared.
    """
    tension, friction, angle, load = aligned(tension, friction, angle, load)
    stiff = tension * (1 + UNLOADING * friction * np.sin(angle / 2)) + friction * load
    return np.maximum(stiff, tension * np.exp(friction * angle))[()]


def pull_out(tension: Values, segments: Sequence[Segment]) -> Values:
    """Give the hand's pull that draws the rod back through all segments.

    Shape: the segments taken from the tip back to the hand.
    Args:
        tension: pull that the head itself takes, N.
        segments: straights and bends from the hand to the tip.
    Returns:
        Pull at the hand, N.
    Holds when: as `pull_straight` and `pull_bend`.
    Errors: as its parts.
    Source: compared with torque-and-drag code (tests/outside/test_soft_string.py).
    """
    for segment in reversed(segments):
        if isinstance(segment, Straight):
            tension = pull_straight(tension, segment.length, segment.friction, segment.weight, segment.slope)
        else:
            tension = pull_bend(tension, *segment)
    return tension
