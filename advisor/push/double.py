"""A double fitting: two side lines join face to face, and a head out of the one may run into the other.

On the sheet it is two junctions with no pipe between them, both of a shape that takes an arm at either side.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import pairwise
from math import pi

import numpy as np

from advisor.mechanics.junction import crossing_over_chance
from advisor.mechanics.junction_constants import JunctionConstants
from advisor.outcome.turns import faces
from advisor.push.leg import Leg
from advisor.site.network import Network, Piece
from advisor.tables.load import Tables

_CURLS = 24  # arithmetic: rolls of the rod over which the chance is taken


def double_share(piece: Piece, tables: Tables) -> float:
    """The chance that a junction is one with an arm at either side, face to face."""
    options = piece.fitting.options if piece.kind == "junction" and piece.fitting else ()
    kinds = ((tables.junctions.get(name), chance) for name, chance in options)
    return sum(chance for kind, chance in kinds if kind is not None and faces(kind.shape))


def opposite(network: Network, piece: Piece, tables: Tables) -> tuple[str, Piece] | None:
    """The port towards the junction of the arm that faces this one, and that junction; None where none is."""
    row = [piece]
    for port in ("up", "down"):
        while double_share(row[0 if port == "up" else -1], tables) > 0:
            last = row[0 if port == "up" else -1]
            link = network.links.get((last.id, port))
            other = network.pieces[link[0]] if link else None
            if other is None or other.line != piece.line or not double_share(other, tables):
                break
            row.insert(0 if port == "up" else len(row), other)
    # More than two in a row are pairs, one below the other.
    place = row.index(piece)
    paired = place + 1 if place % 2 == 0 else place - 1
    if paired >= len(row) or (piece.side is not None and piece.side == row[paired].side):
        return None
    return ("down" if paired > place else "up"), row[paired]


def crosses_by_table(constants: JunctionConstants) -> float:
    """The chance to cross where no plan tells it: the curl of the rod may lie any way."""
    return _mean_over_curls(constants)


@cache
def _mean_over_curls(constants: JunctionConstants) -> float:
    curls = np.arange(_CURLS) * (2 * pi / _CURLS)
    return float(np.mean(crossing_over_chance(curls, constants)))


def crossed(legs: Sequence[Leg]) -> tuple[Leg, ...]:
    """The legs on which the rod runs straight across a double fitting: two for each, in their order."""
    pairs = (
        each
        for each in pairwise(legs)
        if {leg.piece.kind for leg in each} == {"junction"}
        and (each[0].enters, each[1].leaves) == ("branch", "branch")
    )
    return tuple(leg for each in pairs for leg in each)
