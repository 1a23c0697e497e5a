"""What the head has to do in a passage: go on, turn, be steered, or stop; over the worlds."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from advisor.mechanics.junction_case import JunctionKind, Lie
from advisor.outcome.drawn import Drawn
from advisor.routes.passage import Passage
from advisor.tables.junctions import JunctionKind as TableJunction
from advisor.worlds.draws import Array

Mask = NDArray[np.bool_]

# How the table's shapes turn a head that comes out of the branch: by the engine's kinds.
_PUSHED_AS = {
    "wye": JunctionKind.WYE,
    "double wye": JunctionKind.WYE,
    "sanitary tee": JunctionKind.SANITARY_TEE,
    "straight tee": JunctionKind.STRAIGHT_TEE,
    "saddle": JunctionKind.STRAIGHT_TEE,
    "cross": JunctionKind.DOUBLE_SANITARY_TEE,
    "double sanitary tee": JunctionKind.DOUBLE_SANITARY_TEE,
    "double fixture": JunctionKind.DOUBLE_SANITARY_TEE,
    "chamber": JunctionKind.LONG_LEG,
    "backdrop": JunctionKind.STRAIGHT_TEE,
}
_LEGS = {
    "short": JunctionKind.SHORT_LEG,
    "long": JunctionKind.LONG_LEG,
    "one-piece": JunctionKind.SWEEP,
}


@dataclass(frozen=True)
class Turn:
    """One passage as a turn.

    `way` is `none`, `bend`, `merge` (branch into the main, with the sweep), `hairpin` (against the
    sweep), `leg` (up the main and into a branch), `fork` (up the main past a branch), `past` or `stop`.
    `merges` says in which worlds the branch enters through which kind of junction.
    """

    way: str
    angle: Array | float = 0.0
    radius: Array | float = 0.0
    merges: dict[JunctionKind, Mask] = field(default_factory=dict)
    lie: Lie = Lie.STACK
    square: Mask | None = None  # bends only: worlds in which the turn has no sweep
    back: Mask | None = None  # merges only: worlds in which it is a wye met against its sweep, a hairpin

    @property
    def bends(self) -> bool:
        """True where head and rod change direction."""
        return self.way in ("bend", "merge", "hairpin", "leg")


def turn_of(passage: Passage, drawn: Drawn) -> Turn:
    """The turn that a passage makes of its piece, ports and possible fittings."""
    if passage.step is not None:
        return _entry_turn(passage, drawn)
    shape = passage.shape
    if shape == "bend":
        return _bend_turn(passage, drawn)
    if shape == "junction":
        return _junction_turn(passage, drawn)
    if shape == "stopper":
        return Turn("stop")
    return Turn("past" if shape == "past" else "none")


def _bend_turn(passage: Passage, drawn: Drawn) -> Turn:
    piece, tables, worlds = passage.piece, drawn.tables, drawn.worlds
    names, choice = drawn.variant(piece)
    kinds = [tables.bends[name] for name in names]
    material = tables.materials[piece.wall.material.likeliest]
    radii = [kind.radius(material, piece.wall.nominal.value) for kind in kinds]
    angle = (
        worlds.value(f"{piece.id}/angle", piece.angle)
        if piece.angle is not None
        else worlds.mixed(f"{piece.id}/angle", choice, [kind.angle for kind in kinds])
    )
    square = np.array([kind.shape == "square" for kind in kinds])[choice]
    return Turn("bend", angle, worlds.mixed(f"{piece.id}/radius", choice, radii), square=square)


def _entry_turn(passage: Passage, drawn: Drawn) -> Turn:
    step, piece, worlds = passage.step, passage.piece, drawn.worlds
    assert step is not None
    if step.shape == "open":
        return Turn("none")
    angle = worlds.value(f"{piece.id}/entry {passage.step_number}/angle", step.angle)
    nominal = np.float32(piece.wall.nominal.value)
    bores = worlds.value(f"{piece.id}/entry {passage.step_number}/radius", step.radius_bores)
    if step.shape == "square":
        # A square turn behind an opening is a tee that the rod enters level and leaves downward.
        everywhere = np.ones(worlds.n, np.bool_)
        return Turn("merge", angle, bores * nominal, {JunctionKind.STRAIGHT_TEE: everywhere}, Lie.STACK)
    return Turn("bend", angle, bores * nominal)


def _junction_turn(passage: Passage, drawn: Drawn) -> Turn:
    piece, tables, worlds = passage.piece, drawn.tables, drawn.worlds
    names, choice = drawn.variant(piece)
    kinds = [tables.junctions[name] for name in names]
    ports = (passage.enters, passage.leaves)
    if not passage.turns_aside:
        return Turn("fork" if ports == ("down", "up") else "past")
    swept_to = "up" if piece.upside_down else "down"
    angle = worlds.mixed(f"{piece.id}/angle", choice, [kind.branch_angle for kind in kinds])
    branch = passage.wall_in if passage.enters == "branch" else passage.wall_out
    throats = [kind.throat_radius(branch.nominal.value) for kind in kinds]
    radius = worlds.mixed(f"{piece.id}/throat", choice, throats)
    lie = Lie(piece.lie) if piece.lie in ("stack", "flat", "drop") else Lie.FLAT
    other = {"up", "down"} & set(ports)
    if passage.enters == "branch":
        swept = swept_to in other
        merges = _merges(piece.id, kinds, choice, drawn, swept)
        if piece.vertical and "up" in other:
            # Up a stack the head's weight does not help it round; against the sweep it falls back.
            lie = Lie.FLAT if swept else Lie.DROP
        # Against the sweep a wye or combination doubles back on itself; a tee is alike both ways. With the
        # sweep every shape merges.
        if not merges:
            return Turn("hairpin", np.float32(np.pi) - angle, radius * 0, {}, lie)
        if not swept:
            doubles = ~_any(merges, worlds.n)
            angle, radius = np.where(doubles, np.float32(np.pi) - angle, angle), np.where(doubles, 0, radius)
            return Turn("merge", angle, radius, merges, lie, back=doubles)
        return Turn("merge", angle, radius, merges, lie)
    # Against the sweep the head doubles back round a sharp edge; a straight tee is alike both ways.
    if swept_to not in other and any(has_sweep(kind.shape) for kind in kinds):
        return Turn("hairpin", np.float32(np.pi) - angle, radius * 0, {}, lie)
    return Turn("leg", angle, radius, {}, lie)


def has_sweep(shape: str) -> bool:
    """Whether a fitting of this shape throws the head one way; a straight tee and its like do not."""
    return _PUSHED_AS.get(shape) is not JunctionKind.STRAIGHT_TEE


def faces(shape: str) -> bool:
    """Whether a fitting of this shape has an arm at either side, so that a head may run straight across."""
    return _PUSHED_AS.get(shape) is JunctionKind.DOUBLE_SANITARY_TEE


def _merges(
    piece_id: str, kinds: list[TableJunction], choice: NDArray[np.intp], drawn: Drawn, swept: bool
) -> dict[JunctionKind, Mask]:
    """In which worlds the head comes out of which kind of branch. Against the sweep only tees count."""
    merges: dict[JunctionKind, Mask] = {}

    def add(kind: JunctionKind, mask: Mask) -> None:
        merges[kind] = merges[kind] | mask if kind in merges else mask

    for index, kind in enumerate(kinds):
        here = choice == index
        if kind.shape == "combination" and kind.leg is not None:
            legs = drawn.worlds.choice(f"{piece_id}/leg", kind.leg)
            for number, (name, _) in enumerate(kind.leg.options):
                if swept:
                    add(_LEGS[name], here & (legs == number))
        elif kind.shape == "combination":
            if swept:
                add(JunctionKind.LONG_LEG, here)
        else:
            pushed_as = _PUSHED_AS[kind.shape]
            square = pushed_as is not JunctionKind.WYE and kind.shape != "chamber"
            if swept:
                add(pushed_as, here)
            elif square:
                add(JunctionKind.STRAIGHT_TEE, here)
    return {kind: mask for kind, mask in merges.items() if mask.any()}


def _any(merges: dict[JunctionKind, Mask], n: int) -> Mask:
    found = np.zeros(n, np.bool_)
    for mask in merges.values():
        found |= mask
    return found
