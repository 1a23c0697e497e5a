"""What is drawn where nobody knows the building, and what is asked of a house that is one of several.

That the semi-detached house is the commonest of the years between the wars in Britain, and that its drain is
often its neighbour's too, is common knowledge of the trade; the shares in the rules are our judgement.
"""

from __future__ import annotations

import pytest

from advisor.interview.answers import Answer
from advisor.interview.question import DONT_KNOW
from tests.interview.small_session import session, walk

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
