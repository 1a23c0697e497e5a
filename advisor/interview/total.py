"""A length over several stretches told as one: 45 ft from the wall to the street, past what nobody has found.

It goes from one thing that is sure to be there to the next, past openings that may not be, and is dealt out
to the stretches between as a paced stretch is to its pipes: by their usual lengths.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from advisor.interview.stretch import shared_out
from advisor.interview.subject import Subject, lies, mark_name
from advisor.quantity import Dimension, parse_stated
from advisor.site.network import Network, Piece, likely


def totals(network: Network, subjects: Sequence[Subject]) -> Iterator[Subject]:
    """Each run of two or more stretches between things that are sure, as one length to ask about."""
    for line, ids in network.lines.items():
        runs = [each for each in subjects if each.line == line and lies(each)]
        sure = [index for index, key in enumerate(ids) if _sure(network.pieces[key])]
        for upper, lower in pairwise(sure):
            between = ids[upper + 1 : lower]
            parts = [run for run in runs if run.id in between]
            if len(parts) > 1:
                yield _as_one(
                    parts, [network.pieces[key] for key in between], network, (ids[upper], ids[lower])
                )


def _as_one(
    parts: Sequence[Subject], between: Sequence[Piece], network: Network, ends: tuple[str, str]
) -> Subject:
    first, *rest = (replace(each, rest=()) for part in parts for each in (part, *part.rest))
    open_ = {each.id for each in (first, *rest)}
    told = sum(p.along for p in between if p.kind == "pipe" and not p.vertical and p.id not in open_)
    names = " and ".join(mark_name(network.pieces[key]) or "" for key in ends)
    return replace(first, rest=tuple(rest), told=told, beside=ends, place=f"between {names}")


def dealt(total: Subject, subjects: Sequence[Subject], text: str) -> tuple[tuple[Subject, str], ...]:
    """Each stretch of it with its own length; raises QuantityError."""
    whole = parse_stated(text, Dimension.LENGTH)
    within = {piece.id for piece in total.pieces}
    parts = [each for each in subjects if lies(each) and each.id in within]
    usual = [sum(likely(piece.length) for piece in part.pieces) for part in parts]
    ends = (whole.low - total.told, whole.high - total.told)
    return tuple(zip(parts, shared_out(ends, usual, [part.told for part in parts], text), strict=True))


def _sure(piece: Piece) -> bool:
    doubted = piece.hole is not None and piece.hole.there < 1
    return mark_name(piece) is not None and not doubted and not piece.absent
