"""What an answer implies: water that somebody saw in a chamber stands in one that is there and was opened."""

from __future__ import annotations

from advisor.interview.answers import Answer
from advisor.interview.question import DONT_KNOW
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables
from tests.interview.small_session import session, walk

START = {"region": "britain", "built": "1905", "building": "terraced-house", "gas-smell": "no"}
SEEN = tuple(Answer(key, "job", (value,)) for key, value in {**START, "holding": DONT_KNOW}.items())
CHAMBER = "rear drain/opening:yard chamber"


def test_a_chamber_in_which_water_was_seen_is_not_asked_about_and_is_there():
    of = session(ask_all=True)
    answers = (*SEEN, Answer("standing-water", "job", ("yard chamber",)))
    hole = of.sheets.drain(answers).network.pieces[CHAMBER].hole
    assert (hole.there, hole.opens) == (1, True)
    assert "there: yes" in of.sheets.text(answers).split("yard chamber")[1].split("joined by")[0].replace(
        '"', ""
    )
    asked = {(a.question, a.about) for a in walk(of, lambda ask: (DONT_KNOW,), answers)}
    assert ("opening-there", CHAMBER) not in asked
    assert ("opening-opens", CHAMBER) not in asked
    assert ("opening-there", "rear drain/opening:front chamber") in asked


def test_of_what_is_looked_into_with_nothing_off_only_its_being_there_is_implied():
    """Water in a gully is seen through its grid: whether its stopper moves nobody knows by that."""
    text = (
        session()
        .sheets.text(SEEN)
        .replace("kind: gully", "kind: gully\n        water: standing\n        there: 70 %", 1)
    )
    hole = (
        network_of(site_of_text(text, "s", tables()), tables())
        .pieces["rear drain/opening:kitchen gully"]
        .hole
    )
    assert (hole.there, hole.opens) == (1, None)
