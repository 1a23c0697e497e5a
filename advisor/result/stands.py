"""Where an opening is, as it was told: by the wall or other landmark that its line passes next to it."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.evidence import Grade
from advisor.quantity import Dimension, show
from advisor.result.study import Study
from advisor.site.network import Piece, likely

_OUTDOORS = ("yard", "pit")  # where a cap is looked for
_LONG = ("pipe", "belly")
_STRAIGHT = (*_LONG, "mark", "junction", "opening", "reducer")  # no tape follows a bend or a drop


def stands_at(opening: Piece, study: Study) -> str:
    """The kind of place; outdoors with how far it is from the nearest landmark, where that was told."""
    hole = opening.hole
    assert hole is not None
    place = study.tables.openings[hole.kind].place
    if place not in _OUTDOORS:
        return place
    if opening.landmark:
        return f"{place}, at {opening.landmark}"
    ids = study.network.lines[opening.line]
    at = ids.index(opening.id)
    sides = ([study.network.pieces[each] for each in side] for side in (ids[:at][::-1], ids[at + 1 :]))
    found = [each for each in map(_landmark, sides) if each is not None]
    if not found:
        return place
    away, name = min(found)
    return f"{place}, {show(away, Dimension.LENGTH, study.units)} from {name}"


def _landmark(pieces: Sequence[Piece]) -> tuple[float, str] | None:
    """How far the nearest is, m, and its name; nothing behind a length that nobody told."""
    away = 0.0
    for piece in pieces:
        if piece.landmark:
            return away, piece.landmark
        told = piece.length is not None and piece.length.evidence.grade is Grade.TOLD
        if piece.kind not in _STRAIGHT or (piece.kind in _LONG and not told):
            return None
        away += likely(piece.length) if piece.kind in _LONG else 0.0
    return None
