"""A log that was damaged: told and left, and what can still be read of it."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from advisor.errors import BadInput
from advisor.push.log.log import Log, readable
from advisor.push.log.rescue import rescue
from tests.push import test_log as others
from tests.push.test_log import at

log = others.log  # a fixture


def filled(path: Path, entries: int) -> None:
    log = Log.open(path)
    for i in range(entries):
        log.append("note", float(i), {"text": f"note {i} " + "x" * 300}, at(i))
    log.close()


def test_a_file_cut_at_any_length_is_told_and_left(tmp_path):
    """Every length of the file, page by page in steps of 61 bytes: never fewer entries in silence."""
    path = tmp_path / "whole.db"
    filled(path, 30)
    whole = path.read_bytes()
    for length in [*range(0, len(whole), 61), len(whole) - 1]:
        cut = tmp_path / "cut.db"
        cut.write_bytes(whole[:length])
        for how in (Log.open, Log.read):
            with pytest.raises(BadInput, match=r"damaged|not a log|cannot be"):
                how(cut)
        assert cut.read_bytes() == whole[:length], "left as it is"
        for extra in tmp_path.glob("cut.db-*"):
            extra.unlink()


def test_what_waits_beside_the_file_cut_at_any_length_gives_the_entries_before(tmp_path):
    """SQLite keeps new entries in the file beside it first; a torn end loses the torn entry only."""
    path = tmp_path / "log.db"
    log = Log.open(path)
    sizes = [0]
    for i in range(12):
        log.append("note", float(i), {"text": f"note {i}"}, at(i))
        sizes.append(Path(f"{path}-wal").stat().st_size)
    main_file, waiting = path.read_bytes(), Path(f"{path}-wal").read_bytes()
    log.close()
    for length in range(0, len(waiting) + 1, 97):
        copy = tmp_path / f"copy-{length}.db"
        copy.write_bytes(main_file)
        Path(f"{copy}-wal").write_bytes(waiting[:length])
        opened = Log.open(copy)
        count = len(opened.entries())
        opened.close()
        assert count == max(i for i, size in enumerate(sizes) if size <= length)


def test_every_changed_bit_is_told_or_does_no_harm(tmp_path):
    path = tmp_path / "whole.db"
    filled(path, 6)
    true = Log.read(path).entries()
    whole = path.read_bytes()
    for place in range(0, len(whole), 151):
        changed = bytearray(whole)
        changed[place] ^= 1 << (place % 8)
        copy = tmp_path / "changed.db"
        copy.write_bytes(changed)
        try:
            log = Log.open(copy)
            assert log.entries() == true, f"byte {place}"
            log.close()
        except BadInput:
            pass
        for extra in tmp_path.glob("changed.db*"):
            extra.unlink()


def test_bytes_where_text_was_are_no_entry(tmp_path):
    """As a wound in the page of a file can leave them (found by the long fuzz)."""
    path = tmp_path / "log.db"
    filled(path, 3)
    with sqlite3.connect(path) as raw:
        rows = raw.execute("SELECT * FROM entry ORDER BY number").fetchall()
    raw.close()
    assert readable(rows) == rows
    rows[1] = (*rows[1][:3], rows[1][3].encode(), *rows[1][4:])
    assert readable(rows) == rows[:1]


def test_rescue_gives_the_entries_before_the_damage(tmp_path):
    path = tmp_path / "log.db"
    filled(path, 40)
    true = Log.read(path).entries()
    data = bytearray(path.read_bytes())
    place = data.index(b"note 31 ")
    data[place : place + 8] = b"note 99 "
    path.write_bytes(data)
    with pytest.raises(BadInput, match="only 31 of 40 entries"):
        Log.open(path)
    assert rescue(path, tmp_path / "new.db") == 31
    assert Log.open(tmp_path / "new.db").entries() == true[:31]
    assert path.read_bytes() == bytes(data)
    with pytest.raises(BadInput, match="there already"):
        rescue(path, tmp_path / "new.db")


@pytest.mark.parametrize("content", [b"", b"not a log", b"SQLite format 3\0" + b"\0" * 100])
def test_a_file_that_is_no_log_is_left(tmp_path, content):
    (tmp_path / "log.db").write_bytes(content)
    with pytest.raises(BadInput, match=r"damaged|not a log"):
        Log.open(tmp_path / "log.db")
    assert (tmp_path / "log.db").read_bytes() == content


def test_anothers_or_a_later_file_is_left(tmp_path):
    other = sqlite3.connect(tmp_path / "log.db")
    other.execute("CREATE TABLE t (x)")
    other.close()
    with pytest.raises(BadInput, match="not a log of pushes"):
        Log.open(tmp_path / "log.db")
    filled(tmp_path / "later.db", 1)
    later = sqlite3.connect(tmp_path / "later.db")
    later.execute("PRAGMA user_version = 2")
    later.close()
    with pytest.raises(BadInput, match="version 2"):
        Log.open(tmp_path / "later.db")


def test_a_log_that_is_gone_while_its_companion_is_there_is_not_made_anew(tmp_path):
    (tmp_path / "log.db-wal").write_bytes(b"x")
    with pytest.raises(BadInput, match="it is gone"):
        Log.open(tmp_path / "log.db")
    assert not (tmp_path / "log.db").exists()
    with pytest.raises(BadInput, match="cannot be made"):
        Log.open(tmp_path / "no folder" / "log.db")
    with pytest.raises(BadInput, match="no log yet"):
        Log.read(tmp_path / "none.db")
