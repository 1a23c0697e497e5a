"""Where something joins is told by what is there: nobody can say on which side of what is not there it lies.

By the drawing of rules/archetypes/basement.yaml: down its drain come a floor drain line, floor cleanout,
foundation wall, yard cleanout and the sewer.
"""

from __future__ import annotations

import pytest

from advisor.interview.answers import Answer
from advisor.interview.sheets import Answers
from tests.interview.small_session import session
from tests.interview.test_branch import SAFE

HOUSE: Answers = tuple(
    Answer(question, "job", (word,))
    for question, word in {"region": "north america", "built": "1926", "building": "basement", **SAFE}.items()
)
FLOOR, YARD = "house drain/opening:floor cleanout", "house drain/opening:yard cleanout"
PLUGS = "house-trap"


@pytest.fixture(scope="module")
def of():
    return session()


def without(*openings: str, word: str = "no") -> Answers:
    return (*HOUSE, *(Answer("opening-there", each, (word,)) for each in openings))


def offered(of, answers: Answers) -> dict[str, str]:
    """The places that are offered, each with its value."""
    found = {each.words: each.value for each in of.ask(answers, PLUGS).options}
    return {
        words.partition("house drain, ")[2]: value for words, value in found.items() if "between" in words
    }


def test_what_is_not_there_parts_no_place(of):
    before, now = offered(of, HOUSE), offered(of, without(FLOOR, YARD))
    assert {"between floor cleanout and foundation wall", "between yard cleanout and public sewer"} <= {
        *before
    }
    assert not [place for place in now if "cleanout" in place.removeprefix("between stack foot cleanout")]
    assert "between foundation wall and public sewer" in now
    (last,) = [place for place in now if place.endswith("and foundation wall")]
    assert last.startswith("between floor drain line")
    assert set(now.values()) < set(before.values())


@pytest.mark.parametrize("word", ["yes", "don't know"])
def test_what_may_be_there_parts_it(of, word):
    assert offered(of, without(FLOOR, YARD, word=word)) == offered(of, HOUSE)


def test_the_longer_side_stands_for_both(of):
    """20 ft and more from the yard cleanout to the sewer, some feet from the wall to it."""
    before = offered(of, HOUSE)
    now = offered(of, without(YARD))
    assert now["between foundation wall and public sewer"] == before["between yard cleanout and public sewer"]


@pytest.mark.parametrize("side", ["floor cleanout and foundation wall", "foundation wall and yard cleanout"])
def test_what_was_answered_before_keeps_its_place_and_is_told_anew(of, side):
    value = offered(of, HOUSE)[f"between {side}"]
    said = (*without(FLOOR, YARD), Answer(PLUGS, "job", (value,)))
    told = of.ask(said, PLUGS).words_of(value)
    assert "floor cleanout" not in told
    assert "yard cleanout" not in told
    assert "foundation wall" in told
    plugs = [each for each in of.sheets.drain(said).network.openings() if "house trap" in each.hole.kind]
    assert len(plugs) == 2
    assert value in [each.value for each in of.ask(said, PLUGS).every]
