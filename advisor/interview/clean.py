"""The sheet that a session writes: plain YAML, with comments that say what nobody has seen."""

from __future__ import annotations

import re
from collections.abc import Sequence

from advisor.interview.answers import Answer
from advisor.interview.question import Question, Questions
from advisor.quantity import Chances
from advisor.site.network import Network

_REMARKS = (
    (re.compile(r":\s+assumed [^'\"#]+$"), "nobody has seen it"),
    (re.compile(r":\s+unknown$"), "nobody knows"),
    (re.compile(r"\bthere:\s+[\d.,]+ ?%$"), "how likely it is there; nobody has looked"),
)
_HEAD = """\
# Made by a question session. `assumed` is our planning value for what nobody has seen: replace it by what
# you see and take the word away, or leave it. `there` says how likely an opening is to be there.
"""


def clean_sheet(text: str, network: Network, answers: Sequence[Answer], questions: Questions) -> str:
    """The sheet's text with its comments; it reads back as it was."""
    head = _HEAD
    asked = (questions.by_id[a.question] for a in answers if not a.known and a.about == "job")
    unknown = [f"{question.text}{_so_taken(question)}" for question in asked]
    if unknown:
        head += "# Asked, and nobody knew:\n" + "".join(f"#   {words}\n" for words in unknown)
    taken = [
        f"{item.about}: {', '.join(f'{name} {share:.0%}' for name, share in _likeliest(item.belief))}"
        for item in network.assumed
        if isinstance(item.belief, Chances) and len(item.belief.options) > 1
        if item.about.startswith(("material", "condition"))
    ]
    if taken:
        head += "# Left out, so taken from region, year and place:\n" + "".join(
            f"#   {_one_line(words)}\n" for words in taken
        )
    return head + "".join(f"{_remarked(line)}\n" for line in text.splitlines())


def _so_taken(question: Question) -> str:
    """What a question of safety has put on the sheet though nobody knew: nobody said so."""
    taken = question.careful.set if question.careful else {}
    told = ", ".join(f"{key}: {value}" for key, value in taken.items())
    return f" Taken, to be safe: {told}" if told else ""


def _likeliest(chances: Chances) -> list[tuple[str, float]]:
    return sorted(chances.options, key=lambda option: -option[1])[:2]


def _remarked(line: str) -> str:
    for pattern, words in _REMARKS:
        if pattern.search(line):
            return f"{line}  # {words}"
    return line


def _one_line(words: str) -> str:
    """Names are other people's text: in a comment they must stay on their line."""
    return " ".join("".join(c if c.isprintable() else " " for c in words).split())
