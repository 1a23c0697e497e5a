"""A length past openings that nobody has found, told as one: 45 ft from the wall to the street.

By hand, on the slab house of rules/archetypes: from the edge of the slab 2 to 5 ft to a cleanout that may be
there, then 25 to 80 ft, a bend and 5 to 15 ft: in the middle 3.5, 52.5 and 10 ft, 66 in all. 33 ft are half
of it.
"""

from __future__ import annotations

import pytest

from advisor.interview.answers import Answer
from advisor.interview.question import DONT_KNOW
from advisor.interview.subject import lies
from advisor.interview.total import answers_to, dealt, totals
from tests.interview.small_session import HOUSE, session
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
    total, _ = of()
    assert [text for _, text in dealt(total, told)] == [first, second]


def test_the_pipes_add_up_to_what_was_told():
    total, _ = of()
    answers = tuple(Answer("run", part.id, (text,)) for part, text in dealt(total, "33 ft"))
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


# -- past an opening that is not there: HOUSE of small_session, by hand ---------------------------
# From the toilet 3 to 9 ft to the place of the pit and 10 to 40 ft on to the sewer: 6 and 25 ft, 31 in all.

GONE = Answer("opening-there", "house drain/opening:yard pit", ("no",))
PAST = "between toilet and public sewer"


def lengths(answers) -> list:
    return [ask for ask in session(sheet=HOUSE).open(answers) if ask.question.id == "run"]


def piped(answers) -> dict[str, float]:
    network = session(sheet=HOUSE).sheets.drain(answers).network
    return {key: network.pieces[key].along / 0.3048 for key in network.lines["house drain"]}


def test_nobody_is_sent_to_pace_from_where_an_opening_was_drawn_that_is_not_there():
    places = [ask.subject.place for ask in lengths((GONE,))]
    assert PAST in places
    assert not [place for place in places if "was drawn" in place]
    assert len(places) == len(lengths(())) - 1, "the two are asked as one"


def test_a_length_past_it_is_dealt_out_to_what_lies_on_both_sides():
    """62 ft are twice the usual 31 ft."""
    (ask,) = [each for each in lengths((GONE,)) if each.subject.place == PAST]
    given = answers_to(ask, ("62 ft",))
    assert [(each.question, each.values) for each in given] == [
        ("run", ("about 12 ft",)),
        ("run", ("about 50 ft",)),
    ]
    found = piped((GONE, *given))
    assert [found[each.about] for each in given] == pytest.approx([12, 50])
    assert {each.values for each in answers_to(ask, (DONT_KNOW,))} == {(DONT_KNOW,)}


def test_a_length_up_to_it_that_was_told_before_stays_and_the_rest_is_asked():
    (below,) = [a for a in lengths(()) if a.subject.place == "between yard pit and public sewer"]
    told = Answer("run", below.subject.id, ("20 ft",))
    (ask,) = [each for each in lengths((told, GONE)) if each.subject.place == PAST]
    assert ask.check("20 ft") == "20 ft of it stands on the sheet already; expected more than that in all"
    (given,) = answers_to(ask, ("30 ft",))
    found = piped((told, GONE, given))
    assert found[told.about] == pytest.approx(20)
    assert found[given.about] == pytest.approx(10)


def test_to_change_it_the_whole_is_asked_again():
    of = session(sheet=HOUSE)
    (ask,) = [each for each in lengths((GONE,)) if each.subject.place == PAST]
    answers = (GONE, *answers_to(ask, ("62 ft",)))
    again = [of.again(answers, each.question, each.about) for each in answers[1:]]
    assert [each.subject.place for each in again] == [PAST, PAST]
    assert again[0].key == again[1].key, "one length was told, so one is changed"
    assert again[0].check("20 ft") is None, "nothing of it stands but what is told anew"
    assert [each.values for each in answers_to(again[0], ("31 ft",))] == [("about 6 ft",), ("about 25 ft",)]
    assert (
        of.again(answers, "opening-there", GONE.about).text
        == of.ask(answers, "opening-there", GONE.about).text
    )


def test_what_was_told_is_one_thing_of_the_list_and_stays_where_it_was():
    """Two lines of the same words stood there, one for each pipe that the length was dealt out to."""
    of = session(sheet=HOUSE)
    (ask,) = [each for each in lengths((GONE,)) if each.subject.place == PAST]
    before, after = (
        [each.key for each in of.may_tell(said)] for said in ((GONE,), (GONE, *answers_to(ask, ("62 ft",))))
    )
    assert [key for key in after if key[0] == "run"] == [key for key in before if key[0] == "run"]
    words = [each.short for each in of.may_tell((GONE, *answers_to(ask, ("62 ft",))))]
    assert words.count(ask.short) == 1


# -- past what lies under the ground, seen by nobody: the terraced house of rules/archetypes, by hand ----
# From the yard chamber 1 to 3 m to where a gully joins, 5 to 14 m to the front chamber with its trap and 3 to
# 10 m on to the sewer: 2, 9.5 and 6.5 m, 18 in all. 36 m are twice that.

TERRACE = begin(region="britain", building="terraced-house", built="1930")
YARD = Answer("opening-there", "rear drain/opening:yard chamber", ("yes",))
NO_FRONT = Answer("opening-there", "rear drain/opening:front chamber", ("no",))


@pytest.mark.parametrize("front", [(), (NO_FRONT,)], ids=["not looked for", "not there"])
def test_one_length_past_a_joining_and_a_trap_under_the_ground_is_told_as_one(front):
    of, said = session(), (*TERRACE, YARD, *front)
    (ask,) = [
        each for each in of.totals(said) if each.subject.place == "between yard chamber and public sewer"
    ]
    given = answers_to(ask, ("36 m",))
    assert [each.values for each in given] == [("about 4 m",), ("about 19 m",), ("about 13 m",)]
    network = of.sheets.drain((*said, *given)).network
    ids = network.lines["rear drain"]
    below = ids[ids.index("rear drain/opening:yard chamber") :]
    assert sum(network.pieces[key].along for key in below) == pytest.approx(36)


def test_nobody_is_sent_to_pace_to_a_trap_without_a_chamber():
    """With a chamber over it the trap is found; so is one of which the rodding arm is found."""
    arm = Answer("opening-there", "rear drain/opening:rodding arm", ("yes",))
    for more, hidden in (((YARD,), False), ((NO_FRONT,), True), ((NO_FRONT, arm), False)):
        places = [ask.subject.place for ask in session().open((*TERRACE, *more)) if ask.question.id == "run"]
        assert ("between rain gully line and public sewer" in places) == hidden, more
        assert not hidden or not [place for place in places if "trap" in place]
