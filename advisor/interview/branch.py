"""A branch that the drawing lacks, put on it: another toilet, another kitchen, where somebody says it joins;
or a trap with its plugs that somebody has seen in the drain itself; or where other pipe begins.

Everything of it is assumed, from the question's own file. It joins in a chamber, by a branch of its channel,
or pipe, which is parted in the middle, so that the whole stays as long as it was; where nobody knows the
place, it is the lowest pipe inside: every way down the drain then meets that junction.
"""

from __future__ import annotations

from collections.abc import Sequence
from copy import deepcopy
from typing import Any

from advisor.evidence import Grade
from advisor.interview.answers import Answer
from advisor.interview.branch_size import across, as_joined
from advisor.interview.floors import join_above
from advisor.interview.lines import ASSUMED, Branch, Line
from advisor.interview.question import Question
from advisor.interview.stretch import unit_of
from advisor.interview.subject import Subject, at, lies
from advisor.quantity import Dimension, parse_stated
from advisor.site.names import fixture_kind
from advisor.site.network import Network, Piece
from advisor.site.pieces import FixtureEntry
from advisor.tables.load import Tables

NO_OTHER = "no other"
SOMEWHERE = "yes, somewhere"
HIGHER_UP = ", higher up"  # behind the place where it joins: it comes down a stack of its own


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
    """The chambers and runs of pipe that are no smaller than the branch, as none joins a smaller pipe, or
    stacks of which nobody has seen the size. What stands in the drain itself stands in pipe, where that lies
    and leaves the building."""
    size = across(branch)
    leaving = _leaving(network)
    found = [
        each
        for each in subjects
        if each.about == "chamber" or (each.about == "run" and each.kind in ("pipe", "drop"))
        if each.piece is not None
        if each.piece.wall.nominal.value >= size or _may_be_wider(each.piece, network, size)
        if branch.line or (each.line in leaving and lies(each))
    ]
    # Most pipe changes outdoors, below where the drawing has it: those places first.
    outdoors = [each for each in found if each.piece is not None and each.piece.wall.id != each.line]
    return sorted(found, key=lambda each: each not in outdoors) if branch.other_pipe else found


def _may_be_wider(piece: Piece, network: Network, size: float) -> bool:
    """A stack that is only assumed to be smaller, of one size from the roof down, and nothing below is."""
    ids = network.lines[piece.line]
    top, below = network.pieces[ids[0]], (network.pieces[key] for key in network.downstream(piece.id))
    stack = piece.vertical and top.hole is not None and top.hole.kind == "roof vent"
    whole = all(network.pieces[key].wall.id == piece.line for key in ids)
    unseen = piece.wall.nominal.evidence.grade is not Grade.TOLD
    wide = all(each.line == piece.line or each.wall.nominal.value >= size for each in below)
    return stack and whole and unseen and wide


def _leaving(network: Network) -> set[str]:
    """The lines that leave the building."""
    return {name for name, ids in network.lines.items() if network.pieces[ids[-1]].kind == "end"}


def with_branch(
    tree: dict[str, Any],
    answer: Answer,
    branch: Branch,
    subjects: Sequence[Subject],
    network: Network,
    tables: Tables,
) -> dict[str, Any]:
    """A copy of the plain sheet tree with the branch where the answer says, if it has a place there."""
    found = deepcopy(tree)
    places = where_it_may_join(branch, subjects, network)
    if not answer.known or answer.values[0] == NO_OTHER or not places:
        return found
    place = answer.values[0].removesuffix(HIGHER_UP)
    told = next((each for each in places if each.id == place), None)
    run = _longest(told or _lowest_inside(places, network))
    branch = as_joined(branch, run, network, tables)
    above = place != answer.values[0]
    on_stack = above and run.kind == "drop"  # it comes down the stack that it joins, not one of its own
    lines: tuple[Line, ...] = branch.higher_up if above and not on_stack else (branch,)
    pieces, number = at(found, run.path[:-1]), int(run.path[-1])
    if branch.other_pipe:
        _other_pipe(pieces, number, branch.other_pipe)
    elif on_stack:
        join_above(pieces, number, branch)
    elif run.about == "chamber":
        pieces.insert(number + 1, {"joined by": lines[0].line, "fitting": "assumed chamber branch"})
    else:
        _part(pieces, number, lines[0])
    if branch.line:
        found["lines"] += [line.entry() for line in lines]
    if run.piece is not None and run.piece.wall.nominal.value < across(branch):
        at(found, run.path[:2])["size"] = branch.size
    return found


def _lowest_inside(places: Sequence[Subject], network: Network) -> Subject:
    """The lowest lying run of the drain that leaves the building, before its pipe changes to the sewer."""
    leaving = _leaving(network)
    inside = [
        each
        for each in places
        if each.line in leaving and each.piece is not None and lies(each)
        if each.piece.wall.id == each.line
    ]
    return (inside or list(places))[-1]


def _longest(run: Subject) -> Subject:
    return max((run, *run.rest), key=lambda each: 0.0 if each.piece is None else each.piece.along)


def _part(pieces: list[Any], place: int, branch: Line) -> None:
    """Part a pipe evenly where the branch joins it or lies; what is told of its lower end stays there."""
    pipe = pieces[place]
    kind = next(key for key in ("pipe", "drop") if key in pipe)
    half = _half(pipe[kind])
    joining = [{"joined by": branch.line, "fitting": "unknown"}] if branch.line else map(dict, branch.pieces)
    pieces[place : place + 1] = [{kind: half}, *joining, {**pipe, kind: half}]


def _other_pipe(pieces: list[Any], place: int, mark: str) -> None:
    """Part a pipe where other pipe begins: what was drawn to begin at its upper end begins here instead.

    A typical house changes its pipe at the wall, because nobody has seen how far the iron runs out.
    """
    pipe = pieces[place]
    half = _half(pipe["pipe"])
    above = pieces[place - 1] if place else {}
    drawn = above if set(above) == {"change"} else None
    begins = drawn or {"change": {"material": "unknown"}}
    first = place if drawn is None else place - 1
    pieces[first : place + 1] = [{"pipe": half, "landmark": mark}, begins, {**pipe, "pipe": half}]


def _half(length: str) -> str:
    """Half of a length, assumed; of one that nobody knows both halves are as little known."""
    if length in ("unknown", "?"):
        return length
    text = length.removeprefix(ASSUMED)
    whole, (unit, metres) = parse_stated(text, Dimension.LENGTH), unit_of(text)
    low, high = (f"{end / 2 / metres:.2f} {unit}" for end in (whole.low, whole.high))
    return ASSUMED + (low if low == high else f"{low} to {high}")
