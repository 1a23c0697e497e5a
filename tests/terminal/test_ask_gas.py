"""A job that was left because it smelled of gas: what frees it, and what is kept of it."""

from __future__ import annotations

import pytest

from advisor.interview.store import Kept, read
from advisor.job.folder import Job
from advisor.terminal.ask_session import AskRun
from advisor.terminal.page import Page
from tests.interview.small_session import session
from tests.terminal.test_ask import SMALL_HOUSE
from tests.terminal.test_choose import typed

YES = ("gas-smell", ("yes",))


def sit(folder, keys, text=SMALL_HOUSE):
    """One sitting at a job, from what is kept of it."""
    job = Job(folder)
    kept = read(job.answers)[1] if job.answers.is_file() else Kept("x", text)
    run = AskRun(session(sheet=text), job, kept, Page())
    with typed(keys + "\x04"):
        done = run.run()
    return run, done


def on_disk(folder):
    return [(a.question, a.values) for a in read(folder / "answers.yaml")[1].answers]


def left_for_gas(folder):
    run, done = sit(folder, "1")
    assert done
    assert not run.may_push
    assert on_disk(folder) == [YES]


@pytest.mark.parametrize(("key", "word"), [("2", "utility says safe"), ("3", "slip")])
def test_it_is_told_safe_with_one_more_key_and_that_it_was_told_once_is_kept(tmp_path, capsys, key, word):
    left_for_gas(tmp_path)
    capsys.readouterr()
    with pytest.raises(EOFError):  # the input ends at the next question, so there is one
        sit(tmp_path, key + "y")
    said = " ".join(capsys.readouterr().out.split())
    assert said.index("DANGER: Gas will explode") < said.index("It smelled of gas")
    assert "Is the line holding?" in said
    assert on_disk(tmp_path) == [YES, ("gas-cleared", (word,))]
    text = session(sheet=SMALL_HOUSE).sheets.text(read(tmp_path / "answers.yaml")[1].answers)
    assert 'gas smell: "no"' in text or "gas smell: no" in text
    assert f"gas cleared: {word}" in text


@pytest.mark.parametrize("keys", ["1", "b", "d", "2nb", "3n1"])
def test_without_a_clear_word_the_danger_stays_and_there_is_no_plan(tmp_path, capsys, keys):
    left_for_gas(tmp_path)
    capsys.readouterr()
    run, done = sit(tmp_path, keys)
    said = " ".join(capsys.readouterr().out.split())
    assert done
    assert not run.may_push
    assert "There is no plan until the gas utility has been here" in said
    assert "Is the line holding?" not in said
    assert "gas smell: yes" in (tmp_path / "site.yaml").read_text().replace('"', "")


def test_it_may_smell_again(tmp_path):
    """Freed, then picked at the review: the answer that freed it is what changes."""
    left_for_gas(tmp_path)
    with pytest.raises(EOFError):
        sit(tmp_path, "3y")
    of = session(sheet=SMALL_HOUSE)
    run = AskRun(of, Job(tmp_path), read(tmp_path / "answers.yaml")[1], Page())
    run._shown = run.kept.answers
    with typed("1" + "1" + "\x04"):  # the first answer, "Do you smell gas? YES": it still smells
        assert run._reviewed() == "changed"
    assert of.gas(run.kept.answers)
    assert YES in on_disk(tmp_path)
