"""A length that was paced from one thing that is seen to the next, dealt out to the pieces between them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import accumulate, pairwise

from advisor.interview.subject import Subject
from advisor.quantity import Dimension, Units, parse_stated
from advisor.site.network import likely

_FOOT = 0.3048  # m, by definition
_PLACES = {"ft": 1, "m": 2}  # to which a shared length is told: what a tape is read to, with some to spare
_IN_FEET = re.compile(r"ft|foot|feet|in\b|inch|['\"′″’]", re.IGNORECASE)


def units_of(text: str) -> Units:
    """The units in which a length is told."""
    return Units.INCH if _IN_FEET.search(text) else Units.METRIC


def unit_of(text: str) -> tuple[str, float]:
    """The unit in which a length is told, and its metres."""
    return ("ft", _FOOT) if units_of(text) is Units.INCH else ("m", 1.0)


def portions(subject: Subject, text: str) -> tuple[str, ...]:
    """What a length that was told of a whole stretch comes to for each of its open pieces, as sheet entries.

    What is told of the stretch already is taken off. Where a bend lies in it nobody has said, so each piece
    gets its usual share of the rest. Raises QuantityError.
    """
    if not subject.rest and not subject.told:
        return (text,)
    whole = parse_stated(text, Dimension.LENGTH)
    usual = [likely(piece.length) for piece in subject.pieces]
    ends = (whole.low - subject.told, whole.high - subject.told)
    return shared_out(ends, usual, [0.0] * len(usual), text)


def shared_out(
    ends: tuple[float, float], usual: Sequence[float], besides: Sequence[float], text: str
) -> tuple[str, ...]:
    """A length from `ends[0]` to `ends[1]` m, told as `text`, as sheet entries by the `usual` lengths.

    Each gets what stands `besides` (m) on top. Where one ends and the next begins nobody has said: of several
    each is only about so long, in tenths of a foot or hundredths of a metre that add up to what was told.
    """
    unit, metres = unit_of(text)
    low, high = (
        _rounded(
            [(end * share / sum(usual) + more) / metres for share, more in zip(usual, besides, strict=True)],
            unit,
        )
        for end in ends
    )
    rough = parse_stated(text, Dimension.LENGTH).rough
    return tuple(
        f"{least:g} to {most:g} {unit}"
        if most > least
        else f"{'about ' if rough or len(usual) > 1 else ''}{least:g} {unit}"
        for least, most in zip(low, high, strict=True)
    )


def _rounded(lengths: Sequence[float], unit: str) -> list[float]:
    """Each to the places of its unit, or to more where that leaves nothing of one, with their sum kept."""
    for places in (_PLACES[unit], 3):
        ends = [round(end, places) for end in accumulate(lengths, initial=0.0)]
        found = [round(after - before, places) for before, after in pairwise(ends)]
        if all(found):
            break
    return found
