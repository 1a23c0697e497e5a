"""What holds a head that goes no further at a spot, as the planner works it out: each cause in each world."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from advisor.outcome.spot import Spot
from advisor.tables.stuck import Planned
from advisor.worlds.draws import Array

_LEAST = 1e-6  # where hardly any push is held


def of_held(share: float, passes: float) -> float:
    """The share of the pushes that are held, of a `share` of all of which so many pass; all 0 to 1."""
    return min(share / max(1 - passes, _LEAST), 1.0)


def held_by(spot: Spot, short: NDArray[np.bool_] | None = None) -> dict[Planned, Array]:
    """The chance of each cause that holds a gentle push there, float[N]; `short` where none arrives."""
    plain, shape = spot.plain, spot.shape
    zero = np.zeros_like(plain.passes)
    # A head wider than the bore turns at no length: that is not the turn's doing.
    fits = np.asarray(shape.fits) > 1
    jams = ((np.asarray(shape.rigid) <= 1) & fits) + zero
    bore = ~fits + zero
    roots = (np.asarray(shape.gap) <= 1) * (1 - bore)
    stopper = zero + float(shape.turn.way == "stop")
    over = np.asarray(shape.ledge)
    rim = (over <= 1) + zero if np.isfinite(over).any() else zero
    # The planner counts what cannot be under the far wall; here each goes by its own name.
    wall = np.clip(plain.far_wall - jams - bore - stopper - rim * plain.far_wall, 0, 1)
    return {
        "far_wall": wall if shape.turn.bends else zero,
        "rod_end": plain.rod_end,
        "folds": plain.folds,
        "wrong_way": plain.wrong_way,
        "crosses": plain.crosses,
        "jams": jams,
        "ledge": np.maximum(rim, zero if shape.turn.bends else plain.far_wall)
        * (1 - jams)
        * (1 - bore)
        * (1 - roots),
        "reach": zero if short is None else short + zero,
        "bore": bore,
        "roots": roots,
        "stopper": stopper,
    }
