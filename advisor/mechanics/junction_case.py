"""What meets a junction and what may become of it: kinds, lies, the push and its ends."""

from __future__ import annotations

from dataclasses import dataclass, fields
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from advisor.mechanics.values import Values, aligned


class JunctionKind(StrEnum):
    """How a branch enters its main."""

    WYE = "wye"
    LONG_LEG = "combination with a long leg"
    SHORT_LEG = "combination with a short leg"
    SWEEP = "one-piece sweep"  # also a sanitary tee swept by 0.8 branch bores or more
    SANITARY_TEE = "sanitary tee"
    STRAIGHT_TEE = "straight tee"
    DOUBLE_SANITARY_TEE = "double sanitary tee"


class Lie(StrEnum):
    """How branch and main lie."""

    STACK = "stack"  # level branch into a vertical main
    FLAT = "flat"  # both level, the tee on its side
    DROP = "drop"  # branch falling onto a level main, the tee on its back


SQUARE = (
    JunctionKind.SANITARY_TEE,
    JunctionKind.STRAIGHT_TEE,
    JunctionKind.DOUBLE_SANITARY_TEE,
)


@dataclass(frozen=True)
class Push:
    """A push, the string that is pushed, and the bores: all fields broadcast, all SI."""

    force: Values  # push that arrives at the fitting, N
    friction: Values
    rod_stiffness: Values  # EI, N m^2
    rod_diameter: Values  # m
    spring_stiffness: Values  # B, N m^2
    spring_length: Values  # m
    head_length: Values  # m
    head_diameter: Values  # m
    curl: Values  # roll of the rod's natural curl, rad: 0 points downstream, pi upstream
    bore_branch: Values  # m
    bore_main: Values  # m
    flat_nose: bool | NDArray[np.bool_] = False  # a round nose is the common one

    def __post_init__(self) -> None:
        """Bring all numbers to one precision, so that a plain number cannot widen a batch."""
        names = [field.name for field in fields(self) if field.name != "flat_nose"]
        for name, value in zip(names, aligned(*(getattr(self, n) for n in names)), strict=True):
            object.__setattr__(self, name, value)

    def only(self, cases: NDArray[np.intp]) -> Push:
        """The cases of these numbers; what is one number for all stays so."""
        given = {field.name: getattr(self, field.name) for field in fields(self)}
        return Push(**{n: np.asarray(v)[cases] if np.ndim(v) else v for n, v in given.items()})


@dataclass(frozen=True)
class JunctionChances:
    """What becomes of one steady push; the six add up to 1."""

    passes: Values  # downstream, the rod end past the junction
    wrong_way: Values
    folded: Values
    head_stuck: Values
    rod_end_stuck: Values
    crossed_over: Values
