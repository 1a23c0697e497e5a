"""A length over several stretches told as one: 45 ft from the wall to the street, past what nobody has found.

It goes from one thing that is sure to be there to the next, past openings that may not be, and is dealt out
to the stretches between as a paced stretch is to its pipes: by their usual lengths. So is a length past a
joining or a trap under the ground, from one thing that is seen to the next, and one past an opening that is
not there: what was told of a stretch up to its place before stays told.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise, takewhile

from advisor.interview.answers import Answer
from advisor.interview.ask import Ask
from advisor.interview.question import DONT_KNOW, Question
from advisor.interview.stretch import shared_out
from advisor.interview.subject import Subject, lies, mark_name
from advisor.quantity import Dimension, parse_stated
from advisor.site.network import Network, Piece, likely

_BURIED = ("junction", "stopper")  # they are there, and nobody sees where


def totals(network: Network, subjects: Sequence[Subject]) -> Iterator[Subject]:
    """Each run of two or more stretches between things that are sure, or that are seen, as one length to
    ask about."""
    for line, ids in network.lines.items():
        runs = [each for each in subjects if each.line == line and lies(each)]
        sure = [index for index, key in enumerate(ids) if _sure(network.pieces[key])]
        seen = [index for index in sure if network.pieces[ids[index]].kind not in _BURIED]
        for upper, lower in dict.fromkeys((*pairwise(sure), *pairwise(seen))):
            between = ids[upper + 1 : lower]
            parts = [run for run in runs if run.id in between]
            if len(parts) > 1:
                yield _as_one(
                    parts, [network.pieces[key] for key in between], network, (ids[upper], ids[lower])
                )


def as_paced(network: Network, subjects: Sequence[Subject]) -> list[Subject]:
    """The same, with lengths up to an opening that is not there, or to a trap that only such an opening would
    show, as one from what is really there to the next: nobody paces from where something was drawn."""
    wholes = {part.id: whole for whole in _past_absent(network, subjects) for part in whole.parts}
    asked = (wholes.get(each.id, each) if each.about == "run" else each for each in subjects)
    return list({(each.about, each.id): each for each in asked}.values())


def around(question: Question, network: Network, subjects: Sequence[Subject]) -> Sequence[Subject]:
    """What the places of a question are told by: other pipe begins in a length as it is paced."""
    paced = any(branch.other_pipe for branch in question.branch.values())
    return as_paced(network, subjects) if paced else subjects


def whole_of(run: Subject, network: Network, subjects: Sequence[Subject]) -> Subject | None:
    """The length from what is really there to the next that a run is part of, where it is part of one."""
    paced = as_paced(network, subjects)
    return next((each for each in paced if run.id in [part.id for part in each.parts]), None)


def _past_absent(network: Network, subjects: Sequence[Subject]) -> Iterator[Subject]:
    for line, ids in network.lines.items():
        pieces = [network.pieces[key] for key in ids]
        ends = [
            index
            for index, piece in enumerate(pieces)
            if mark_name(piece) and not piece.absent and not _hidden(pieces, index)
        ]
        for upper, lower in pairwise(ends):
            between = pieces[upper + 1 : lower]
            within = {piece.id for piece in between}
            runs = [s for s in subjects if s.about == "run" and s.line == line and s.id in within]
            for lying in (True, False):  # what stands is a height
                parts = [s for s in runs if lies(s) == lying and s.kind in ("pipe", "drop")]
                if parts and any(piece.absent for piece in between):
                    yield _as_one(parts, between, network, (ids[upper], ids[lower]))


def _as_one(
    parts: Sequence[Subject], between: Sequence[Piece], network: Network, ends: tuple[str, str]
) -> Subject:
    first, *rest = (replace(each, rest=()) for part in parts for each in (part, *part.rest))
    open_ = {each.id for each in (first, *rest)}
    stands = not lies(first)
    told = sum(
        p.along
        for p in between
        if p.kind in ("pipe", "drop") and (p.vertical or p.kind == "drop") == stands and p.id not in open_
    )
    names = " and ".join(mark_name(network.pieces[key]) or "" for key in ends)
    place = f"between {names}"
    return replace(first, rest=tuple(rest), told=told, beside=ends, place=place, parts=tuple(parts))


def answers_to(ask: Ask, values: tuple[str, ...]) -> tuple[Answer, ...]:
    """What an answer is filed as: of a length over several stretches one of each; raises QuantityError."""
    parts = ask.subject.parts
    if not parts or values == (DONT_KNOW,):
        return tuple(Answer(ask.question.id, each.id, values) for each in parts or (ask.subject,))
    return tuple(
        Answer(ask.question.id, part.id, (length,)) for part, length in dealt(ask.subject, values[0])
    )


def dealt(total: Subject, text: str) -> tuple[tuple[Subject, str], ...]:
    """Each stretch of it with its own length; raises QuantityError."""
    whole = parse_stated(text, Dimension.LENGTH)
    usual = [sum(likely(piece.length) for piece in part.pieces) for part in total.parts]
    told = [part.told for part in total.parts]
    ends = (whole.low - total.told, whole.high - total.told)
    return tuple(zip(total.parts, shared_out(ends, usual, told, text), strict=True))


def _sure(piece: Piece) -> bool:
    doubted = piece.hole is not None and piece.hole.there < 1
    return mark_name(piece) is not None and not doubted and not piece.absent


def _hidden(pieces: Sequence[Piece], index: int) -> bool:
    """A trap or a valve of which nobody finds the place: the openings right at it are not there."""
    if pieces[index].kind != "stopper":
        return False
    above, below = reversed(pieces[:index]), pieces[index + 1 :]
    at_it = [p for way in (above, below) for p in takewhile(lambda each: each.along == 0, way)]
    return any(p.absent for p in at_it) and all(p.absent for p in at_it if p.hole or p.absent)
