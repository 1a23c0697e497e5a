"""Of a house that was told to have one floor nobody is asked on which floor a bathroom is (plain sense)."""

from __future__ import annotations

import pytest

from advisor.interview.answers import Answer
from advisor.interview.question import DONT_KNOW
from advisor.interview.store import values_of
from advisor.terminal.ask_screen import put
from advisor.terminal.page import Page
from tests.interview.small_session import session
from tests.terminal.test_choose import typed

FLOOR = "On which floor is it?"


def house(building: str) -> tuple[Answer, ...]:
    told = {"region": "north america", "built": "1973", "building": building}
    return tuple(Answer(question, "job", (word,)) for question, word in told.items())


def below_the_bath(ask) -> int:
    return next(i for i, option in enumerate(ask.options) if "between bathroom stack and" in option.words)


@pytest.mark.parametrize("question", ["other-toilet", "other-kitchen"])
def test_one_storey_has_no_floor_higher_up(question, capsys):
    of, said = session(), house("slab-one-storey")
    ask = of.ask(said, question)
    place = below_the_bath(ask)
    with typed(f"{place + 1}1"):  # the last key is for a floor, were it asked
        told = put(ask, of, said, Page())
    assert told.values == (ask.options[place].value,)
    assert FLOOR not in " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize("building", ["crawl-space", DONT_KNOW])
def test_of_any_other_and_of_one_that_nobody_knows_the_floor_is_asked(building, capsys):
    of, said = session(), house(building)
    ask = of.ask(said, "other-toilet")
    place = next(i for i, option in enumerate(ask.options) if option.higher_up is not None)
    with typed(f"{place + 1}2"):
        told = put(ask, of, said, Page())
    assert told.values == (ask.options[place].higher_up.value,)
    assert FLOOR in " ".join(capsys.readouterr().out.split())


def test_a_floor_that_was_told_before_stays_told():
    """A job kept from before, or a file of answers, may say so of such a house; it is drawn as it says."""
    of, said = session(), house("slab-one-storey")
    ask = of.ask(said, "other-toilet")
    up = ask.options[below_the_bath(ask)].higher_up
    assert values_of(ask, (up.words,)) == ((up.value,), None)
