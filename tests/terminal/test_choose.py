"""Asking by one key and by one line, through prompt_toolkit's own pipe input."""

from __future__ import annotations

from contextlib import contextmanager

import pytest
from prompt_toolkit.application import create_app_session
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output import DummyOutput

from advisor.errors import BadInput
from advisor.terminal.choose import BACK, DONT_KNOW, Choice, choose, need_terminal, type_in, yes_no
from advisor.terminal.page import Page

MORE = (DONT_KNOW, BACK)


@contextmanager
def typed(text: str):
    with create_pipe_input() as keys, create_app_session(input=keys, output=DummyOutput()):
        keys.send_text(text + "\x15\x04")  # a session that wants more keys ends, and its test fails
        yield


class Screen(DummyOutput):
    """Keeps what is written below a question, where a refused key is told."""

    written = ""

    def write(self, data: str) -> None:
        self.written += data


ONE_TWO = (Choice("1", "as a page"), Choice("2", "as text"))


@pytest.mark.parametrize(
    ("keys", "chosen"), [("1", "1"), ("2", "2"), ("d", "d"), ("D", "d"), ("xyz\r2", "2"), ("\x1b[B1", "1")]
)
def test_one_key_is_an_answer_and_others_are_not(keys, chosen, capsys):
    with typed(keys):
        assert choose(Page(), "The card?", ONE_TWO, MORE) == chosen
    said = capsys.readouterr().out
    for words in ("The card?", "1  as a page", "2  as text", "d don't know"):
        assert words in said


@pytest.mark.parametrize(
    ("keys", "chosen"),
    [("y", "y"), ("1", "y"), ("Y", "y"), ("n", "n"), ("2", "n"), ("d", "d"), ("?", "d"), ("30b", "b")],
)
def test_yes_and_no_are_letters_or_numbers_and_not_knowing_has_its_own_key(keys, chosen, capsys):
    with typed(keys):
        assert choose(Page(), "Is it holding?", yes_no(no="no, it drains away", digits=True), MORE) == chosen
    said = capsys.readouterr().out
    for words in ("y  yes", "n  no, it drains away", "d don't know"):
        assert words in said


def test_two_choices_never_share_a_key():
    with pytest.raises(AssertionError, match="share a key"):
        choose(Page(), "Which?", (*yes_no(digits=True), Choice("1", "the first of them")))


def test_a_number_typed_where_one_was_refused_is_no_yes():
    """`Is 161 right?` answered by the right number, 16.1: its first digit is nobody's yes."""
    with typed("16.1\rn"):
        assert choose(Page(), "Is 161 ft right?", yes_no()) == "n"


@pytest.mark.parametrize(("key", "raised"), [("\x03", KeyboardInterrupt), ("\x04", EOFError)])
def test_breaking_off_is_told_to_whoever_asked(key, raised):
    with typed(key), pytest.raises(raised):
        choose(Page(), "Is it holding?", yes_no())
    with typed(key), pytest.raises(raised):
        type_in(Page(), "How long?", lambda _: None)


def test_a_line_is_asked_for_until_it_is_right(capsys):
    with typed("twelve\r" + "12 ft\r"):
        given = type_in(Page(), "How long?", lambda text: None if "ft" in text else "expected 12 ft")
    assert given == "12 ft"
    assert "expected 12 ft" in capsys.readouterr().out


@pytest.mark.parametrize(("keys", "given"), [("12\r", "12 ft"), ("12 m\r", "12 m"), ("\r", "")])
def test_a_number_alone_is_taken_in_the_unit_that_is_named_and_read_back(keys, given, capsys):
    with typed(keys):
        assert type_in(Page(), "How long?", lambda _: None, unit="ft") == given
    said = capsys.readouterr().out
    assert "How long? (ft)" in said
    assert ("> 12 ft" in said) == (keys == "12\r"), "only what was made of it is read back"


@pytest.mark.parametrize(("keys", "given"), [("\x1b", None), ("abc\x1b", None), ("\r", ""), ("  \r", "")])
def test_escape_goes_back_and_nothing_is_the_empty_answer(keys, given, capsys):
    with typed(keys):
        assert type_in(Page(), "How long?", lambda _: "never asked", "not known") == given
    assert "Empty: not known. Esc: back." in capsys.readouterr().out


def test_escape_at_one_key_is_back_where_there_is_one_and_nothing_where_there_is_none(capsys):
    with typed("\x1b"):
        assert choose(Page(), "The card?", ONE_TWO, MORE) == BACK.key
    with create_pipe_input() as keys, create_app_session(input=keys, output=Screen()) as session:
        keys.send_text("\x1b1\x04")
        assert choose(Page(), "The card?", ONE_TWO, (DONT_KNOW,)) == "1"
    assert "press one of" not in session.output.written


def test_what_must_be_said_is_not_skipped():
    with typed("\rname\r"):
        given = type_in(Page(), "Name?", lambda text: None if text else "say something", empty=None)
    assert given == "name"


def test_hostile_words_are_shown_escaped(capsys):
    with typed("1"):
        choose(Page(), "[bold]\x1b[31m", (Choice("1", "\u202eyes"),))
    said = capsys.readouterr().out
    assert "[bold]\\u001b[31m" in said
    assert "\\u202eyes" in said


def test_narrow_screen_holds_every_word(capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "40")
    with typed("y"):
        choose(
            Page(), "Is water standing anywhere at all in the building, as far as you see?", yes_no(), MORE
        )
    lines = capsys.readouterr().out.splitlines()
    assert all(len(line.rstrip()) <= 40 for line in lines)
    assert "as far as you see?" in " ".join(" ".join(lines).split())


def test_without_a_terminal_one_line_says_what_to_do():
    with pytest.raises(BadInput, match="use --answers FILE"):
        need_terminal("use --answers FILE")
