"""No question whose only use is an opening that is ruled out (what a technician who was asked so wants)."""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.archetype import typical
from advisor.interview.answers import NONE, Answer
from advisor.interview.ask import Ask
from advisor.interview.dialogue import Session
from advisor.interview.question import DONT_KNOW
from advisor.interview.sheets import Answers
from tests.interview.small_session import known, walk

CALM = dict.fromkeys(("gas-smell", "holding", "chemicals", "pumps", "deep", "septic"), "no")
# Pipe that only a rod from the roof would pass: no water runs above the highest thing that drains into it.
VENTS = {
    "two-storey-stack": "main stack/after roof vent/drop 1",
    "crawl-space": "bathroom stack/after roof vent/drop 1",
    "newer-detached": "main stack/after vent above the roof/drop 1",
}


def house(kind: str, ask_all: bool = False) -> Session:
    text = typical(next(b for b in known().buildings if b.id == kind), 1990)
    return Session(replace(known(), sheet=text, ask_all=ask_all))


def asked(of: Session, roof: str, slow: int, also: dict[tuple[str, str], str] | None = None) -> set[str]:
    """What was asked about; nobody knows of the drain more than the `also`."""

    def say(ask: Ask) -> tuple[str, ...]:
        if ask.question.id == "backs-up":
            return (NONE,)
        if ask.question.id == "slow":
            return (ask.options[slow].value,)
        return ({**CALM, "roof": roof}.get(ask.question.id) or (also or {}).get(ask.key, DONT_KNOW),)

    return {answer.about for answer in walk(of, say, most=300)}


@pytest.mark.parametrize("kind", VENTS)
@pytest.mark.parametrize("ask_all", [pytest.param(False, marks=pytest.mark.slow), True])
@pytest.mark.parametrize("slow", [0, pytest.param(-1, marks=pytest.mark.slow)])
def test_nothing_is_asked_that_only_a_rod_from_a_forbidden_roof_would_meet(kind, ask_all, slow):
    assert VENTS[kind] not in asked(house(kind, ask_all), "no", slow)


@pytest.mark.slow
def test_the_same_is_asked_where_the_roof_may_be_climbed():
    for kind, vent in VENTS.items():
        assert vent in asked(house(kind, ask_all=True), "yes", 0)


@pytest.mark.slow
@pytest.mark.parametrize("question", ["opening-opens", "opening-there"])
def test_so_of_an_opening_that_is_told_shut_or_not_there(question):
    """Only a rod from the rodding eye at its head passes the first metres of this drain."""
    eye, first = "house drain/opening:rodding eye", "house drain/after rodding eye/pipe 1"
    there = {("opening-there", eye): "yes", ("opening-opens", eye): "yes"}
    of = house("newer-detached", ask_all=True)
    assert first in asked(of, "no", 0, there)
    assert first not in asked(of, "no", 0, {**there, (question, eye): "no"})


def test_what_another_way_in_meets_is_asked_all_the_same():
    of = house("two-storey-stack", ask_all=True)
    shared = "main stack/after upper toilet branch/drop 1"
    found = {("opening-there", "main stack/opening:stack foot cleanout"): "yes"}
    assert shared in asked(of, "no", 0, found)


def test_the_drawing_can_be_set_right_there_too():
    """At the end everything on it may be told, of use or not."""
    of = house("two-storey-stack")
    said: Answers = tuple(Answer(q, "job", (w,)) for q, w in {**CALM, "roof": "no"}.items())
    assert VENTS["two-storey-stack"] in {ask.subject.id for ask in of.open(said)}
