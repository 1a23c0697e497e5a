"""What the sheet says already, so that nobody is asked for it again."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from advisor.interview.question import Question
from advisor.interview.sheets import Drain
from advisor.interview.subject import JOB, Subject
from advisor.strict_yaml import plain


def still_open(question: Question, subject: Subject, drain: Drain) -> bool:
    """True where the sheet does not say it yet, and it is of use."""
    if subject.idle:
        return False
    if subject.wall is not None:
        if question.settles == "the size":
            return subject.wall.nominal.evidence.grade.weak
        chances = getattr(subject.wall, question.settles.removeprefix("drawn "))
        return len(chances.options) > 1 or bool(chances.evidence.grade.weak)
    if subject is not JOB:
        return True
    if drain.drawn.get(question.settles) is True:
        return False
    tree = plain(drain.sheet.tree)
    return not any(entry(tree, place) not in UNTOLD for place in question.places)


# Entries that say nothing: what is to be seen, too, is worked out where nobody names it.
UNTOLD: tuple[object, ...] = (None, "unknown", "?", [], "suspect section")


def entry(tree: Mapping[str, Any], place: str) -> Any:
    """What stands at a place of a plain sheet; None where there is no such place."""
    node: Any = tree
    for step in place.split("/"):
        if isinstance(node, list):  # several, where one could be asked for
            return node
        if not isinstance(node, dict) or step not in node:
            return None
        node = node[step]
    return node
