"""A length past openings that nobody has found, told as one: 45 ft from the wall to the street.

By hand, on the slab house of rules/archetypes: from the edge of the slab 2 to 5 ft to a cleanout that may be
there, then 25 to 80 ft, a bend and 5 to 15 ft: in the middle 3.5, 52.5 and 10 ft, 66 in all. 33 ft are half
of it.
"""

from __future__ import annotations

import pytest

from advisor.interview.answers import Answer
from advisor.interview.subject import lies
from advisor.interview.total import dealt, totals
from tests.interview.small_session import session
from tests.interview.test_branch import begin

PLACE = "between edge of the slab and public sewer"


def of(*more: Answer):
    drain = session().sheets.drain((*begin(), *more))
    (found,) = [each for each in totals(drain.network, drain.subjects) if each.place == PLACE]
    return found, drain


@pytest.mark.parametrize(
    ("told", "first", "second"),
    [
        ("33 ft", "about 1.8 ft", "about 31.2 ft"),
        ("about 33 ft", "about 1.8 ft", "about 31.2 ft"),
        ("33 to 66 ft", "1.8 to 3.5 ft", "31.2 to 62.5 ft"),
    ],
)
def test_it_is_dealt_out_by_the_usual_lengths(told, first, second):
    total, drain = of()
    assert [text for _, text in dealt(total, drain.subjects, told)] == [first, second]


def test_the_pipes_add_up_to_what_was_told():
    total, drain = of()
    answers = tuple(Answer("run", part.id, (text,)) for part, text in dealt(total, drain.subjects, "33 ft"))
    network = session().sheets.drain((*begin(), *answers)).network
    line = [network.pieces[key] for key in network.lines["house drain"]]
    at = next(number for number, piece in enumerate(line) if piece.name == "edge of the slab")
    assert sum(piece.along for piece in line[at:]) == pytest.approx(33 * 0.3048, abs=0.002)


def test_it_ends_at_what_is_sure_to_be_there():
    cleanout = Answer("opening-there", "house drain/opening:yard cleanout", ("yes",))
    drain = session().sheets.drain((*begin(), cleanout))
    assert PLACE not in [each.place for each in totals(drain.network, drain.subjects)]
    assert all(lies(each) for each in totals(drain.network, drain.subjects))
    gone = Answer("opening-there", "house drain/opening:yard cleanout", ("no",))
    assert of(gone)[0].place == PLACE
