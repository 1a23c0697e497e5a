"""Other pipe that is taken back in a later sitting gives back what was told before it, as on the same day.

From a trial: a slip that was seen the next morning, and only "to be told again" was said. 40 ft of
clay were told past the wall: by hand they are 40 ft of clay again.
"""

from __future__ import annotations

import pytest

from advisor.errors import BadInput
from advisor.interview.drawings import Drawings
from advisor.interview.store import Kept, Lost, read, save, with_answer
from advisor.job.folder import Job
from advisor.terminal.ask_session import AskRun
from advisor.terminal.page import Page
from tests.interview import test_drawings
from tests.interview.test_drawings import NONE, one
from tests.interview.test_other_pipe import CLAY, pipes

begun = test_drawings.begun  # a fixture


def test_it_holds_again_from_the_file_of_answers(begun, tmp_path):
    drawings, before, with_other = begun
    job = Job(tmp_path)
    first = AskRun(one(), job, Kept("x", None, before, lost=drawings.lost), Page())
    first.keep(with_other)

    kept = read(job.answers)[1]
    assert kept.answers == with_other
    later = AskRun(one(), job, kept, Page())
    now, again, held = later.drawings.turned(with_other, with_answer(with_other, NONE))
    assert again == ()
    assert CLAY in held
    assert set(now) == {*before, NONE}
    assert {material for material, _ in pipes(now)} == {"clay"}
    assert sum(feet for _, feet in pipes(now)) == pytest.approx(40, abs=0.1)


def test_what_was_lost_is_read_as_it_was_written(tmp_path):
    kept = Kept(
        "x", None, (CLAY,), lost=(Lost("0123456789abcdef", (CLAY, NONE), (CLAY,)), Lost("f", (NONE,)))
    )
    save(tmp_path / "answers.yaml", kept)
    assert read(tmp_path / "answers.yaml")[1] == kept


def test_of_another_drawing_nothing_is_given_back(begun):
    _, _, with_other = begun
    of_another = Drawings(one(), (Lost("0123456789abcdef", (CLAY,)),))
    assert of_another.held_again(with_other) == (with_other, ())


def test_a_row_of_it_that_is_broken_is_told(tmp_path):
    path = tmp_path / "answers.yaml"
    path.write_text("answers: []\nas drawn before:\n  - {drawing: a, answer: none}\n", encoding="utf-8")
    with pytest.raises(BadInput, match="answer"):
        read(path)
