"""What is drawn where nobody knows the building, and what is asked of a house that is one of several.

That the semi-detached house is the commonest of the years between the wars in Britain, and that its drain is
often its neighbour's too, is common knowledge of the trade; the shares in the rules are our judgement.
"""

from __future__ import annotations

import pytest

from advisor.interview.answers import Answer
from advisor.interview.question import DONT_KNOW
from advisor.terminal.ask_screen import put
from advisor.terminal.page import Page
from tests.interview.small_session import session, walk
from tests.terminal.test_ask import typed

CALM = dict.fromkeys(("gas-smell", "holding", "chemicals", "pumps", "roof", "deep", "septic"), "no")


def start(region: str, year: str, building: str = DONT_KNOW):
    told = {"region": region, "built": year, "building": building}
    return tuple(Answer(key, "job", (value,)) for key, value in told.items())


@pytest.mark.parametrize(
    ("region", "year", "kind"),
    [
        ("britain", "1932", "Semi-detached house"),
        ("britain", "1967", "Semi-detached house"),
        ("britain", "1905", "Terraced house"),
        ("britain", DONT_KNOW, "Semi-detached house"),
        ("north america", DONT_KNOW, "House with a basement"),
    ],
)
def test_where_nobody_knows_the_most_usual_house_of_its_year_is_drawn(region, year, kind):
    of, answers = session(), start(region, year)
    assert of.sheets.building(answers).startswith(kind)
    offered = of.ask(answers[:2], "building").options
    assert offered[0].words.startswith(kind), "and it stands first in the list"


@pytest.mark.parametrize(
    ("region", "year", "building", "often"),
    [
        ("britain", "1932", "semi-external-stack", True),
        ("britain", "1905", "terraced-house", True),
        ("britain", "1990", "newer-detached", False),
        ("north america", "1994", "slab-one-storey", False),
    ],
)
def test_the_neighbours_are_asked_about_once_where_their_drain_may_be_the_same(region, year, building, often):
    def say(ask):
        return (CALM.get(ask.question.id, DONT_KNOW),)

    asked = [a.question for a in walk(session(), say, start(region, year, building))]
    assert asked.count("shared") == int(often)


@pytest.mark.parametrize("region", ["north america", "britain"])
def test_a_house_keeps_its_number_whatever_the_year(region):
    """Whoever goes back and tells another year presses the key that he saw."""
    numbers: dict[str, set[int]] = {}
    for year in ("1905", "1932", "1952", "1967", "1985", "2005", DONT_KNOW):
        for option in session().ask(start(region, year)[:2], "building").options:
            numbers.setdefault(option.value, set()).add(option.number)
    assert all(len(each) == 1 for each in numbers.values())
    assert sorted(number for (number,) in numbers.values()) == list(range(1, len(numbers) + 1))
    assert len(numbers) <= 9, "each has one digit for its key"


def test_its_number_is_its_key_also_where_houses_before_it_are_left_out():
    of = session()
    asked = of.ask(start("britain", "2005")[:2], "building")
    (option,) = [each for each in asked.options if each.value == "newer-detached"]
    before = list(asked.options).index(option)
    assert option.number > before + 1, "else this list tells nothing"
    with typed(str(option.number)):
        assert put(asked, of, (), Page()).values == ("newer-detached",)
