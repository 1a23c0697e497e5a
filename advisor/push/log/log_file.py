"""The file of a log: made whole, opened, and its faults put into words."""

from __future__ import annotations

import os
import sqlite3
import tempfile
from contextlib import suppress
from pathlib import Path

from advisor.errors import BadInput, Fault

VERSION = 1
OURS = 0x70757368  # marks the file as a push log in SQLite's own header
_WAIT = 10.0  # s that one terminal waits for another
_SCHEMA = f"""
CREATE TABLE entry (
    number INTEGER PRIMARY KEY, told_at TEXT NOT NULL, happened_at TEXT NOT NULL, kind TEXT NOT NULL,
    counter REAL, data TEXT NOT NULL, digest TEXT NOT NULL
) STRICT;
CREATE TRIGGER only_added_u BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entries are only added'); END;
CREATE TRIGGER only_added_d BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'entries are only added'); END;
CREATE TRIGGER in_order BEFORE INSERT ON entry
WHEN NEW.number IS NOT (SELECT coalesce(max(number), 0) + 1 FROM entry)
BEGIN SELECT RAISE(ABORT, 'entries are only added'); END;
PRAGMA application_id = {OURS};
PRAGMA user_version = {VERSION};
"""


def is_there(path: Path) -> bool:
    """Whether there is a log; raises BadInput where the system cannot tell, for then none may be made."""
    try:
        return path.exists()
    except OSError as fault:
        raise BadInput([Fault(str(path), 0, words(fault, "opened"))]) from None


def connected(path: Path, how: str) -> sqlite3.Connection:
    """The file opened; raises BadInput."""
    try:
        # Transactions are begun by hand; a file that is not there is never made by opening it.
        return sqlite3.connect(
            f"{path.absolute().as_uri()}?{how}", uri=True, timeout=_WAIT, isolation_level=None
        )
    except sqlite3.Error as fault:
        raise BadInput([Fault(str(path), 0, words(fault, "opened"))]) from None


def make_log(path: Path) -> None:
    """An empty log, whole before it gets its name: a crash leaves no log or a sound one."""
    beside = [name for name in (f"{path}-wal", f"{path}-journal") if Path(name).exists()]
    if beside:
        message = f"it is gone, but {Path(beside[0]).name} is still there; expected both, put the log back"
        raise BadInput([Fault(str(path), 0, message)])
    try:
        with tempfile.TemporaryDirectory(prefix=".new-log-", dir=path.parent) as folder:
            new = Path(folder) / path.name
            db = sqlite3.connect(new, isolation_level=None)
            try:
                db.executescript(f"BEGIN; {_SCHEMA} COMMIT;")
                db.execute("PRAGMA journal_mode = WAL")
            finally:
                db.close()
            _synced(new)
            with suppress(FileExistsError):  # another terminal was first: its log is used
                os.link(new, path)
            _synced(path.parent)
    except (OSError, sqlite3.Error) as fault:
        raise BadInput([Fault(str(path), 0, words(fault, "made"))]) from None


def _synced(path: Path) -> None:
    """On disk, its name too where it is a folder; one common system cannot sync folders and need not."""
    if path.is_dir() and os.name == "nt":
        return
    handle = os.open(path, os.O_RDONLY if path.is_dir() else os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def words(fault: Exception, what: str) -> str:
    """The one line that a fault of the file is told by."""
    why = (fault.strerror or str(fault)) if isinstance(fault, OSError) else str(fault)
    code = getattr(fault, "sqlite_errorcode", None) or 0
    if code & 0xFF == sqlite3.SQLITE_BUSY:
        return "another program keeps it busy; nothing was written, try again"
    damaged = isinstance(fault, UnicodeDecodeError | sqlite3.DatabaseError)
    damaged &= not isinstance(fault, sqlite3.OperationalError)
    if damaged and what != "made":
        return (
            f"it is damaged ({why}) and is left as it is; what can be read: advisor log JOB --rescue NEW.db"
        )
    kept = "" if what == "made" else "; the entries before stay as they are"
    return f"cannot be {what}: {why}{kept}"
