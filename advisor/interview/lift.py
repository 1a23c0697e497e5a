"""Answers taken off a sheet again that was edited by hand, so that each of them can still be changed.

What an answer put on the sheet is found as what the sheet would lack without it. Where the hand left just
that alone, the entry goes back to what it was before the answer, and the answer stands on top again: together
they say what the edited sheet says, to the letter, or nothing is taken off.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from copy import deepcopy
from dataclasses import replace
from difflib import SequenceMatcher
from typing import Any

from advisor.errors import BadInput
from advisor.interview.answers import NONE, Answer
from advisor.interview.dialogue import Session
from advisor.interview.sheets import Answers
from advisor.interview.store import values_of
from advisor.interview.subject import Path
from advisor.strict_yaml import plain, written

_NOTHING = object()  # what stands where there is no entry


def lifted(answers: Answers, before: Session, session: Session) -> tuple[Session, Answers]:
    """The session that goes on from the edited sheet less what these answers of the one `before` put on it,
    and those answers that were taken off; the session itself where there are none."""
    # What chose the building or drew a branch is the drawing, which is the hand's now.
    drew = {each.id for each in session.known.questions.all if each.block == "start" or each.branch}
    wanted = tuple(a for a in answers if a.question not in drew and a.values != (NONE,))
    while wanted:
        of, taken = _without(wanted, answers, before, session)
        stay = tuple(answer for answer in taken if _can_change(answer, taken, of))
        if stay == taken:
            whole = bool(taken) and _tree(of, taken) == _tree(session, ())
            return (of, taken) if whole else (session, ())
        wanted = stay
    return session, ()


def _without(wanted: Answers, answers: Answers, before: Session, session: Session) -> tuple[Session, Answers]:
    made, edited = _tree(before, answers), deepcopy(_tree(session, ()))
    had, moved = _leaves(made), _moved(made, edited)
    taken = []
    for answer in wanted:
        try:
            less = _leaves(_tree(before, tuple(a for a in answers if a != answer)))
        except BadInput:  # another answer hangs on it
            continue
        told = {
            path: (had.get(path, _NOTHING), less.get(path, _NOTHING))
            for path in {**had, **less}
            if had.get(path, _NOTHING) != less.get(path, _NOTHING)
        }
        places = [_place(path, moved) for path in told]
        if told and all(
            place is not None and _at(edited, place) == now
            for place, (now, _) in zip(places, told.values(), strict=True)
        ):
            for place, (_, was) in zip(places, told.values(), strict=True):
                assert place is not None
                _put(edited, place, was)
            taken.append(answer)
    return Session(replace(session.known, sheet=written(edited))), tuple(taken)


def _can_change(answer: Answer, answers: Answers, of: Session) -> bool:
    try:
        ask = of.ask(answers, answer.question, answer.about)
    except BadInput:
        return False
    return ask is not None and values_of(ask, answer.values)[1] is None


def _tree(session: Session, answers: Answers) -> dict[str, Any]:
    drain = session.sheets.drain(answers)
    return plain(drain.sheet.tree) if drain is not None else {}


def _leaves(node: Any, path: Path = ()) -> dict[Path, Any]:
    """Every entry by its path; a list of words is one entry."""
    steps = _steps(node)
    if steps is None:
        return {path: node}
    return {place: leaf for step, each in steps for place, leaf in _leaves(each, (*path, step)).items()}


def _steps(node: Any) -> list[tuple[str | int, Any]] | None:
    if isinstance(node, dict):
        return list(node.items())
    if isinstance(node, list) and any(isinstance(each, dict) for each in node):
        return list(enumerate(node))
    return None


def _moved(made: dict[str, Any], edited: dict[str, Any]) -> dict[tuple[int, int | None], tuple[int, int]]:
    """Where each line (by its name) and each piece of it stands on the edited sheet, by where it was made."""
    found: dict[tuple[int, int | None], tuple[int, int]] = {}
    now = {line["line"]: number for number, line in enumerate(edited.get("lines", ()))}
    for number, line in enumerate(made.get("lines", ())):
        there = now.get(line["line"])
        if there is None:
            continue
        found[number, None] = (there, 0)
        was, is_now = (
            [json.dumps(piece, sort_keys=True) for piece in each["pieces"]]
            for each in (line, edited["lines"][there])
        )
        for kind, i, end, j, last in SequenceMatcher(None, was, is_now, autojunk=False).get_opcodes():
            if kind == "equal" or (kind == "replace" and end - i == last - j):
                found |= {(number, i + k): (there, j + k) for k in range(end - i)}
    return found


def _place(path: Path, moved: Mapping[tuple[int, int | None], tuple[int, int]]) -> Path | None:
    if path[0] != "lines":
        return path
    line, piece = path[1], path[3] if path[2] == "pieces" else None
    there = moved.get((line, piece))  # type: ignore[arg-type]
    if there is None:
        return None
    rest = path[2:] if piece is None else ("pieces", there[1], *path[4:])
    return ("lines", there[0], *rest)


def _at(node: Any, path: Path) -> Any:
    for step in path:
        try:
            node = node[step]
        except (KeyError, IndexError, TypeError):
            return _NOTHING
    return node


def _put(tree: dict[str, Any], path: Path, value: Any) -> None:
    """Set an entry, or take it away, and what is empty without it."""
    if value is not _NOTHING:
        node: Any = tree
        for step in path[:-1]:
            node = node.setdefault(step, {}) if isinstance(node, dict) else node[step]
        node[path[-1]] = value
        return
    while path:
        node = _at(tree, path[:-1])
        del node[path[-1]]
        path = path[:-1]
        if node or not path or isinstance(path[-1], int):
            return
