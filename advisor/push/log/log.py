"""The log of a job's pushes: one SQLite file to which entries are only ever added.

An entry is on disk when `append` returns. Undoing is an entry too. Each entry carries the digest of itself
and of the one before, so that a changed or missing one is noticed. A damaged file is told and left as it is.
"""

from __future__ import annotations

import json
import os
import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path

from advisor.errors import BadInput, Fault
from advisor.push.log.kinds import END, START, UNDO, Value, entry_faults
from advisor.push.log.log_file import OURS, VERSION, connected, is_there, make_log, words


@dataclass(frozen=True)
class Entry:
    """One thing told beside the opening; lengths in m."""

    number: int
    told_at: datetime
    happened_at: datetime
    kind: str
    counter: float | None
    data: Mapping[str, Value]


def entry_text(entry: Entry, name: str) -> str | None:
    """What an entry says under a name, where it is text and not empty."""
    value = entry.data.get(name)
    return value if isinstance(value, str) and value.strip() else None


def entry_number(entry: Entry, name: str) -> float | None:
    """What an entry says under a name, where it is a number."""
    value = entry.data.get(name)
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None


class Log:
    """An open log; every method that touches the file raises BadInput where that fails."""

    def __init__(self, path: Path, connection: sqlite3.Connection) -> None:
        self.path = path
        self._db = connection

    @classmethod
    def open(cls, path: Path) -> Log:
        """The log of a job, made where there is none yet; what is damaged is never made anew."""
        if not is_there(path):
            make_log(path)
        log = cls(path, connected(path, "mode=rw"))
        with log._told("opened"):
            log._check()  # before anything is changed
            log._db.execute("PRAGMA journal_mode = WAL")
            log._db.execute("PRAGMA synchronous = FULL")
            log._db.execute("PRAGMA fullfsync = ON")
        return log

    @classmethod
    def read(cls, path: Path) -> Log:
        """The log to be read only; also where nothing may be written beside it."""
        if not is_there(path):
            raise BadInput([Fault(str(path), 0, "there is no log yet; `advisor push` begins one")])
        waiting = Path(f"{path}-wal")
        sealed = not os.access(path.parent, os.W_OK) and not (waiting.exists() and waiting.stat().st_size)
        log = cls(path, connected(path, "immutable=1" if sealed else "mode=ro"))
        with log._told("read"):
            log._check()
        return log

    def append(
        self,
        kind: str,
        counter: float | None,
        data: Mapping[str, Value],
        told_at: datetime,
        happened_at: datetime | None = None,
    ) -> Entry:
        """One more entry, on disk when this returns; raises BadInput, and then it does not count."""
        happened_at = happened_at or told_at
        wrong = entry_faults(kind, counter, data)
        if told_at.tzinfo is None or happened_at.tzinfo is None:
            raise ValueError("times of entries are told with their zone")
        if happened_at > told_at:
            wrong.append(f"{kind}: it happened after it was told; expected an earlier time")
        if wrong:
            raise BadInput([Fault(str(self.path), 0, fault) for fault in wrong])
        with self._told("written"), self._writing():
            last, digest = self._last()
            entry = Entry(
                last + 1,
                told_at.astimezone(UTC),
                happened_at.astimezone(UTC),
                kind,
                None if counter is None else float(counter),
                {name: value for name, value in data.items() if value is not None},
            )
            if kind == UNDO:
                self._may_undo(int(float(data["of"] or 0)))
            row = _row(entry)
            self._db.execute("INSERT INTO entry VALUES (?, ?, ?, ?, ?, ?, ?)", (*row, _digest(digest, row)))
        return entry

    def undo(self, number: int, told_at: datetime) -> Entry:
        """Take an entry back by a further one; to undo an undoing brings the entry back."""
        return self.append(UNDO, None, {"of": float(number)}, told_at)

    def entries(self) -> tuple[Entry, ...]:
        """Every entry, the undone ones and the undoings too, in the order in which they were told."""
        with self._told("read"):
            return tuple(_entry(row) for row in self._rows())

    def standing(self) -> tuple[Entry, ...]:
        """What holds: without the undone, in the order in which it happened."""
        return standing(self.entries())

    def copied(self, rows: list[tuple[object, ...]]) -> None:
        """Entries of another log, as they are there, into this one while it is empty."""
        with self._told("written"), self._writing():
            self._db.executemany("INSERT INTO entry VALUES (?, ?, ?, ?, ?, ?, ?)", rows)

    def close(self) -> None:
        """Nothing more is added."""
        self._db.close()

    # -- inside ---------------------------------------------------------------------------------

    def _rows(self) -> list[tuple[object, ...]]:
        return self._db.execute("SELECT * FROM entry ORDER BY number").fetchall()

    def _last(self) -> tuple[int, str]:
        row = self._db.execute("SELECT number, digest FROM entry ORDER BY number DESC LIMIT 1").fetchone()
        return (int(row[0]), str(row[1])) if row else (0, "")

    def _may_undo(self, number: int) -> None:
        entries = [_entry(row) for row in self._rows()]
        if not 1 <= number <= len(entries):
            raise BadInput([Fault(str(self.path), 0, f"there is no entry {number} to undo")])
        if number in undone(entries):
            raise BadInput([Fault(str(self.path), 0, f"entry {number} is undone already")])

    def _check(self) -> None:
        """Raises where this is another's file, of a later version, or damaged."""
        if not self.path.stat().st_size:
            raise sqlite3.DatabaseError("it is empty")
        if self._pragma("application_id") != OURS:
            raise BadInput([Fault(str(self.path), 0, "this is not a log of pushes; it is left as it is")])
        version = self._pragma("user_version")
        if version != VERSION:
            message = f"a log of version {version}; this program reads version {VERSION}"
            raise BadInput([Fault(str(self.path), 0, message)])
        sound = self._pragma("quick_check") == "ok"
        rows = self._rows()
        good = readable(rows)
        if not sound or len(good) != len(rows):
            raise sqlite3.DatabaseError(f"only {len(good)} of {len(rows)} entries are as they were written")

    def _pragma(self, name: str) -> object:
        return self._db.execute(f"PRAGMA {name}").fetchone()[0]

    @contextmanager
    def _writing(self) -> Iterator[None]:
        """One transaction, begun as the only writer and wholly undone by any fault."""
        try:
            self._db.execute("BEGIN IMMEDIATE")
            yield
            self._db.execute("COMMIT")
        except BaseException:
            # A full disk may have ended the transaction already.
            with suppress(sqlite3.Error):
                self._db.execute("ROLLBACK")
            raise

    @contextmanager
    def _told(self, what: str) -> Iterator[None]:
        try:
            yield
        except BadInput:
            if what != "written":
                self._db.close()
            raise
        except (sqlite3.Error, OSError, UnicodeDecodeError) as fault:
            if what != "written":
                self._db.close()
            raise BadInput([Fault(str(self.path), 0, words(fault, what))]) from None


