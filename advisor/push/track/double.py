"""A double fitting: two side lines join face to face, and a head out of the one may run into the other.

On the sheet it is two junctions with no pipe between them, both of a shape that takes an arm at either side;
or one alone, where nobody drew the arm opposite. The arms of a double wye face nothing: both point down the
line, so that the mouth opposite lies a right angle back from the way of the head, past a sharp crotch. The
wall below it turns the head down the line, as in a single wye (engine pushes: nearly every wye passed).
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
from advisor.push.track.leg import Leg
from advisor.site.network import Network, Piece
from advisor.tables.load import Tables

_HALF = 0.5  # more likely than not
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


def undrawn(network: Network, piece: Piece, tables: Tables) -> Piece | None:
    """The arm that faces this one and stands on no sheet, where the fitting is most likely such a one."""
    paired = any(
        (link := network.links.get((piece.id, port))) is not None
        and network.pieces[link[0]].line == piece.line
        and double_share(network.pieces[link[0]], tables) > 0
        for port in ("up", "down")
    )
    arm = network.links.get((piece.id, "branch"))
    if arm is None or paired or double_share(piece, tables) <= _HALF:
        return None
    name = f"the arm opposite {piece.name}"
    return Piece(f"{piece.id}/opposite", "pipe", name, name, network.pieces[arm[0]].wall)


def may_cross(network: Network, piece: Piece, tables: Tables) -> bool:
    """Whether a head that comes out of the branch there has an open arm before it."""
    return opposite(network, piece, tables) is not None or undrawn(network, piece, tables) is not None


def crosses_by_table(constants: JunctionConstants) -> float:
    """The chance to cross where no plan tells it: the curl of the rod may lie any way."""
    return _mean_over_curls(constants)


@cache
def _mean_over_curls(constants: JunctionConstants) -> float:
    curls = np.arange(_CURLS) * (2 * pi / _CURLS)
    return float(np.mean(crossing_over_chance(curls, constants)))


def crossed(legs: Sequence[Leg]) -> tuple[Leg, ...]:
    """The legs on which the rod runs straight across a double fitting, in their order: two for each, or one
    where the arm opposite is not drawn."""
    pairs = (
        each
        for each in pairwise(legs)
        if {leg.piece.kind for leg in each} == {"junction"}
        and (each[0].enters, each[1].leaves) == ("branch", "branch")
    )
    alone = (leg for leg in legs if (leg.enters, leg.leaves) == ("branch", "branch"))
    return tuple(sorted((*(leg for each in pairs for leg in each), *alone), key=legs.index))


def arms_crossed(legs: Sequence[Leg]) -> list[tuple[Piece, int]]:
    """The junction of each arm opposite into which the rod runs on a way, and from which leg on it is in it;
    of an arm that is not drawn the arm itself."""
    ends = (place for place, leg in enumerate(legs) if leg.leaves == "branch" and leg in crossed(legs))
    return [(legs[place + (legs[place].enters == "branch")].piece, place + 1) for place in ends]
