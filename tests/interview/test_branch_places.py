"""Places where a branch may join: each told once, in words, and told apart."""

from __future__ import annotations

import pytest

from advisor.interview.answers import Answer
from advisor.interview.moved import moved
from tests.interview.small_session import answered, known, session
from tests.interview.test_branch import begin, place


def test_pipes_between_the_same_two_things_are_told_apart():
    """Below the access door the stack goes on upright, turns, and lies (british row of shops)."""
    flat = begin(region="britain", building="flat-above-shop")
    words = [option.words for option in session().ask(flat, "other-toilet").options]
    below = "yes, it joins the soil stack, below access door at the foot"
    assert {f"{below}, where it stands", f"{below}, where it lies"} <= set(words)


@pytest.mark.parametrize("building", known().buildings, ids=lambda b: b.id)
def test_no_list_of_places_has_two_alike(building):
    drawn = begin(region=building.region, building=building.id, built="1950")
    for ask in session().not_drawn(drawn):
        words = [option.words for option in ask.options]
        assert len(set(words)) == len(words), ask.question.id


def test_a_place_of_which_the_length_was_told_is_one_still_and_is_told_in_words():
    """Asked at the end, after all lengths: a pipe that was measured was no place any more, and the answer was
    shown as `house drain/after edge of the slab/pipe 1`."""
    of, run = session(), "house drain/after edge of the slab/pipe 1"
    before = of.ask(begin(), "other-outdoors")
    assert run in [option.value for option in before.options]
    said = (*begin(), answered(before, run), Answer("run", run, ("2 ft",)))
    ask = of.ask(said, "other-outdoors")
    assert ask.options == before.options
    assert "the house drain, between edge of the slab and" in ask.words_of(run)


TERRACE = begin(region="britain", building="terraced-house", built="1930")


def test_a_toilet_by_the_back_door_joins_in_the_chamber_and_parts_no_pipe():
    of, where = session(), place("in the yard chamber", answers=TERRACE)
    assert "yes, it joins the rear drain, in the yard chamber" in [
        option.words for option in of.ask(TERRACE, "other-toilet").options
    ]
    before = of.sheets.drain(TERRACE).network
    for answer, joins in ((where, "other bathroom"), (f"{where}, higher up", "other stack")):
        said = (*TERRACE, Answer("other-toilet", "job", (answer,)))
        chamber = of.sheets.text(said).split("- opening: yard chamber\n")[1].split("joined by: soil stack")[0]
        assert f"- joined by: {joins}\n        fitting: assumed chamber branch\n" in chamber
        network = of.sheets.drain(said).network
        assert [p.along for p in network.pieces.values() if p.line == "rear drain" and p.kind == "pipe"] == [
            p.along for p in before.pieces.values() if p.line == "rear drain" and p.kind == "pipe"
        ]
        pipes = [Answer("run", s.id, ("2 m",)) for s in of.about(TERRACE, "run") if s.line == "rear drain"]
        assert pipes
        assert moved(of, (*TERRACE, *pipes), (*said, *pipes)) == (), "every length is still what was paced"


def test_a_chamber_that_is_not_drawn_stands_in_no_other():
    words = [option.words for option in session().ask(TERRACE, "other-outdoors").options]
    assert not [text for text in words if "in the yard chamber" in text]


def test_what_was_told_of_the_material_stays_where_something_joins_at_the_end_of_that_pipe():
    newer = begin(region="britain", building="newer-detached", built="1985")
    told = (*newer, Answer("pipe-material", "wall house drain", ("clay",)))
    where = place("in the front chamber", answers=newer)
    assert moved(session(), told, (*told, Answer("other-toilet", "job", (where,)))) == ()
