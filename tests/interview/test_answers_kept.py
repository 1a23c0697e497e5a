"""What somebody said stands on the sheet, whatever was said of its neighbours before and after."""

from __future__ import annotations

import random

import pytest

from advisor.interview.answers import Answer
from advisor.interview.question import DONT_KNOW
from advisor.interview.total import answers_to
from tests.interview.small_session import HOUSE, session


@pytest.mark.slow
def test_a_length_that_was_told_stands_whatever_openings_are_not_there():
    """Openings that turn out not to be there may not take the pipe behind them out of reach."""
    luck, told = random.Random(1), []
    of = session(ask_all=True)
    answers = ()
    for number in range(120):
        ask = of.next(answers)
        if ask is None:
            break
        word = {"region": "north america", "building": "basement", "built": "1958"}.get(ask.question.id)
        if word is None and ask.question.id == "opening-there":
            word = luck.choice(["no", "no", "yes"])
        elif word is None and ask.question.type_in == "length" and ask.question.id == "run":
            length = (number + 60) * 0.3048 + ask.subject.told  # no two alike, and more than is told of it
            word = f"{length:.3f} m"
            told.append((ask.subject, length))
        elif word is None and ask.question.id in ("gas-smell", "holding", "chemicals"):
            word = "no"
        answers = (*answers, *answers_to(ask, (word or "don't know",)))
    assert len(told) > 5
    assert sum(each.question == "opening-there" and each.values == ("no",) for each in answers) > 1
    pieces = of.sheets.drain(answers).network.pieces
    for subject, length in told:
        of_it = sum(pieces[piece.id].along for piece in subject.pieces)
        assert of_it + subject.told == pytest.approx(length, abs=0.01), subject.id


def test_a_drain_that_ends_in_a_tank_is_drawn_so():
    """No plan speaks of a public sewer once somebody said that there is none."""
    of = session()
    start = {"region": "north america", "built": "1972", "building": "crawl-space"}
    told = {
        word: of.sheets.text(tuple(Answer(q, "job", (v,)) for q, v in {**start, "septic": word}.items()))
        for word in ("yes", "no", DONT_KNOW)
    }
    assert "end: septic tank" in told["yes"]
    assert "public sewer" not in told["yes"]
    assert all("end: public sewer" in told[word] for word in ("no", DONT_KNOW))


def test_a_tank_that_is_drawn_is_not_drawn_twice():
    drawn = HOUSE.replace("      - end: public sewer\n", "      - tank: septic tank\n      - end: soakaway\n")
    text = session(sheet=drawn).sheets.text((Answer("septic", "job", ("yes",)),))
    assert text.count("tank: septic tank") == 1
    assert "end: soakaway" in text


def test_an_end_that_the_task_names_keeps_its_name():
    named = HOUSE.replace("look at: house drain", "look at: house drain, from toilet to public sewer")
    of = session(sheet=named)
    assert "end: public sewer" in of.sheets.text((Answer("septic", "job", ("yes",)),))
    assert of.sheets.drain((Answer("septic", "job", ("yes",)),)).network
