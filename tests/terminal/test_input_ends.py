"""The input ends at a question: one line says what was kept and how to go on; 130 that it was not finished.

130 is what shells give for broken off by the keyboard (128 and the number of the signal, 2); an input that
ends breaks off just so.
"""

from __future__ import annotations

import pytest

from advisor import demo
from advisor.cli import main
from tests.terminal.test_choose import typed

END = "\x04"


@pytest.fixture(autouse=True)
def away(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("PUSH_ADVISOR_HOME", str(tmp_path / "own"))
    for module in ("kit_command", "ask_command"):
        monkeypatch.setattr(f"advisor.terminal.{module}.need_terminal", lambda _: None)
    monkeypatch.setattr("advisor.terminal.choose.need_terminal", lambda _: None)
    return tmp_path


def ended(capsys, keys: str, *given: str) -> str:
    """The one line that is told."""
    with typed(keys + END), pytest.raises(SystemExit) as end:
        main([*given])
    assert end.value.code == 130
    line = capsys.readouterr().err
    assert line.count("\n") == 1
    return line.strip()


def test_a_kit_that_is_told(away, capsys):
    told = ended(capsys, "my van\r", "kit", "new")
    assert told == "The input has ended. Nothing was written. Begin again with: advisor kit new"
    assert not list(away.rglob("kit.yaml"))


def test_questions_before_there_is_a_job(away, capsys):
    told = ended(capsys, "2", "ask")
    assert told == "The input has ended. No job was begun. Begin again with: advisor ask"


def test_questions_of_a_job(away, capsys):
    told = ended(capsys, "2" + "alder row 9\r" + "2", "ask")
    assert told == "The input has ended. Every answer is kept. Go on with: advisor ask alder-row-9"
    assert "answer: britain" in (away / "alder-row-9" / "answers.yaml").read_text()


@pytest.mark.parametrize(
    ("keys", "kept"),
    [
        ("", "No push was begun. Begin with: advisor push {}"),
        ("nn11ys\r\r", "All that was told is in the log. Go on with: advisor push {}"),
    ],
)
@pytest.mark.parametrize(("end", "says"), [(END, "The input has ended. "), ("\x03", "Broken off. ")])
def test_a_push(away, capsys, keys, kept, end, says):
    (away / "site.yaml").write_text(demo.MAIN.read_text())
    (away / "kit.yaml").write_text(demo.KIT.read_text())
    with typed(keys + end), pytest.raises(SystemExit) as code:
        main(["push", str(away), "--worlds", "100"])
    assert code.value.code == 130
    said = " ".join(" ".join(capsys.readouterr()).split())
    assert said.endswith(says + kept.format(away))


@pytest.mark.parametrize("keys", ["", *(pytest.param(keys, marks=pytest.mark.slow) for keys in ("1", "11"))])
def test_practice(away, capsys, keys):
    told = ended(capsys, keys, "practice", "hands", "--seed", "3")
    assert told == (
        "The input has ended. What was finished is kept, what was not does not count. Go on with: "
        "advisor practice"
    )
