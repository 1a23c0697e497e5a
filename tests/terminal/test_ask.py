"""`advisor ask` through prompt_toolkit's own pipe input: answers kept, taken up again, narrow."""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import replace
from functools import cache

import pytest
from prompt_toolkit.application import create_app_session
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output import DummyOutput

from advisor.interview.answers import NONE, Answer
from advisor.interview.dialogue import Session
from advisor.interview.question import DONT_KNOW
from advisor.interview.store import Kept, read
from advisor.job.folder import Job
from advisor.site.sheet import read_site
from advisor.terminal.ask_session import AskRun
from advisor.terminal.page import Page
from tests.cases.jobs import tables
from tests.interview.small_session import HOUSE, known

SMALL_HOUSE = HOUSE.replace("look at: house drain", "look at: house drain, from vent to yard pit")
CALM = "2222122"  # no gas, not holding, no chemicals, no pumps, the roof is safe, nothing deep, no tank


@contextmanager
def typed(text: str):
    with create_pipe_input() as keys, create_app_session(input=keys, output=DummyOutput()):
        keys.send_text(text + "\x15\x04")  # a session that wants more keys ends, and its test fails
        yield


@cache
def of(house: str | None, name: str) -> Session:
    """A session holds no answers, so sittings may share it."""
    return Session(replace(known(), sheet=house, name=name))


def run(folder, keys: str, kept: Kept | None = None, house: str | None = SMALL_HOUSE) -> AskRun:
    """One sitting with these keys; without more keys the terminal is gone, as when a cable is pulled."""
    kept = kept or Kept("small job", house)
    each = AskRun(of(kept.sheet, kept.job), Job(folder), kept, Page())
    with typed(keys):
        each.run()
    return each


def on_disk(folder) -> list[tuple[str, tuple[str, ...]]]:
    return [(a.question, a.values) for a in read(folder / "answers.yaml")[1].answers]


def test_a_whole_sitting_writes_a_clean_sheet_and_plans(tmp_path, capsys):
    run(tmp_path, CALM + "ddd" + "1" + "d" * 40 + "0")
    said = capsys.readouterr().out
    sheet = read_site(tmp_path / "site.yaml", tables())
    assert sheet.model.task.complaint.holding is False
    text = (tmp_path / "site.yaml").read_text()
    assert text.startswith("# Made by a question session.")
    assert "pipe: assumed 5 to 20 ft  # nobody has seen it" in text
    assert "material of house drain: cast iron" in text
    for words in (
        "THE DRAIN AS UNDERSTOOD SO FAR",
        "Is this right?",
        "DO THIS FIRST",
        "OPENINGS, BEST FIRST",
    ):
        assert words in said


def test_every_way_out_is_always_there(tmp_path, capsys):
    run(tmp_path, "l")
    said = capsys.readouterr().out
    for words in ("d don't know", "b back", "w why do you ask?", "l save and leave", "s show the drain"):
        assert words in " ".join(said.split())
    assert "Saved. Go on with: advisor ask" in said


def test_an_answer_is_on_disk_before_the_next_question_shows(tmp_path, monkeypatch):
    seen = []
    from advisor.terminal import ask_screen

    real = ask_screen.put

    def put(asked, *more):
        seen.append((asked.question.id, on_disk(tmp_path) if (tmp_path / "answers.yaml").exists() else []))
        return real(asked, *more)

    monkeypatch.setattr("advisor.terminal.ask_session.screen.put", put)
    run(tmp_path, "222l")
    assert [len(kept) for _, kept in seen] == [0, 1, 2, 3]
    assert seen[3][1] == [("gas-smell", ("no",)), ("holding", ("no",)), ("chemicals", ("no",))]


def test_interrupted_at_every_question_and_taken_up_again(tmp_path, capsys):
    """After each cut-off it goes on at the very question, with the last three answers shown."""
    keys = [*CALM, "20", "d", "d", "d", "2"]
    folder = tmp_path / "whole"
    folder.mkdir()
    whole = run(folder, "".join(keys) + "l")
    for cut in range(len(keys)):
        folder = tmp_path / f"cut {cut}"
        folder.mkdir()
        for part, ends in (("".join(keys[:cut]), "\x03"), ("".join(keys[cut:]), "l")):
            path = folder / "answers.yaml"
            kept = read(path)[1] if path.exists() else None
            capsys.readouterr()
            try:
                run(folder, part + ends, kept)
            except KeyboardInterrupt:
                assert ends == "\x03"
        if cut > 0:
            assert "WHERE YOU LEFT OFF" in capsys.readouterr().out
        assert read(folder / "answers.yaml")[1].answers == whole.kept.answers