def standing_in(path: Path) -> tuple[Entry, ...]:
    """The standing entries of a log; none where there is none, or none that can be read: `advisor log` tells
    of that."""
    with suppress(BadInput):
        if path.is_file():
            with closing(Log.read(path)) as log:
                return log.standing()
    return ()


def standing(entries: tuple[Entry, ...]) -> tuple[Entry, ...]:
    """The entries that hold, without the undone and the undoings, in the order in which they happened."""
    gone = undone(entries)
    held = (entry for entry in entries if entry.number not in gone and entry.kind != UNDO)
    return tuple(sorted(held, key=lambda entry: (entry.happened_at, entry.number)))


def open_push(entries: tuple[Entry, ...]) -> tuple[Entry, ...]:
    """The entries of the push that has begun and not ended, its start first; empty where there is none."""
    begun: list[Entry] = []
    for entry in entries:
        if entry.kind == START:
            begun = [entry]
        elif entry.kind == END:
            begun = []
        elif begun:
            begun.append(entry)
    return tuple(begun)


def undone(entries: tuple[Entry, ...] | list[Entry]) -> set[int]:
    """The numbers of the entries that are taken back. Only later ones undo, so the last is judged first."""
    gone: set[int] = set()
    for entry in sorted(entries, key=lambda entry: -entry.number):
        if entry.kind == UNDO and entry.number not in gone:
            gone.add(int(float(entry.data["of"] or 0)))
    return gone


def readable(rows: list[tuple[object, ...]]) -> list[tuple[object, ...]]:
    """The first rows up to where one is missing or is not as it was written."""
    good, before = [], ""
    for number, row in enumerate(rows, 1):
        if row[0] != number or row[6] != _digest(before, row[:6]):
            break
        good.append(row)
        before = str(row[6])
    return good


def _row(entry: Entry) -> tuple[object, ...]:
    data = json.dumps(dict(entry.data), sort_keys=True, allow_nan=False)
    told, happened = entry.told_at.isoformat(), entry.happened_at.isoformat()
    return entry.number, told, happened, entry.kind, entry.counter, data


def _entry(row: tuple[object, ...]) -> Entry:
    number, told, happened, kind, counter, data, _ = row
    told_at, happened_at = datetime.fromisoformat(str(told)), datetime.fromisoformat(str(happened))
    at = counter if isinstance(counter, float) else None
    return Entry(int(str(number)), told_at, happened_at, str(kind), at, json.loads(str(data)))


def _digest(before: str, row: tuple[object, ...]) -> str:
    # A damaged file may hold bytes where text was written; nothing that was written has their digest.
    return sha256(json.dumps([before, *row], default=repr).encode()).hexdigest()
