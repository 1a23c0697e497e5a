"""Answers, and the sheet that follows from a set of them, in whatever order they were given."""

from __future__ import annotations

from collections.abc import Sequence
from copy import deepcopy
from dataclasses import dataclass
from typing import Any

from advisor.interview.question import DONT_KNOW, Question, Questions
from advisor.interview.stretch import portions
from advisor.interview.subject import Path, Subject, at

NONE = "none of these"
TROUBLED = ("backs up", "slow", "fine", "tested with volume")  # whoever is in the first is in no later one


@dataclass(frozen=True)
class Answer:
    """What was answered to one question about one subject: values of its options, or what was typed."""

    question: str
    about: str
    values: tuple[str, ...]

    @property
    def known(self) -> bool:
        """False where nobody knew."""
        return self.values != (DONT_KNOW,)


def with_answers(
    tree: dict[str, Any],
    answers: Sequence[Answer],
    questions: Questions,
    paths: dict[str, Path],
    stretches: dict[str, Subject],
    region: str,
) -> dict[str, Any]:
    """A copy of the plain sheet tree with the answers put in; `stretches` are lengths of several pieces.

    The same set gives the same tree: they go in by the order of the questions, then of the subjects.
    """
    found = deepcopy(tree)
    order = {each.id: number for number, each in enumerate(questions.all)}
    for answer in sorted(answers, key=lambda a: (order[a.question], a.about)):
        if answer.about in paths:
            question, path = questions.by_id[answer.question], paths[answer.about]
            put_in(found, answer, question, path, paths, stretches.get(answer.about), region)
    seen = ((key.rpartition("/opening:")[2], at(found, path)) for key, path in paths.items())
    _untangle(found, {name for name, node in seen if name and node.get("water") == "standing"})
    _run_from(found, paths)
    return found


def put_in(
    tree: dict[str, Any],
    answer: Answer,
    question: Question,
    path: Path,
    paths: dict[str, Path],
    stretch: Subject | None,
    region: str,
) -> None:
    """Put one answer into the tree. Don't-know leaves what stands, but for the careful branch of a hazard."""
    node = at(tree, path)
    if not answer.known:
        for key, value in (question.careful.set if question.careful else {}).items():
            _set(node, key, value)
        return
    if question.asked:
        _add(node, "task/history/asked", question.asked)
    known = {choice.value: choice for choice in question.offered(region)}
    for word in answer.values:
        if word == NONE:
            continue
        if word in known:
            for key, value in known[word].set.items():
                _set(node, key, value)
            for key, value in known[word].add.items():
                _add(node, key, value)
            _end_in(tree, known[word].ends_in)
        elif question.choose_from == "openings" and question.into is None:
            for seen in _found(tree, paths, word):
                _set(seen, "water", "standing")
        elif question.adds_to:
            for key in question.adds_to:
                _add(node, key, word)
            _found(tree, paths, word)
        elif question.into is not None and stretch is not None:
            for each, part in zip((stretch, *stretch.rest), portions(stretch, word), strict=True):
                _set(at(tree, each.path), _place(question.into, at(tree, each.path)), part)
        elif question.into is not None:
            _set(node, _place(question.into, node), word)


def _found(tree: dict[str, Any], paths: dict[str, Path], name: str) -> list[Any]:
    """The openings of that name: what water stands in, or is told of, is there."""
    seen = [at(tree, paths[key]) for key in sorted(paths) if key.rpartition("/opening:")[2] == name]
    for each in seen:
        if "there" in each:
            _set(each, "there", "yes")
    return seen


def _run_from(tree: dict[str, Any], paths: dict[str, Path]) -> None:
    """What a machine was run from was there then: no typical chance stands for it any more. Told not to be
    there it stays so: what does not go together is told with the plan."""
    runs = tree.get("task", {}).get("history", {}).get("machine runs")
    name = runs.get("in at") if isinstance(runs, dict) else None
    ends = f"/opening:{name}"
    if name and all(at(tree, path).get("there") != "no" for key, path in paths.items() if key.endswith(ends)):
        _found(tree, paths, name)


def _place(into: str, node: Any) -> str:
    """The entry that an answer goes into; a run is a pipe, a drop, a belly or a rise."""
    if into != "{kind}":
        return into
    return next(key for key in ("pipe", "drop", "belly", "rise") if key in node)


def _set(node: Any, key: str, value: str) -> None:
    *way, last = key.split("/")
    for step in way:
        node = node.setdefault(step, {})
    node[last] = value


def _add(node: Any, key: str, value: str) -> None:
    *way, last = key.split("/")
    for step in way:
        node = node.setdefault(step, {})
    held = node.setdefault(last, [])
    if value not in held:
        held.append(value)


def _end_in(tree: dict[str, Any], stopper: str | None) -> None:
    """Draw what the drain ends in, where it has one end and no tank yet; typical ones end in a sewer."""
    ends = [line["pieces"] for line in tree["lines"] if "end" in line["pieces"][-1]]
    drawn = any(piece.get("tank") for line in tree["lines"] for piece in line["pieces"])
    if stopper is None or len(ends) != 1 or drawn:
        return
    (pieces,) = ends
    seen = tree.get("task", {}).get("look at", "")  # what is to be seen keeps its name
    if pieces[-1]["end"].endswith("sewer") and pieces[-1]["end"] not in seen:
        pieces[-1] = {**pieces[-1], "end": stopper}


def _untangle(tree: dict[str, Any], standing: set[str]) -> None:
    """What backs up, or where water stands, is not also fine: the graver word holds. From where a machine
    was run says nothing once none was."""
    task = tree.get("task", {})
    complaint, history = task.get("complaint", {}), task.get("history", {})
    if (runs := history.get("machine runs")) and "to" not in runs and isinstance(runs, dict):
        del history["machine runs"]
    worse: set[str] = set()
    for key in TROUBLED:
        if key in complaint:
            good = key in ("fine", "tested with volume")
            kept = [name for name in complaint[key] if name not in (worse | standing if good else worse)]
            complaint[key] = kept
            worse |= set() if good else set(kept)
            if not kept:
                del complaint[key]
