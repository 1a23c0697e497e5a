"""Where an opening is, as it was told: by the wall or other landmark that its line passes next to it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from advisor.evidence import Grade
from advisor.quantity import Dimension, show
from advisor.result.study import Study
from advisor.site.network import Network, Piece

_OUTDOORS = ("yard", "pit")  # where a cap is looked for
_STRAIGHT = ("pipe", "belly", "mark", "junction", "opening", "reducer")  # no tape follows a bend or a drop


@dataclass(frozen=True)
class Beside:
    """A landmark that a line passes beside an opening: how far `away` along it, m, whether all of that was
    `told` or any of it is `assumed`, and whether a tape can follow it `straight`.
    """

    away: float
    name: str
    told: bool
    assumed: bool
    straight: bool


def stands_at(opening: Piece, study: Study) -> str:
    """The kind of place; outdoors with how far it is from the nearest landmark, where that was told."""
    hole = opening.hole
    assert hole is not None
    kind = study.tables.openings[hole.kind]
    place = kind.place_words
    if kind.place not in _OUTDOORS:
        return place
    if opening.landmark:
        return f"{place}, at {opening.landmark}"
    found = [each for each in landmarks_beside(opening, study.network) if each.told and each.straight]
    if not found:
        return place
    near = min(found, key=lambda each: each.away)
    return f"{place}, {show(near.away, Dimension.LENGTH, study.units)} from {near.name}"


def landmarks_beside(opening: Piece, network: Network) -> Iterator[Beside]:
    """The nearest one up its line, and the nearest one down it."""
    ids = network.lines[opening.line]
    at = ids.index(opening.id)
    for side in (reversed(ids[:at]), ids[at + 1 :]):
        away, between = 0.0, list[Piece]()
        for piece in map(network.pieces.__getitem__, side):
            if piece.landmark and not piece.absent:
                lengths = [each.length for each in between if each.length is not None]
                yield Beside(
                    away,
                    piece.landmark,
                    told=all(each.evidence.grade is Grade.TOLD for each in lengths),
                    assumed=any(each.evidence.grade.weak for each in lengths),
                    straight=all(each.kind in _STRAIGHT for each in between),
                )
                break
            between.append(piece)
            away += piece.along
