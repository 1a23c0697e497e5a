"""What a passage turns out to be in each hidden world: straight on, a bend, a joining, a way that is shut."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from advisor.mechanics.junction_case import JunctionKind, Lie
from advisor.routes.passage import Passage
from advisor.site.network import Wall
from advisor.tables.junctions import JunctionKind as TableJunction
from tests.bench.simulation.truth import Names, Numbers, Truth

# A head that comes out of the branch: the table's shape, and what the mechanics call it.
_OUT_OF = {
    "wye": JunctionKind.WYE,
    "double wye": JunctionKind.WYE,
    "sanitary tee": JunctionKind.SANITARY_TEE,
    "straight tee": JunctionKind.STRAIGHT_TEE,
    "saddle": JunctionKind.STRAIGHT_TEE,
    "backdrop": JunctionKind.STRAIGHT_TEE,
    "cross": JunctionKind.DOUBLE_SANITARY_TEE,
    "double sanitary tee": JunctionKind.DOUBLE_SANITARY_TEE,
    "double fixture": JunctionKind.DOUBLE_SANITARY_TEE,
    "chamber": JunctionKind.LONG_LEG,
}
_LEG = {"short": JunctionKind.SHORT_LEG, "long": JunctionKind.LONG_LEG, "one-piece": JunctionKind.SWEEP}
_ONE_WAY = ("wye", "double wye", "combination", "chamber")  # against their sweep these lead back
_TURNS = ("bend", "merge", "leg", "hairpin")


@dataclass(frozen=True)
class Fitting:
    """The turn in each world. `way` is none, fork, stop, bend, merge, leg (up into a branch) or hairpin."""

    way: Names
    angle: Numbers
    radius: Numbers
    kind: Names  # JunctionKind where the way is `merge`
    lie: Lie
    square: NDArray[np.bool_]  # no sweep carries a moving head round
    called: Names  # the fitting's name, as the camera shows it

    @property
    def turns(self) -> NDArray[np.bool_]:
        """Worlds in which head and rod change direction."""
        return np.isin(self.way.astype(str), _TURNS)


class _Maker:
    def __init__(self, truth: Truth, called: Names, lie: Lie = Lie.FLAT) -> None:
        n = truth.count
        self.truth, self.called, self.lie = truth, called, lie
        self.way, self.kind = np.full(n, "none", object), np.full(n, None, object)
        self.angle, self.radius = np.zeros(n), np.zeros(n)
        self.square = np.zeros(n, bool)

    def put(self, here: NDArray[np.bool_], way: str, angle: Numbers, radius: Numbers) -> None:
        self.way[here], self.angle[here], self.radius[here] = way, angle[here], radius[here]

    def done(self) -> Fitting:
        return Fitting(self.way, self.angle, self.radius, self.kind, self.lie, self.square, self.called)


def fitting_of(passage: Passage, truth: Truth) -> Fitting:
    """The turn that this passage makes."""
    if passage.step is not None:
        return _entry(passage, truth)
    piece = passage.piece
    if passage.shape in ("bend", "junction") and piece.fitting is not None:
        called = truth.name(f"kind of {piece.id}", piece.fitting)
        return _bend(passage, called, truth) if passage.shape == "bend" else _junction(passage, called, truth)
    made = _Maker(truth, np.full(truth.count, piece.name, object))
    if passage.shape == "stopper":
        made.way[:] = "stop"
    return made.done()


def hidden_bend(wall: Wall, truth: Truth) -> Fitting:
    """The 1/8 bend that is on no sheet."""
    made = _Maker(truth, np.full(truth.count, "1/8 bend", object))
    kind = truth.tables.bends["1/8 bend"]
    radius = kind.radius(truth.tables.materials[wall.material.likeliest], wall.nominal.value)
    angle = truth.number("hidden angle", kind.angle)
    made.put(np.ones(truth.count, bool), "bend", angle, truth.number("hidden radius", radius))
    return made.done()


def _bend(passage: Passage, called: Names, truth: Truth) -> Fitting:
    piece, tables = passage.piece, truth.tables
    made = _Maker(truth, called)
    material = tables.materials[piece.wall.material.likeliest]
    for name in set(called):
        kind, here = tables.bends[name], called == name
        angle = truth.number(f"angle of {piece.id}", piece.angle or kind.angle)
        radius = truth.number(f"radius of {piece.id}", kind.radius(material, piece.wall.nominal.value))
        made.put(here, "bend", angle, radius)
        made.square[here] = kind.shape == "square"
    return made.done()


def _entry(passage: Passage, truth: Truth) -> Fitting:
    step, piece = passage.step, passage.piece
    assert step is not None
    made = _Maker(truth, np.full(truth.count, step.kind, object), Lie.STACK)
    if step.shape == "open":
        return made.done()
    key = f"step {passage.step_number} of {piece.id}"
    angle = truth.number(f"angle, {key}", step.angle)
    radius = truth.number(f"radius, {key}", step.radius_bores) * piece.wall.nominal.value
    square = step.shape == "square"
    made.put(np.ones(truth.count, bool), "merge" if square else "bend", angle, radius)
    if square:  # a tee entered level and left downward
        made.kind[:] = JunctionKind.STRAIGHT_TEE
    return made.done()


def _junction(passage: Passage, called: Names, truth: Truth) -> Fitting:
    piece, tables = passage.piece, truth.tables
    lie = Lie(piece.lie) if piece.lie in tuple(Lie) else Lie.FLAT
    made = _Maker(truth, called, lie)
    if "branch" not in (passage.enters, passage.leaves):
        made.way[:] = "fork" if (passage.enters, passage.leaves) == ("down", "up") else "none"
        return made.done()
    out = passage.enters == "branch"
    main_port = passage.leaves if out else passage.enters
    with_sweep = main_port == ("up" if piece.upside_down else "down")
    if out and piece.vertical and main_port == "up":
        # Up a stack its weight is no help; against the sweep it falls back.
        made.lie = Lie.FLAT if with_sweep else Lie.DROP
    branch = passage.wall_in if out else passage.wall_out
    for name in set(called):
        kind, here = tables.junctions[name], called == name
        angle = truth.number(f"angle of {piece.id}", kind.branch_angle)
        radius = truth.number(f"throat of {piece.id}", kind.throat_radius(branch.nominal.value))
        if not out and with_sweep:
            made.put(here, "leg", angle, radius)
        elif not out or (not with_sweep and kind.shape in _ONE_WAY):
            made.put(here, "hairpin", np.pi - angle, 0 * radius)
        else:
            made.put(here, "merge", angle, radius)  # against the sweep only tees are left: alike both ways
            made.kind[here] = _kinds(kind, with_sweep, piece.id, truth)[here]
    standing = made.lie is Lie.STACK
    made.square = np.array([k is JunctionKind.STRAIGHT_TEE and not standing for k in made.kind])
    return made.done()


def _kinds(kind: TableJunction, with_sweep: bool, piece_id: str, truth: Truth) -> Names:
    found = np.full(truth.count, None, object)
    if not with_sweep:
        found[:] = JunctionKind.STRAIGHT_TEE
    elif kind.shape != "combination":
        found[:] = _OUT_OF[kind.shape]
    elif kind.leg is None:
        found[:] = JunctionKind.LONG_LEG
    else:
        found[:] = [_LEG[leg] for leg in truth.name(f"leg of {piece_id}", kind.leg)]
    return found
