"""A length is asked for from one thing that is seen to the next, and dealt out to the pieces between them.

Shares by hand: between floor cleanout and vent lie 5 to 20 ft and 5 to 15 ft with a bend between them, in
the middle 12.5 and 10 ft, so that 45 ft come to 25 and 20 ft.
"""

from __future__ import annotations

import numpy as np
import pytest

from advisor.interview.answers import Answer
from advisor.interview.subject import answers_over
from advisor.worlds.draws import Worlds
from tests.cases.jobs import tables
from tests.interview.small_session import HOUSE, session

FIRST = "      - pipe: assumed 5 to 20 ft\n      - bend: unknown\n"
SECOND = "      - pipe: assumed 5 to 15 ft\n"
PLACE = "between floor cleanout and vent"


def asked(sheet: str = HOUSE):
    return [each for each in session(sheet=sheet, ask_all=True).open(()) if each.question.id == "run"]


def stretch(sheet: str = HOUSE):
    (found,) = [each for each in asked(sheet) if each.subject.place == PLACE]
    return found


@pytest.mark.parametrize(
    ("told", "first", "second"),
    [
        ("45 ft", "about 25 ft", "about 20 ft"),
        ("about 45 ft", "about 25 ft", "about 20 ft"),
        ("36 to 54 ft", "20 to 30 ft", "16 to 24 ft"),
        ("9 m", "about 5 m", "about 4 m"),
        ("22' 6\"", "about 12.5 ft", "about 10 ft"),
        # 5/9 of 10 ft are 5.56 ft, of 10 m 5.556 m: no finer than a tape is read, and together what was told.
        ("10 ft", "about 5.6 ft", "about 4.4 ft"),
        ("10 m", "about 5.56 m", "about 4.44 m"),
        ("1 in", "about 0.046 ft", "about 0.037 ft"),
    ],
)
def test_what_is_paced_is_dealt_out_by_the_usual_lengths(told, first, second):
    of = session(sheet=HOUSE, ask_all=True)
    answers = (Answer("run", stretch().subject.id, (told,)),)
    assert f"      - pipe: {first}\n      - bend: unknown\n      - pipe: {second}\n" in of.sheets.text(
        answers
    )
    # And it is asked no more.
    assert PLACE not in [each.subject.place for each in of.open(answers) if each.question.id == "run"]


def test_it_is_asked_once_and_every_other_pipe_by_itself():
    """The sheet has eight lengths that are only assumed: two of them are one stretch, one stands."""
    found = asked()
    assert [len(each.subject.pieces) for each in found].count(2) == 1
    assert sum(len(each.subject.pieces) for each in found) == 8
    assert [each.subject.kind for each in found].count("drop") == 1
    places = [(each.subject.line, each.subject.place) for each in found]
    assert len(set(places)) == len(places)
    assert stretch().text == f"How long is the pipe on the house drain, {PLACE}? Pace it out."


def test_what_the_sheet_tells_of_it_is_taken_off():
    sheet = HOUSE.replace(SECOND, "      - pipe: 5 ft\n")
    ask = stretch(sheet)
    assert len(ask.subject.pieces) == 1
    said = session(sheet=sheet).sheets.text((Answer("run", ask.subject.id, ("25 ft",)),))
    assert "      - pipe: 20 ft\n      - bend: unknown\n      - pipe: 5 ft\n" in said
    for short in ("5 ft", "3 to 30 ft"):
        assert ask.check(short) == "5 ft of it stands on the sheet already; expected more than that in all"
    assert ask.check("6 ft") is None


def test_what_is_usual_is_that_of_the_whole_stretch():
    """5 and 5 to 20 and 15 ft: 10 to 35 ft."""
    low, high = stretch().unusual("500 ft")
    assert (low, high) == pytest.approx((10 * 0.3048, 35 * 0.3048))
    assert stretch().unusual("40 ft") is None


def test_it_is_weighed_by_the_length_of_the_whole():
    """Worlds in blocks by the sum of the two, not by either of them."""
    of, worlds = session(sheet=HOUSE, ask_all=True), Worlds(1, 3000)
    drain = of.sheets.drain(())
    names, groups = answers_over(stretch().subject, "length", drain.network, tables(), worlds)
    lengths = [worlds.value(f"{piece.id}/length", piece.length) for piece in stretch().subject.pieces]
    whole = np.sum(lengths, axis=0)
    assert names == ()
    for block in range(groups.max()):
        assert whole[groups == block].max() <= whole[groups == block + 1].min() + 1e-6
    assert groups.max() > 0
    for one in lengths:
        assert any(
            one[groups == block].max() > one[groups == block + 1].min() for block in range(groups.max())
        )
