"""Straight on up or down from an opening: what lies there, how far in, and what a lens sees of each."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from advisor.practice.tracked import entry_length
from advisor.push.log.sighting import AHEAD, BEHIND, BORE
from advisor.result.study import Study
from advisor.site.network import Network, Piece
from advisor.worlds.draws import Array

NONE = "none"
COMES = {
    AHEAD: "water comes toward you",
    BEHIND: "water comes past you from behind",
    NONE: "no water comes",
}
RIM = "rim"  # the tracker knows it by its counter reading alone
TRADE = {"tie-in": "a hole in the side", "bend": "a turn", RIM: "a rim", BORE: "a change of size"}
_SIGNS = {"bend": "bend", "joint": RIM, "reducer": BORE}


@dataclass(frozen=True)
class Walk:
    """The pieces along one direction from an opening, each with its near end in m, in each world.

    `signs` is what each shows to a lens that comes this way; nothing where it shows nothing.
    """

    way: str  # up or down
    pieces: tuple[Piece, ...]
    at: tuple[Array, ...]
    signs: tuple[str, ...]

    def where(self, distance: float) -> Piece:
        """The piece that the head is in, by the likely lengths."""
        found = self.pieces[0]
        for piece, at in zip(self.pieces, self.at, strict=True):
            if float(at.mean()) <= distance:
                found = piece
        return found

    @property
    def fittings(self) -> list[int]:
        """The numbers of those pieces that a lens sees something of."""
        return [i for i, sign_ in enumerate(self.signs) if sign_]

    @property
    def length(self) -> float:
        """Likely m to the last fitting."""
        return float(self.at[-1].mean())


def walk(study: Study, opening: str, way: str) -> Walk:
    """Straight on up or down from an opening, along its own line and those it runs into."""
    network, drawn = study.network, study.drawn
    at: Array = np.full(study.worlds, entry_length(study, opening, way), np.float32)
    pieces, ats, signs = [], [], []
    key: str | None = opening
    enters = "hole"
    seen = {opening}
    while key is not None:
        piece = network.pieces[key]
        if key != opening:
            pieces.append(piece)
            ats.append(at)
            signs.append(_shows(piece, enters))
            at = at + drawn.length(piece)
        link = network.links.get((key, way))
        key, enters = link if link and link[0] not in seen else (None, "")
        if key is not None:
            seen.add(key)
    return Walk(way, tuple(pieces), tuple(ats), tuple(signs))


def _shows(piece: Piece, enters: str) -> str:
    """What a lens that comes into a piece there sees of it: out of a branch a junction is a turn."""
    if piece.kind == "junction":
        return "bend" if enters == "branch" else "tie-in"
    return _SIGNS.get(piece.kind, "")


def sign(network: Network, fixture: str, place: str, way: str) -> str:
    """From which side water of a fixture comes to a lens in a piece, having gone `way` from its opening."""
    if place not in network.downstream(fixture):
        return NONE
    return AHEAD if way == "up" else BEHIND