def test_a_lost_terminal_keeps_what_was_answered(tmp_path):
    with pytest.raises(EOFError):
        run(tmp_path, "22\x04")
    assert on_disk(tmp_path) == [("gas-smell", ("no",)), ("holding", ("no",))]


def test_back_and_the_same_again(tmp_path):
    first, second = tmp_path / "a", tmp_path / "b"
    first.mkdir()
    second.mkdir()
    one = run(first, CALM + "10" + "d" * 40 + "0")
    other = run(second, CALM + "bbbbb" + CALM[2:] + "10" + "bb" + "2" + "0" + "d" * 40 + "0")
    assert one.kept.answers == other.kept.answers
    assert (first / "site.yaml").read_text() == (second / "site.yaml").read_text()


def test_back_to_a_choice_of_several_keeps_what_was_chosen(tmp_path):
    """Two places back up; a step back and straight on again tells the same two."""
    one = run(tmp_path, CALM + "12" + "0" + "b" + "0" + "l")
    chosen = next(a.values for a in one.kept.answers if a.question == "backs-up")
    assert len(chosen) == 2


def test_back_over_two_choices_of_several_loses_neither(tmp_path):
    """What backs up and what is slow were told; two steps back and straight on again tell the same."""
    told = run(tmp_path, CALM + "10" + "10" + "l").kept.answers
    again = tmp_path / "again"
    again.mkdir()
    assert run(again, CALM + "10" + "10" + "bb" + "0" + "0" + "l").kept.answers == told
    assert [len(a.values) for a in told if a.question in ("backs-up", "slow")] == [1, 1]
    assert (NONE,) not in [a.values for a in told]


def test_every_answer_can_be_changed_at_the_end(tmp_path, capsys):
    run(tmp_path, CALM + "d" * 40 + "4" + "1" + "0")
    assert ("pumps", ("yes",)) in on_disk(tmp_path)
    assert "pumps: yes" in (tmp_path / "site.yaml").read_text()
    assert "WARNING: A pump that starts" in " ".join(capsys.readouterr().out.split())


def test_gas_ends_it_with_the_danger_and_no_more_questions(tmp_path, capsys):
    run(tmp_path, "1")
    said = " ".join(capsys.readouterr().out.split())
    assert "DANGER: Gas will explode" in said
    assert "Leave the building and call" in said
    assert "What backs up" not in said


def test_why_and_a_wrong_length_and_a_line_that_is_typed(tmp_path, capsys):
    session = Session(replace(known(), sheet=SMALL_HOUSE, ask_all=True))
    begin = AskRun(session, Job(tmp_path), Kept("x", SMALL_HOUSE), Page())
    with typed(CALM + "ddd" + "d" * 5 + "l"):
        begin.run()
    asked = session.next(begin.kept.answers)
    while asked.question.type_in != "length":
        begin.keep((*begin.kept.answers, Answer(*asked.key, (DONT_KNOW,))))
        asked = session.next(begin.kept.answers)
    capsys.readouterr()
    with typed("wt" + "twelve\r" + "\x15" + "12 ft\r" + "l"):
        begin.run()
    said = capsys.readouterr().out
    assert asked.question.why in " ".join(said.split())
    assert "got 'twelve'" in said
    assert begin.kept.answers[-1].values == ("12 ft",)


def test_forty_columns_hold_every_word(tmp_path, capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "40")
    run(tmp_path, CALM + "s" + "20" + "dd" + "1" + "d" * 40 + "0")
    lines = capsys.readouterr().out.splitlines()
    assert max(len(line.rstrip()) for line in lines) <= 40
    said = " ".join(" ".join(lines).split())
    assert "What backs up, so that water comes up or stands there?" in said
    assert "Not listed? At the end draw it, key x." in " ".join(said.split())
    assert "opening: floor cleanout" in said


# -- where nobody can be asked ------------------------------------------------------------------
