"""Every step of writing fails once: the entries before stay, the failed one is told and does not count.

What is failed: each call to the database in turn (begin, reading the last entry, insert, commit, and each
pragma and query of opening), each call to the system while a log is made (opening it, connecting, file sync,
link, folder sync), a full disk by a limit on the size of files, a folder and a file that may not be written,
and kill -9. Calls inside SQLite are failed by tests/bench/log_calls.py; loss of power is not tested.
"""

from __future__ import annotations

import os
import resource
import sqlite3
import stat
import subprocess
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest

from advisor.errors import BadInput
from advisor.push.log import log_file
from advisor.push.log.log import Log
from tests.bench.log_kills import ROOT, kill_writers

NOON = datetime(2026, 3, 4, 12, tzinfo=UTC)
KINDS_OF_FAULT = [
    sqlite3.OperationalError("disk I/O error"),
    sqlite3.OperationalError("database or disk is full"),
    sqlite3.DatabaseError("database disk image is malformed"),
    OSError(5, "Input/output error"),
]


class Failing:
    """A connection whose n-th `execute` raises, before or after it is done."""

    def __init__(self, real: sqlite3.Connection, at: int, fault: Exception, after: bool) -> None:
        self.real, self.left, self.fault, self.after = real, at, fault, after

    def execute(self, *given: object) -> sqlite3.Cursor:
        self.left -= 1
        if self.left == 0:
            if self.after and not str(given[0]).startswith("COMMIT"):
                self.real.execute(*given)  # type: ignore[arg-type]
            raise self.fault
        return self.real.execute(*given)  # type: ignore[arg-type]

    def close(self) -> None:
        self.real.close()


def note(log: Log, i: int) -> None:
    log.append("note", float(i), {"text": f"note {i}"}, NOON)


def refused(what: Callable[[], None]) -> str:
    """The one line that it is refused with; empty where it is not."""
    try:
        what()
    except BadInput as told:
        line = str(told)
    else:
        return ""
    assert "\n" not in line
    return line


def texts(path: Path) -> list[object]:
    log = Log.open(path)
    try:
        return [entry.data.get("text") for entry in log.entries()]
    finally:
        log.close()


@pytest.mark.parametrize("after", [False, True], ids=["before", "after"])
@pytest.mark.parametrize("fault", KINDS_OF_FAULT, ids=str)
def test_every_call_of_an_append_fails_once(tmp_path, fault, after):
    path = tmp_path / "log.db"
    log = Log.open(path)
    note(log, 0)
    kept, at, failed = ["note 0"], 1, 0
    while True:
        real = log._db
        log._db = Failing(real, at, fault, after)
        told = refused(lambda i=at: note(log, i))
        if told:
            assert told.startswith(f"{path}: ")
            failed += 1
            log._db = real
            assert [e.data["text"] for e in log.entries()] == kept, f"call {at}"
            assert texts(path) == kept, "another reader sees the same"
            note(log, 100 + at)  # the same log goes on
            kept.append(f"note {100 + at}")
        else:
            log._db = real
            break
        at += 1
    assert failed == 4, "begin, last entry, insert, commit"


@pytest.mark.parametrize("fault", KINDS_OF_FAULT, ids=str)
def test_every_call_of_opening_fails_once(tmp_path, monkeypatch, fault):
    path = tmp_path / "log.db"
    log = Log.open(path)
    note(log, 0)
    log.close()
    whole = path.read_bytes()
    at, real_connected = 1, log_file.connected
    while True:
        monkeypatch.setattr(
            "advisor.push.log.log.connected",
            lambda p, how, n=at: Failing(real_connected(p, how), n, fault, False),
        )
        if not refused(lambda: Log.open(path).close()):
            break
        assert path.read_bytes() == whole
        at += 1
    assert at > 5
    monkeypatch.undo()
    assert texts(path) == ["note 0"]


@pytest.mark.parametrize("call", ["link", "fsync", "fsync 2", "open", "connect"])
def test_every_call_of_making_a_log_fails_once(tmp_path, monkeypatch, call):
    """After a fault there is no log, or a whole one; the next opening works."""
    path = tmp_path / "log.db"
    left = 2 if call.endswith("2") else 1
    real = getattr(os, call.split()[0], os.fsync)

    def fail(*given: object, **_: object) -> None:
        nonlocal left
        left -= 1
        if left:
            return real(*given)
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        if call == "connect":
            patched.setattr(log_file.sqlite3, "connect", fail)
        else:
            patched.setattr(log_file.os, call.split()[0], fail)
        with pytest.raises(BadInput, match="cannot be made: No space left on device"):
            Log.open(path)
    assert texts(path) == []
    assert [p.name for p in tmp_path.iterdir()] == ["log.db"], "nothing is left lying about"


