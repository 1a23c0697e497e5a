"""The table of a batch on disk: a line is added as each sheet is done, so a cut-off loses one line."""

from __future__ import annotations

import csv
import io
import os
from pathlib import Path

from advisor.batch.row import COLUMNS, Row
from advisor.errors import BadInput, Fault, cell


class Table:
    """A CSV file that grows; raises BadInput where it is not ours or cannot be written."""

    def __init__(self, path: Path) -> None:
        self.path = path
        rows = _rows(path)
        self._last = {row["sheet"]: row["content"] for row in rows if row["result"] != "failed"}
        try:
            self._file = path.open("a", encoding="utf-8", newline="")
            if self._file.tell() == 0:
                self._write(COLUMNS)
        except OSError as fault:
            raise BadInput([Fault(str(path), 0, f"cannot be written: {fault.strerror}")]) from None

    def content_of(self, sheet: str) -> str | None:
        """The content with which a sheet was planned last; nothing where it was not, or failed."""
        return self._last.get(cell(sheet))

    def add(self, row: Row) -> None:
        """One more line, on disk when this returns."""
        self._write(tuple(getattr(row, name) for name in COLUMNS))

    def close(self) -> None:
        """Nothing more is added."""
        self._file.close()

    def _write(self, fields: tuple[str, ...]) -> None:
        line = io.StringIO()
        csv.writer(line, lineterminator="\n").writerow([cell(field) for field in fields])
        try:
            self._file.write(line.getvalue())
            self._file.flush()
            os.fsync(self._file.fileno())
        except OSError as fault:
            what = f"cannot be written: {fault.strerror}; what is there stays, run the same command to go on"
            raise BadInput([Fault(str(self.path), 0, what)]) from None


def _rows(path: Path) -> list[dict[str, str]]:
    """What an earlier run has left; half a last line is cut off."""
    if not path.exists():
        return []
    try:
        data = path.read_bytes()
        whole = data[: data.rfind(b"\n") + 1]
        if whole != data:
            os.truncate(path, len(whole))
    except OSError as fault:
        raise BadInput([Fault(str(path), 0, f"cannot be read: {fault.strerror}")]) from None
    lines = list(csv.reader(io.StringIO(whole.decode("utf-8", "replace"))))
    if lines and tuple(lines[0]) != COLUMNS:
        message = "this is another table; expected a new file, or one that an earlier run began"
        raise BadInput([Fault(str(path), 1, message)])
    return [dict(zip(COLUMNS, line, strict=True)) for line in lines[1:] if len(line) == len(COLUMNS)]
