"""Where something may join, as it is offered: by what is really there, not by what was told not to be.

The places are those of the drawing as it was before it, so that an answer keeps its place whatever is told
later. An opening that was told later not to be there parts no pipe: nobody can say on which side of it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence, Set
from dataclasses import dataclass, replace
from itertools import takewhile

from advisor.interview.answers import Answer
from advisor.interview.branch import HIGHER_UP, NO_OTHER, SOMEWHERE, where_it_may_join
from advisor.interview.floors import joins_below
from advisor.interview.lines import Branch
from advisor.interview.question import Question
from advisor.interview.subject import Subject, between, lies
from advisor.site.network import Network


@dataclass(frozen=True)
class Option:
    """An answer to choose: its words, and the word that the sheet has for it; its number, where it keeps one
    whatever else is offered. `higher_up` is the same from a floor higher up, which is asked then, beside what
    joins `below` where it joins a stack; `also` are the words of the sheet for places that are told by these
    words too."""

    words: str
    value: str
    number: int | None = None
    higher_up: Option | None = None
    also: tuple[str, ...] = ()
    below: str = ""


def told_gone(answers: Iterable[Answer]) -> frozenset[str]:
    """The ids of the openings that were told not to be there."""
    return frozenset(a.about for a in answers if a.question == "opening-there" and a.values == ("no",))


def drawn_before(
    question: Question, questions: Sequence[Question], answers: Sequence[Answer]
) -> tuple[Answer, ...]:
    """The answers of which the drawing is made that a question puts something on, of told length or not."""
    earlier = {each.id for each in takewhile(lambda q: q is not question, questions) if each.about != "run"}
    return tuple(answer for answer in answers if answer.question in earlier)


def joinings(
    branch: Branch, around: Sequence[Subject], network: Network, gone: Set[str]
) -> tuple[Option, ...]:
    """The places that are offered, with that there is none and that nobody knows where."""
    places = _past_gone(where_it_may_join(branch, around, network), network, gone)
    joins, where = ("it joins", "where it joins") if branch.line else ("in", "where")
    words = _told_apart([(f"yes, {joins} the {each.line}, {each.place}", each) for each, _ in places])

    def joining(text: str, value: str, lying: bool, also: tuple[str, ...] = (), below: str = "") -> Option:
        above = tuple(each + HIGHER_UP for each in also)
        on_it = (
            f"a floor higher up than {below}" if below else "from a floor higher up, down a stack of its own"
        )
        asked = branch.higher_up and (lying or below)
        up = Option(f"{text}; {on_it}", value + HIGHER_UP, also=above) if asked else None
        return Option(text, value, higher_up=up, also=also, below=below)

    told = tuple(
        joining(text, each.id, _beside(each), also, joins_below(each, branch, network))
        for text, (each, also) in zip(words, places, strict=True)
    )
    unknown = () if branch.other_pipe else (joining(f"yes, but nobody knows {where}", SOMEWHERE, True),)
    return (Option("no, there is none", NO_OTHER), *unknown, *told) if places else ()


def _beside(place: Subject) -> bool:
    """Whether what joins there may come down a stack of its own: where the pipe lies, or in a chamber."""
    return lies(place) or place.about == "chamber"


def _past_gone(
    places: Sequence[Subject], network: Network, gone: Set[str]
) -> list[tuple[Subject, tuple[str, ...]]]:
    """The same, with pipe up to what is gone and on from it as one: the longest, with ids of the others."""
    found: list[tuple[Subject, tuple[str, ...]]] = []
    for each in places:
        if each.about == "chamber" and each.id in gone:
            continue
        last, also = found[-1] if found else (each, ())
        if not (_parted(last, each, gone) and lies(last) == lies(each)):
            found.append((each, ()))
            continue
        ends = (last.beside[0], each.beside[1])
        longer, other = sorted((last, each), key=_along, reverse=True)
        place = between((network.pieces[ends[0]], network.pieces[ends[1]]))
        found[-1] = replace(longer, beside=ends, place=place), (*also, other.id)
    return found


def _parted(above: Subject, below: Subject, gone: Set[str]) -> bool:
    """True where nothing but what is gone parts two places of a line."""
    both = above.line == below.line and len(above.beside) == len(below.beside) == 2
    return both and above.beside[1] == below.beside[0] and below.beside[0] in gone


def _along(run: Subject) -> float:
    return sum(piece.along for piece in run.pieces)


def _told_apart(places: Sequence[tuple[str, Subject]]) -> list[str]:
    """Pipes between the same two things by whether they stand or lie; where that is alike too by number."""
    found = list[str]()
    for text, each in places:
        alike = [other for words, other in places if words == text]
        same = [other for other in alike if lies(other) == lies(each)]
        apart = f", where it {'lies' if lies(each) else 'stands'}" if len(alike) > 1 else ""
        which = f", number {same.index(each) + 1} from above" if len(same) > 1 else ""
        found.append(f"{text}{apart}{which}")
    return found
