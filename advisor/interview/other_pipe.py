"""What is told next once other pipe was put on the drawing: how far to it, and what pipe it is.

A length past it that was told before still holds: what lies beyond it gets what is left of that length.
"""

from __future__ import annotations

from dataclasses import dataclass

from advisor.interview.answers import Answer
from advisor.interview.dialogue import Session
from advisor.interview.sheets import Answers
from advisor.interview.stretch import unit_of
from advisor.interview.total import answers_to
from advisor.site.network import Network, Piece

_LENGTH, _MATERIAL = "run", "pipe-material"
Key = tuple[str, str]  # a question, and what it is about


@dataclass(frozen=True)
class Begun:
    """Other pipe as it was just drawn: what asks for the length to it, its material, the length past it."""

    to_it: Key
    material: Key
    past_it: Key


def begun(session: Session, answers: Answers, question: str) -> Begun | None:
    """What is to be told of other pipe that the answer to this question has just drawn, if it drew any."""
    drain = session.sheets.drain(answers)
    branch = session.known.questions.by_id[question].branch
    if drain is None or drain.region not in branch:
        return None
    name, network = branch[drain.region].other_pipe, drain.network
    mark = next((p for p in network.pieces.values() if p.kind == "mark" and name and p.name == name), None)
    if mark is None:
        return None
    ids = network.lines[mark.line]
    wall = next(p.wall for k in ids[ids.index(mark.id) :] if (p := network.pieces[k]).kind == "pipe")
    beside = {run.beside: run.id for run in drain.subjects if run.about == "run" and mark.id in run.beside}
    to_it = next(run for ends, run in beside.items() if ends[-1] == mark.id)
    past_it = next(run for ends, run in beside.items() if ends[0] == mark.id)
    return Begun((_LENGTH, to_it), (_MATERIAL, f"wall {wall.id}"), (_LENGTH, past_it))


def left_of(session: Session, before: Answers, answers: Answers, drawn: Begun) -> tuple[Answer, ...]:
    """What is left past it of a length that was told `before`; nothing where none was told of the whole."""
    upper, lower = (session.again(answers, *key) for key in (drawn.to_it, drawn.past_it))
    was, now = session.sheets.drain(before), session.sheets.drain(answers)
    if upper is None or lower is None or was is None or now is None:
        return ()
    ends = (upper.subject.beside[0], lower.subject.beside[-1])
    whole = _between(was.network, upper.subject.line, *ends)
    to_it = _between(now.network, upper.subject.line, ends[0], upper.subject.beside[-1])
    open_ = {piece.id for run in was.subjects if run.about == "run" for piece in run.pieces}
    told = [a for a in before if a.question == _LENGTH and a.known and a.about in [p.id for p in whole]]
    if not told or open_ & {piece.id for piece in whole}:
        return ()
    unit, metres = unit_of(told[0].values[0])
    left = round(sum(p.along for p in whole) / metres - sum(p.along for p in to_it) / metres, 1)
    return answers_to(lower, (f"about {left:g} {unit}",)) if left > 0 else ()


def _between(network: Network, line: str, upper: str, lower: str) -> list[Piece]:
    ids = network.lines[line]
    if upper not in ids or lower not in ids:
        return []
    return [network.pieces[key] for key in ids[ids.index(upper) + 1 : ids.index(lower)]]
