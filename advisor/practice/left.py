"""How many drills and pushes were left: one that was left does not come again, for its answers are known."""

from __future__ import annotations

import os
from datetime import UTC, datetime
from pathlib import Path

from advisor.errors import BadInput, Fault

FILE = "practice-left"


def beside(log: Path) -> Path:
    """Where the count stands for a review log: one line for each that was left."""
    return log.with_name(FILE)


def count_left(log: Path) -> int:
    """How many were left so far; raises BadInput."""
    path = beside(log)
    try:
        return path.read_bytes().count(b"\n") if path.is_file() else 0
    except OSError as fault:
        raise BadInput([Fault(str(path), 0, f"cannot be read: {fault.strerror}")]) from None


def add_left(log: Path, at: datetime) -> None:
    """One more, on disk when this returns; raises BadInput."""
    path = beside(log)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("ab") as file:
            file.write(f"{at.astimezone(UTC).isoformat()}\n".encode())
            file.flush()
            os.fsync(file.fileno())
    except OSError as fault:
        raise BadInput([Fault(str(path), 0, f"cannot be written: {fault.strerror}")]) from None
