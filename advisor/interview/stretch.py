"""A length that was paced from one thing that is seen to the next, dealt out to the pieces between them."""

from __future__ import annotations

import re

from advisor.interview.subject import Subject
from advisor.quantity import Dimension, Units, parse_stated
from advisor.site.network import likely

_FOOT = 0.3048  # m, by definition
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
    unit, metres = unit_of(text)
    usual = [likely(piece.length) for piece in subject.pieces]

    def part(end: float, share: float) -> str:
        return f"{(end - subject.told) * share / sum(usual) / metres:.3f} {unit}"

    about = "about " if whole.rough else ""
    ends = [(part(whole.low, share), part(whole.high, share)) for share in usual]
    return tuple(about + (low if low == high else f"{low} to {high}") for low, high in ends)
