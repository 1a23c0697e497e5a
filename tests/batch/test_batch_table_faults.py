"""A batch's table that cannot be read or written: one line says so, and what is there stays."""

from __future__ import annotations

import errno
import os

import pytest

from advisor.batch.row import COLUMNS
from advisor.batch.table import Table
from advisor.errors import BadInput

HEAD = ",".join(COLUMNS) + "\n"


def told(fault: BaseException) -> str:
    assert isinstance(fault, BadInput)
    return str(fault)


def test_a_folder_in_the_place_of_the_table(tmp_path):
    with pytest.raises(BadInput) as caught:
        Table(tmp_path)
    assert "cannot be read" in told(caught.value)
    with pytest.raises(BadInput) as caught:
        Table(tmp_path / "none" / "out.csv")
    assert "cannot be written" in told(caught.value)


def test_a_full_disk_keeps_the_lines_before_it_and_says_how_to_go_on(tmp_path, monkeypatch):
    path = tmp_path / "out.csv"
    path.write_text(HEAD + "half a line")
    table = Table(path)
    assert path.read_text() == HEAD  # the half line of a run that was cut off is gone

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(BadInput) as caught:
        table._write(("x",))
    assert "run the same command to go on" in told(caught.value)
    assert os.strerror(errno.ENOSPC) in told(caught.value)
    monkeypatch.undo()
    table.close()
    assert path.read_text().startswith(HEAD)
