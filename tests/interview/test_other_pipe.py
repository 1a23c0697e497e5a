"""Other pipe that begins where none is drawn to: iron runs out some feet past the wall, then clay or plastic.

That it does in most old houses is common practice, no source. By hand, on the basement house of
rules/archetypes: its pipe is drawn to change at the foundation wall; 36 ft told from there to the sewer less
5 ft of iron leave 31 ft.
"""

from __future__ import annotations

from functools import reduce

import pytest

from advisor.interview.answers import Answer
from advisor.interview.moved import moved
from advisor.interview.other_pipe import begun, left_of
from advisor.interview.sheets import Answers
from advisor.interview.store import with_answer
from advisor.interview.total import answers_to
from tests.interview.small_session import HOUSE, session
from tests.interview.test_branch import begin

NO_YARD = Answer("opening-there", "house drain/opening:yard cleanout", ("no",))
IRON = Answer("pipe-material", "wall house drain", ("cast iron",))
CLAY = Answer("pipe-material", "wall house drain/from foundation wall (1)", ("clay",))
BASEMENT = (*begin(building="basement"), NO_YARD, IRON, CLAY)
OUTSIDE = "between foundation wall and public sewer"
FOOT = 0.3048


def drawn(before: Answers, place: str = OUTSIDE) -> Answers:
    """The answers once other pipe was said to begin there, less what is to be told again."""
    of = session()
    option = next(o for o in of.ask(before, "other-pipe").options if place in o.words)
    now = (*before, Answer("other-pipe", "job", (option.value,)))
    return tuple(each for each in now if each not in moved(of, before, now))


def told(now: Answers, length: str = "5 ft", material: str = "clay") -> Answers:
    of = session()
    found = begun(of, now, "other-pipe")
    now = reduce(with_answer, answers_to(of.again(now, *found.to_it), (length,)), now)
    return with_answer(now, Answer(*found.material, (material,)))


def pipes(answers: Answers) -> list[tuple[str, float]]:
    """Material and feet of each pipe of the house drain past the wall."""
    network = session().sheets.drain(answers).network
    line = [network.pieces[key] for key in network.lines["house drain"]]
    wall = next(number for number, piece in enumerate(line) if piece.name == "foundation wall")
    return [(p.wall.material.likeliest, p.along / FOOT) for p in line[wall:] if p.kind == "pipe"]


def test_the_change_that_is_drawn_at_the_wall_moves_as_far_out_as_it_is_told():
    now = told(drawn(BASEMENT))
    (iron, feet), *beyond = pipes(now)
    assert (iron, feet) == ("cast iron", pytest.approx(5))
    assert {material for material, _ in beyond} == {"clay"}
    text = session().sheets.text(now)
    assert text.count("- change:") == 1
    assert (
        "      - pipe: 5 ft\n        landmark: change of pipe\n      - change:\n          kind: sewer\n"
        in text
    )


def test_it_is_asked_how_far_it_is_and_what_pipe_begins_there():
    of, now = session(), drawn(BASEMENT)
    found = begun(of, now, "other-pipe")
    how_far, what = (of.again(now, *key) for key in (found.to_it, found.material))
    assert "between foundation wall and change of pipe" in how_far.text
    assert {"clay", "pvc"} <= {option.value for option in what.options}
    assert begun(of, BASEMENT, "other-pipe") is None


def test_what_was_told_to_the_sewer_still_holds():
    of = session()
    (ask,) = [each for each in of.totals(BASEMENT) if each.subject.place == OUTSIDE]
    before = (*BASEMENT, *answers_to(ask, ("36 ft",)))
    now = drawn(before)
    found = begun(of, now, "other-pipe")
    now = told(now)
    left = left_of(of, before, now, found)
    assert sum(feet for _, feet in pipes(reduce(with_answer, left, now))) == pytest.approx(36, abs=0.1)
    # Of which nobody told any there is nothing left to deal out; nor of one that is shorter than that.
    assert left_of(of, BASEMENT, told(drawn(BASEMENT)), found) == ()
    assert left_of(of, before, told(drawn(before), "40 ft"), found) == ()


def test_inside_the_house_it_begins_besides_what_is_drawn():
    """Plastic put in below the floor drain: iron above it, plastic to the wall, clay from there as before."""
    now = told(drawn(BASEMENT, "between floor drain line and floor cleanout"), "3 ft", "pvc")
    text = session().sheets.text(now)
    assert text.count("- change:") == 2
    below = text.partition("landmark: change of pipe")[2]
    assert (
        below.index("material: pvc") < below.index("landmark: foundation wall") < below.index("kind: sewer")
    )


def test_where_nobody_knows_the_place_the_drawing_stays():
    of = session()
    options = [option.value for option in of.ask(BASEMENT, "other-pipe").options]
    assert options[0] == "no other"
    assert not [value for value in options if "somewhere" in value]
    for word in ("no other", "don't know"):
        assert of.sheets.text((*BASEMENT, Answer("other-pipe", "job", (word,)))) == of.sheets.text(BASEMENT)


def test_the_usual_place_outdoors_comes_first_and_none_is_told_by_what_is_not_there():
    words = [option.words for option in session().ask(BASEMENT, "other-pipe").options[1:]]
    assert OUTSIDE in words[0]
    assert not [each for each in words if "was drawn" in each]


def test_of_a_sheet_that_somebody_drew_it_is_told_where_the_pipe_changes_at_an_opening():
    """HOUSE of small_session changes at its pit: 10 to 40 ft follow."""
    of = session(sheet=HOUSE)
    option = of.ask((), "other-pipe").options[1]
    assert "between yard pit and public sewer" in option.words
    text = of.sheets.text((Answer("other-pipe", "job", (option.value,)),))
    half = "- pipe: assumed 5.00 ft to 20.00 ft\n"
    assert f"{half}        landmark: change of pipe\n      - change:\n" in text
    assert text.count(half) == 2


@pytest.mark.parametrize("question", ["other-pipe", "other-outdoors"])
def test_a_pipe_of_unknown_length_is_parted_into_two_of_unknown_length(question):
    """Half of what nobody knows: that threw people out to the shell."""
    of = session(sheet=HOUSE.replace("pipe: assumed 10 to 40 ft", "pipe: unknown"))
    option = next(o for o in of.ask((), question).options if "between yard pit and" in o.words)
    said = (Answer(question, "job", (option.value,)),)
    assert of.sheets.text(said).count("- pipe: unknown\n") == 2
    assert of.sheets.drain(said) is not None
