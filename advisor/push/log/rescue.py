"""What can still be read of a damaged log, as a new log; the damaged one is left as it is."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing, suppress
from pathlib import Path

from advisor.errors import BadInput, Fault
from advisor.push.log.log import Log, readable


def rescue(path: Path, out: Path) -> int:
    """Put the first entries, as far as they are as they were written, into a new log; how many they are."""
    if out.exists():
        raise BadInput([Fault(str(out), 0, "it is there already; choose another name")])
    if not path.is_file():
        raise BadInput([Fault(str(path), 0, "there is no log to rescue")])
    rows = readable(_rows(path))
    new = Log.open(out)
    try:
        new.copied(rows)
    finally:
        new.close()
    return len(rows)


def _rows(path: Path) -> list[tuple[object, ...]]:
    """The entries up to where the file cannot be read on."""
    rows: list[tuple[object, ...]] = []
    waiting = Path(f"{path}-wal")
    how = "mode=rw" if waiting.exists() and os.access(path, os.W_OK) else "immutable=1"
    # Faults are what is expected here: what came before them is what there is.
    with (
        suppress(sqlite3.Error),
        closing(sqlite3.connect(f"{path.absolute().as_uri()}?{how}", uri=True)) as db,
    ):
        for row in db.execute("SELECT * FROM entry ORDER BY number"):
            rows.append(row)
    return rows
