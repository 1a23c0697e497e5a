"""A fault told on a terminal breaks between words; into a file or a pipe it goes as one line."""

from __future__ import annotations

import io

import pytest

from advisor.cli import main

WORDS = "birch-lan-14: there is no such file or folder of a job; a new job begins with: advisor ask"


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize("columns", [40, 80])
@pytest.mark.parametrize(
    "given",
    [
        ["plan", "birch-lan-14"],
        ["check", "birch-lan-14"],
        ["plan", "--a-way-that-there-is-none-of"],
    ],
)
def test_on_a_terminal_no_word_of_a_fault_is_cut(tmp_path, monkeypatch, given, columns):
    """`a new job begins with: a / dvisor ask` was what a terminal of 80 columns made of it."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", str(columns))
    told = {}
    for stream in (io.StringIO(), Terminal()):
        monkeypatch.setattr("sys.stderr", stream)
        with pytest.raises(SystemExit) as ended:
            main(given)
        assert ended.value.code == 2
        told[type(stream)] = stream.getvalue().rstrip("\n")
    rows = told[Terminal].split("\n")
    assert all(len(row) <= columns or " " not in row.strip() for row in rows)
    assert " ".join(told[Terminal].split()) == " ".join(told[io.StringIO].split()), "no word is cut or lost"
    if given == ["plan", "birch-lan-14"]:
        assert told[io.StringIO] == WORDS
