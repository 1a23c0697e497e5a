"""A branch that the drawing lacks, put on it: another toilet, another kitchen, where somebody says it joins;
or a trap with its plugs that somebody has seen in the drain itself.

Everything of it is assumed, from the question's own file. The pipe that it joins is parted in the middle, so
that the whole stays as long as it was; where nobody knows the place, it is the lowest one inside: every way
down the drain then meets that junction.
"""

from __future__ import annotations

from collections.abc import Sequence
from copy import deepcopy
from typing import Any

from advisor.interview.answers import Answer
from advisor.interview.question import Branch, Question
from advisor.interview.stretch import unit_of
from advisor.interview.subject import Subject, at, lies
from advisor.quantity import Dimension, parse_stated
from advisor.site.names import fixture_kind
from advisor.site.network import Network, Piece
from advisor.site.pieces import FixtureEntry
from advisor.tables.load import Tables

NO_OTHER = "no other"
SOMEWHERE = "yes, somewhere"
_ASSUMED = "assumed "


def drawn_like(question: Question, network: Network, tables: Tables) -> list[str]:
    """The names of what is drawn already of the kind that is asked for."""
    return [piece.name for piece in network.pieces.values() if _kind(piece, tables) in question.like]


def _kind(piece: Piece, tables: Tables) -> str:
    if piece.kind not in ("opening", "cap"):
        return ""
    if isinstance(piece.entry, FixtureEntry):
        return fixture_kind(piece.entry, tables)
    return piece.hole.kind if piece.hole is not None else ""


def where_it_may_join(branch: Branch, subjects: Sequence[Subject], network: Network) -> list[Subject]:
    """The runs of pipe that are no smaller than the branch: none joins a smaller pipe. What stands in the
    drain itself stands where it lies and leaves the building."""
    size = parse_stated(branch.size.removeprefix(_ASSUMED), Dimension.LENGTH).likely
    leaving = _leaving(network)
    return [
        each
        for each in subjects
        if each.about == "run" and each.kind in ("pipe", "drop") and each.piece is not None
        if each.piece.wall.nominal.value >= size
        if branch.line or (each.line in leaving and lies(each))
    ]


def _leaving(network: Network) -> set[str]:
    """The lines that leave the building."""
    return {name for name, ids in network.lines.items() if network.pieces[ids[-1]].kind == "end"}


def with_branch(
    tree: dict[str, Any], answer: Answer, branch: Branch, subjects: Sequence[Subject], network: Network
) -> dict[str, Any]:
    """A copy of the plain sheet tree with the branch where the answer says, if it has a place there."""
    found = deepcopy(tree)
    places = where_it_may_join(branch, subjects, network)
    if not answer.known or answer.values[0] == NO_OTHER or not places:
        return found
    told = next((each for each in places if each.id == answer.values[0]), None)
    path = _longest(told or _lowest_inside(places, network)).path
    _part(at(found, path[:-1]), int(path[-1]), branch)
    if branch.line:
        found["lines"].append(branch.line_entry())
    return found


def _lowest_inside(places: Sequence[Subject], network: Network) -> Subject:
    """The lowest lying run of the drain that leaves the building, before its pipe changes to the sewer."""
    leaving = _leaving(network)
    inside = [
        each
        for each in places
        if each.line in leaving and each.piece is not None and not each.piece.vertical
        if each.piece.wall.id == each.line
    ]
    return (inside or list(places))[-1]


def _longest(run: Subject) -> Subject:
    return max((run, *run.rest), key=lambda each: 0.0 if each.piece is None else each.piece.along)


def _part(pieces: list[Any], place: int, branch: Branch) -> None:
    """Part a pipe evenly where the branch joins it or lies; what is told of its lower end stays there."""
    pipe = pieces[place]
    kind = next(key for key in ("pipe", "drop") if key in pipe)
    half = _half(pipe[kind])
    joining = [{"joined by": branch.line, "fitting": "unknown"}] if branch.line else map(dict, branch.pieces)
    pieces[place : place + 1] = [{kind: half}, *joining, {**pipe, kind: half}]


def _half(length: str) -> str:
    """Half of a length, assumed."""
    text = length.removeprefix(_ASSUMED)
    whole, (unit, metres) = parse_stated(text, Dimension.LENGTH), unit_of(text)
    low, high = (f"{end / 2 / metres:.2f} {unit}" for end in (whole.low, whole.high))
    return _ASSUMED + (low if low == high else f"{low} to {high}")