@pytest.mark.parametrize("how", [Log.open, Log.read])
def test_a_system_that_cannot_tell_whether_there_is_a_log_makes_none(tmp_path, monkeypatch, how):
    def fail(*_: object, **__: object) -> None:
        raise OSError(5, "Input/output error")

    with monkeypatch.context() as patched:
        patched.setattr(Path, "stat", fail)
        patched.setattr(Path, "exists", fail)
        with pytest.raises(BadInput, match="cannot be opened: Input/output error"):
            how(tmp_path / "log.db")
    assert not (tmp_path / "log.db").exists()


def test_the_name_is_given_after_the_content_is_on_disk(tmp_path, monkeypatch):
    """Write, sync the file, give it its name, sync the folder: in this order, for a loss of power."""
    done: list[str] = []
    real_fsync, real_link = os.fsync, os.link

    def fsync(handle: int) -> None:
        done.append("sync folder" if stat.S_ISDIR(os.fstat(handle).st_mode) else "sync file")
        real_fsync(handle)

    def link(*given: object) -> None:
        done.append("name")
        real_link(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(log_file.os, "fsync", fsync)
    monkeypatch.setattr(log_file.os, "link", link)
    Log.open(tmp_path / "log.db").close()
    assert done == ["sync file", "name", "sync folder"]


IN_CHILD = """
import os, resource, signal, sys
from datetime import UTC, datetime
from pathlib import Path
from advisor.errors import BadInput
from advisor.push.log.log import Log
path, what = Path(sys.argv[1]), sys.argv[2]
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)  # a write beyond the limit then fails as on a full disk
if what == "full":
    log = Log.open(path)
    used = Path(str(path) + "-wal").stat().st_size if Path(str(path) + "-wal").exists() else 0
    resource.setrlimit(resource.RLIMIT_FSIZE, (used + int(sys.argv[3]),) * 2)
else:
    os.setgid(65534); os.setuid(65534)
try:
    if what != "full":
        log = Log.open(path)
    for i in range(100):
        log.append("note", float(i), {"text": f"note {i} " + "x" * 500}, datetime(2026, 3, 4, 12, tzinfo=UTC))
        print("!", i, flush=True)
except BadInput as fault:
    print(fault, flush=True)
"""


def child(path: Path, *what: str) -> list[str]:
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        [sys.executable, "-c", IN_CHILD, str(path), *what], capture_output=True, text=True, env=environment
    )
    assert done.stderr == ""
    return done.stdout.splitlines()


@pytest.mark.parametrize("room", [0, 1000, 5000, 20_000, 60_000])
def test_a_full_disk_loses_nothing_that_was_acknowledged(tmp_path, room):
    assert resource.RLIMIT_FSIZE
    path = tmp_path / "log.db"
    log = Log.open(path)
    log.append("note", None, {"text": "before"}, NOON)
    log.close()
    said = child(path, "full", str(room))
    assert "cannot be written: " in said[-1]
    assert "the entries before stay" in said[-1]
    there = texts(path)
    assert there[0] == "before"
    assert len(there) == len(said), "the one before and each that was acknowledged"


@pytest.mark.skipif(os.geteuid() != 0, reason="only root can become another user")
@pytest.mark.parametrize("rights", [(0o755, 0o644), (0o777, 0o444), (0o755, 0o666)])
def test_what_may_not_be_written_is_told_and_kept(tmp_path, rights):
    for folder in (tmp_path, *tmp_path.parents):
        if folder.is_relative_to("/tmp") and folder != Path("/tmp"):
            folder.chmod(0o755)
    job = tmp_path / "job"
    job.mkdir()
    path = job / "log.db"
    log = Log.open(path)
    note(log, 0)
    log.close()
    job.chmod(rights[0])
    path.chmod(rights[1])
    whole = path.read_bytes()
    said = child(path, "read only")
    assert len(said) == 1
    assert said[0].startswith(f"{path}: cannot be ")
    assert path.read_bytes() == whole
    assert texts(path) == ["note 0"]


def test_killed_writers_lose_nothing_and_invent_nothing(tmp_path):
    """20 here; the figure of 3,000 is that of tests.bench.log_kills."""
    result = kill_writers(20, 7, tmp_path)
    assert result.kills == 20
    assert result.acknowledged > 0
    assert (result.lost, result.invented, result.doubled) == ([], [], 0)
