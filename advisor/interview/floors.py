"""On which floor something is that joins a stack at its top.

The drawing has it beside what joins below, by a drop that is no storey: a valve stands right above the
highest pipe that joins its stack. What joins between the two may as well be upstairs: then the valve stands
above that, and a storey lies between the two.
"""

from __future__ import annotations

from typing import Any

from advisor.evidence import Grade
from advisor.interview.lines import ASSUMED, Branch
from advisor.interview.subject import Subject
from advisor.quantity import Dimension, parse_stated
from advisor.site.network import Network


def joins_below(run: Subject, branch: Branch, network: Network) -> str:
    """What joins a stack below its top pipe, by name, where that pipe is surely less than a storey and nobody
    has measured it; empty elsewhere: only of such a place it is asked on which floor it is."""
    if run.about != "run" or run.kind != "drop" or not branch.higher_up or len(run.beside) != 2:
        return ""
    above, below = (network.pieces[each] for each in run.beside)
    lengths = [piece.length for piece in run.pieces]
    if above.kind not in ("opening", "cap") or below.kind != "junction":
        return ""
    most = 0.0
    for length in lengths:
        if length is None or length.evidence.grade is Grade.TOLD:
            return ""
        most += length.high
    storey = parse_stated(storey_of(branch).removeprefix(ASSUMED), Dimension.LENGTH)
    return (below.branch or below.name) if most < storey.low else ""


def storey_of(branch: Branch) -> str:
    """How far it is usually from a floor higher up to the next, as the branch's own stack falls."""
    stack = branch.higher_up[0].pieces
    joins = next(index for index, piece in enumerate(stack) if "joined by" in piece)
    return stack[joins + 1]["drop"]


def join_above(pieces: list[Any], place: int, branch: Branch) -> None:
    """The branch on that pipe of a stack, a floor higher than what joins below.

    The top of the stack stands as far above it as it did above that.
    """
    pipe = pieces[place]
    joining = {"joined by": branch.line, "fitting": "unknown"}
    pieces[place : place + 1] = [{"drop": pipe["drop"]}, joining, {**pipe, "drop": storey_of(branch)}]
