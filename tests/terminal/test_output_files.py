"""Files are written only where asked, whole or not at all, and never in place of another one unasked."""

from __future__ import annotations

import errno
import os
import shutil
from datetime import UTC, datetime
from pathlib import Path

import pytest

from advisor import demo
from advisor.cli import main
from advisor.push.log.log import Log

KEPT = b"somebody else's work\n"
# Each command that writes a file, and whether it may be told to replace one.
WRITES = {
    "card.pdf": (["card", "job", "--worlds", "100", "-o", "{out}"], True),
    "card.txt": (["card", "job", "--worlds", "100", "-o", "{out}"], True),
    "report.html": (["report", "job", "--worlds", "100", "-o", "{out}"], True),
    "log.csv": (["log", "job", "--csv", "-o", "{out}"], True),
    "log.json": (["log", "job", "--json", "-o", "{out}"], True),
    "rescued.db": (["log", "job", "--rescue", "{out}"], False),
}


@pytest.fixture(autouse=True)
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "job").mkdir()
    shutil.copy(demo.MAIN, tmp_path / "job" / "site.yaml")
    log = Log.open(tmp_path / "job" / "log.db")
    log.append("note", 1.0, {"text": "a note"}, datetime(2026, 3, 4, 12, tzinfo=UTC))
    log.close()
    monkeypatch.chdir(tmp_path)


def files() -> set[Path]:
    """All that is there, but for what SQLite keeps beside a log while it is read."""
    return {path for path in Path().rglob("*") if not path.name.startswith("log.db-")}


def run(name: str, out: str, *more: str) -> int:
    return ended([*(part.format(out=out) for part in WRITES[name][0]), *more])


def ended(command: list[str]) -> int:
    with pytest.raises(SystemExit) as end:
        main(command)
    assert isinstance(end.value.code, int)
    return end.value.code


def one_line(capsys: pytest.CaptureFixture[str], *words: str) -> None:
    told = capsys.readouterr().err.splitlines()
    assert len(told) == 1
    for word in words:
        assert word in told[0]


@pytest.mark.parametrize("name", WRITES)
def test_it_is_written_where_asked_and_nowhere_else(name):
    before = files()
    assert run(name, name) == 0
    assert files() - before == {Path(name)}
    assert Path(name).stat().st_size > 50


@pytest.mark.parametrize("name", WRITES)
def test_what_is_there_stays(name, capsys):
    Path(name).write_bytes(KEPT)
    assert run(name, name) == 2
    one_line(capsys, name, "there already")
    assert Path(name).read_bytes() == KEPT


@pytest.mark.parametrize("name", [name for name, (_, force) in WRITES.items() if force])
def test_force_replaces_it(name):
    Path(name).write_bytes(KEPT)
    assert run(name, name, "--force") == 0
    assert Path(name).read_bytes() != KEPT


@pytest.mark.parametrize("name", WRITES)
def test_no_such_folder(name, capsys):
    assert run(name, f"nowhere/{name}") == 2
    one_line(capsys, "nowhere", "cannot be")


@pytest.mark.parametrize("name", [name for name in WRITES if name != "rescued.db"])
@pytest.mark.parametrize("forced", [True, False])
def test_a_full_disk_leaves_what_was_there_and_no_piece_of_the_new(name, forced, monkeypatch, capsys):
    if forced:
        Path(name).write_bytes(KEPT)
    before = files()

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", full)
        assert run(name, name, *(["--force"] if forced else [])) == 2
    one_line(capsys, name, "No space left")
    assert files() == before
    if forced:
        assert Path(name).read_bytes() == KEPT


@pytest.mark.parametrize(
    ("command", "told"),
    [
        (["card", "job", "--worlds", "100", "-o", "-"], "ROUTE (COUNTER READING)"),
        (["log", "job", "--csv", "-o", "-"], "a note"),
        (["report", "job", "--worlds", "100", "-o", "-"], "IN SHORT"),
    ],
)
def test_a_dash_is_the_screen_and_no_file(command, told, capsys):
    before = files()
    assert ended(command) == 0
    assert told in capsys.readouterr().out
    assert files() == before


def test_a_table_that_grows_is_no_screen(capsys):
    before = files()
    assert ended(["batch", "job", "-o", "-"]) == 2
    assert "expected the name of one, such as OUT.csv" in capsys.readouterr().err
    assert files() == before
