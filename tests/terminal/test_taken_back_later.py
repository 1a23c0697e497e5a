"""What bars every later push, told by mistake, is taken back in any of them, by whoever has seen it so.

From a trial: "the end of the line" told at a bend barred that reading for good, in plan and push.
Rule of the trade: what a look told only a better look takes back; whoever does not know leaves it standing.
"""

from __future__ import annotations

import pytest

import tests.terminal.test_push_session as sitting
from tests.terminal.test_push_answers import standing
from tests.terminal.test_push_session import BEGIN

job, push = sitting.job, sitting.push  # fixtures
FIRST = BEGIN + "r12\ra" + "r6\rn" + "e" + "n\r" + "y"  # the end told 12 ft in; not reached; all of it is out
HOW = "Not there after all? Key u in a push takes it back."


def ends(job) -> list[float]:
    return [entry.counter or 0.0 for entry in standing(job) if entry.data.get("what") == "end"]


def said_in(push, keys: str) -> str:
    return " ".join(push(keys, raw=True).replace("│", " ").replace("┃", " ").split())


def test_an_end_that_was_none_is_taken_back_in_a_later_push_where_it_bars(job, push):
    push(FIRST)
    before, _, begun = said_in(push, BEGIN + "r10\rn" + "q").partition("COUNTER 0")
    assert HOW in before
    assert f"a head that drops out does not come back. {HOW}" in begun.rpartition("NOT PAST HERE")[2]
    kept = said_in(push, "u1n" + "q")
    assert "1 the end of the pipe: a wall, open sewer or tank: in from stack foot plug, at 12 ft" in kept
    assert "Did the lens show that it is not there, but open pipe?" in kept
    assert ends(job) == [pytest.approx(12 * 0.3048)], "who does not know leaves it standing"
    now = said_in(push, "u1y" + "q").rpartition("Did the lens show")[2]
    assert ends(job) == []
    assert "Taken back: the end of the pipe" in now
    assert "12 ft was seen" not in now
    assert "Not past it" not in now
    assert [entry.counter for entry in standing(job)][-1] == pytest.approx(10 * 0.3048), (
        "nothing else is lost"
    )


def test_told_in_the_same_push_it_is_taken_back_alone_as_well(job, push):
    push(BEGIN + "r12\ra" + "r10\rn" + "u1y" + "q")
    assert [entry.counter for entry in standing(job)] == [0.0, pytest.approx(10 * 0.3048)]


def test_the_last_that_was_told_is_taken_back_as_ever(job, push):
    push(BEGIN + "r12\ra" + "u" + "q")
    assert [entry.kind for entry in standing(job)] == ["start"]
