"""Taken back, what was drawn gives back what was told before it: nobody tells the same twice for a slip."""

from __future__ import annotations

from functools import cache, reduce

import pytest

from advisor.interview.answers import Answer
from advisor.interview.dialogue import Session
from advisor.interview.drawings import Drawings
from advisor.interview.other_pipe import begun as other_pipe
from advisor.interview.other_pipe import left_of
from advisor.interview.sheets import Answers
from advisor.interview.store import with_answer
from advisor.interview.total import answers_to
from tests.interview.small_session import session
from tests.interview.test_other_pipe import BASEMENT, CLAY, OUTSIDE, pipes, told

NONE = Answer("other-pipe", "job", ("no other",))


@cache
def one() -> Session:
    """It holds no answers, so the tests share it."""
    return session()


def place_of(words: str, before: Answers) -> Answer:
    option = next(o for o in one().ask(before, "other-pipe").options if words in o.words)
    return Answer("other-pipe", "job", (option.value,))


@pytest.fixture
def begun() -> tuple[Drawings, Answers, Answers]:
    """40 ft of clay were told past the wall, then 5 ft of iron before it: 35 of the 40 are dealt out anew."""
    of = one()
    (ask,) = [each for each in of.totals(BASEMENT) if each.subject.place == OUTSIDE]
    before = (*BASEMENT, *answers_to(ask, ("40 ft",)))
    drawings = Drawings(of)
    now, again, held = drawings.turned(before, with_answer(before, place_of(OUTSIDE, before)))
    assert again
    assert not held
    drawn = other_pipe(of, now, "other-pipe")
    now = told(now)
    left = left_of(of, before, now, drawn)
    assert left
    drawings.dealt(before, left)
    return drawings, before, reduce(with_answer, left, now)


def test_taken_back_the_length_and_the_material_hold_as_they_were_told(begun):
    drawings, before, with_other = begun
    now, again, held = drawings.turned(with_other, with_answer(with_other, NONE))
    assert again == ()
    assert CLAY in held
    assert set(now) == {*before, NONE}
    assert sum(feet for _, feet in pipes(now)) == pytest.approx(40, abs=0.1)
    assert {material for material, _ in pipes(now)} == {"clay"}


def test_so_too_where_back_takes_it(begun):
    drawings, before, with_other = begun
    stayed = tuple(each for each in before if each in with_other)
    now, held = drawings.held_again(stayed)
    assert set(now) == set(before)
    assert CLAY in held
    # Once given back it is not given again: another `back` takes it.
    assert drawings.held_again(stayed) == (stayed, ())


def test_what_was_told_since_is_not_overruled(begun):
    drawings, before, with_other = begun
    stayed = tuple(each for each in before if each in with_other)
    other = Answer(CLAY.question, CLAY.about, ("pvc",))
    now, held = drawings.held_again((*stayed, other))
    assert other in now
    assert held
    assert CLAY not in (*now, *held)


def test_told_to_begin_elsewhere_and_then_nowhere_all_holds_as_before(begun):
    drawings, before, with_other = begun
    inside = place_of("between floor drain line and floor cleanout", before)
    now, *_ = drawings.turned(with_other, with_answer(with_other, inside))
    now, again, _ = drawings.turned(now, with_answer(now, NONE))
    assert not again
    assert set(now) >= {*before, NONE}
