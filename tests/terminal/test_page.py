"""A page on terminals that lack a sign, that are very wide, or that are no terminal at all."""

from __future__ import annotations

import io

from advisor.terminal.page import WIDEST, Page


def ascii_out(monkeypatch) -> io.BytesIO:
    kept = io.BytesIO()
    monkeypatch.setattr("sys.stdout", io.TextIOWrapper(kept, encoding="ascii", write_through=True))
    return kept


def test_a_sign_that_is_missing_is_said_in_words_and_others_become_a_question_mark(monkeypatch):
    out = ascii_out(monkeypatch)
    Page().line("a 45° turn of 2×½ in → é")
    assert out.getvalue().decode("ascii").strip() == "a 45 deg turn of 2x1/2 in -> ?"


def test_a_box_without_line_signs_is_drawn_with_plain_ones(monkeypatch):
    out = ascii_out(monkeypatch)
    Page().boxed("danger", ["Gas."])
    told = out.getvalue().decode("ascii")
    assert "+" in told
    assert "DANGER" in told
    assert "Gas." in told
    assert "?" not in told


def test_no_line_is_wider_than_can_be_read(monkeypatch, capsys):
    monkeypatch.setenv("COLUMNS", "250")
    Page().line("word " * 200)
    assert max(len(line) for line in capsys.readouterr().out.splitlines()) <= WIDEST == 100


def test_a_stream_that_cannot_be_set_up_is_written_to_all_the_same(monkeypatch):
    out = io.StringIO()
    monkeypatch.setattr("sys.stdout", out)
    Page().line("told")
    assert out.getvalue().strip() == "told"
