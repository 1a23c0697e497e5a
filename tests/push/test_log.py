"""The log of pushes: durable, only added to, undone by entries, never made anew."""

from __future__ import annotations

import csv
import io
import json
import os
import sqlite3
import threading
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor import demo
from advisor.cli import main
from advisor.errors import BadInput
from advisor.push.log import log_file
from advisor.push.log.log import Log, standing, undone
from advisor.push.log.rescue import rescue
from advisor.push.report.export import csv_of, json_of

NOON = datetime(2026, 3, 4, 12, tzinfo=UTC)


def at(minutes: float) -> datetime:
    return NOON + timedelta(minutes=minutes)


@pytest.fixture
def log(tmp_path: Path):
    made = Log.open(tmp_path / "log.db")
    yield made
    made.close()


def test_what_is_added_is_there_for_the_next_reader_and_after_closing(log, tmp_path):
    told = log.append("start", None, {"opening": "yard cleanout", "direction": "unknown"}, at(0))
    second = log.append("sighting", 3.25, {"what": "tie-in", "clock": 9.0}, at(1))
    assert Log.read(tmp_path / "log.db").entries() == (told, second)
    log.close()
    assert Log.open(tmp_path / "log.db").entries() == (told, second)


def test_commits_wait_for_the_disk(log):
    assert log._pragma("journal_mode") == "wal"
    assert log._pragma("synchronous") == 2, "FULL in SQLite's documentation of the pragma"


def test_late_entries_stand_where_they_happened(log):
    log.append("start", None, {"opening": "a"}, at(0))
    log.append("note", 5.0, {"text": "second"}, at(20))
    log.append("note", 2.0, {"text": "told late"}, at(21), happened_at=at(10))
    assert [e.data.get("text") for e in log.standing()] == [None, "told late", "second"]
    assert [e.number for e in log.entries()] == [1, 2, 3]


def test_a_clock_set_back_keeps_the_order_of_telling(log):
    log.append("note", 1.0, {"text": "first"}, at(60))
    log.append("note", 2.0, {"text": "then"}, at(0))
    assert [e.data["text"] for e in log.entries()] == ["first", "then"]


def test_local_times_are_kept_in_utc(log):
    local = datetime(2026, 3, 4, 7, tzinfo=timezone(timedelta(hours=-5)))
    assert log.append("note", None, {"text": "x"}, local).told_at == NOON
    with pytest.raises(ValueError, match="zone"):
        log.append("note", None, {"text": "x"}, datetime(2026, 3, 4))
    with pytest.raises(BadInput, match="after it was told"):
        log.append("note", None, {"text": "x"}, at(0), happened_at=at(1))


def test_undo_is_an_entry_and_can_be_undone(log):
    first = log.append("note", 1.0, {"text": "a"}, at(0))
    before = log.standing()
    log.undo(1, at(1))
    assert log.standing() == ()
    log.undo(2, at(2))
    assert log.standing() == before == (first,)
    assert [e.kind for e in log.entries()] == ["note", "undo", "undo"]
    with pytest.raises(BadInput, match="no entry 9"):
        log.undo(9, at(3))
    with pytest.raises(BadInput, match="undone already"):
        log.undo(2, at(3))


@given(st.lists(st.integers(1, 8), max_size=8))
def test_what_stands_is_what_a_plain_replay_says(targets):
    """Against a replay written another way: an entry is gone if some undoing of it is not gone itself."""
    from advisor.push.log.log import Entry

    entries = [Entry(i, at(0), at(0), "note", None, {"text": "x"}) for i in range(1, 4)]
    for target in targets:
        if target <= len(entries):
            entries.append(Entry(len(entries) + 1, at(0), at(0), "undo", None, {"of": float(target)}))

    def gone(number: int) -> bool:
        return any(e.kind == "undo" and e.data["of"] == number and not gone(e.number) for e in entries)

    assert undone(entries) == {e.number for e in entries if gone(e.number)}
    assert {e.number for e in standing(tuple(entries))} == {1, 2, 3} - undone(entries)


@pytest.mark.parametrize(
    ("kind", "counter", "data", "told"),
    [
        ("nte", None, {"text": "x"}, "did you mean 'note'"),
        ("note", None, {}, "text is missing"),
        ("note", float("nan"), {"text": "x"}, "counter of nan"),
        ("note", 1e9, {"text": "x"}, "expected one within"),
        ("counter reset", 3.0, {"now": 1e12}, "expected one within 10000 m"),
        ("mark", 3.0, {"name": "m", "depth": -1e5}, "expected one within 10000 m"),
        ("sighting", 3.0, {"what": "tie-in", "size": -1.0}, "size: got -1.0 m; expected more than 0 m"),
        ("sighting", 3.0, {"what": "tie-in", "size": 0.0}, "size: got 0.0 m; expected more than 0 m"),
        ("note", None, {"text": "x", "txet": "y"}, "nothing is called 'txet'"),
        ("note", None, {"text": "x" * 5000}, "5000 characters"),
        ("note", None, {"text": "\ud800"}, "not text"),
        ("note", None, {"text": 4.0}, "expected text"),
        ("try", None, {"technique": "string", "outcome": "pased"}, "did you mean 'passed'"),
        (
            "try",
            None,
            {"technique": "string", "outcome": "passed", "book": float("inf")},
            "expected a number",
        ),
        ("try", None, {"technique": "string", "outcome": "passed", "planned": "yes"}, "expected yes or no"),
        ("sighting", None, {"what": "tie-in", "clock": True}, "expected a number"),
    ],
)
def test_what_is_no_entry_is_refused_and_nothing_is_written(log, kind, counter, data, told):
    with pytest.raises(BadInput, match=told):
        log.append(kind, counter, data, at(0))
    assert log.entries() == ()


@pytest.mark.parametrize(
    "change",
    [
        "UPDATE entry SET kind = 'end'",
        "DELETE FROM entry",
        "INSERT OR REPLACE INTO entry SELECT * FROM entry WHERE number = 1",
        "INSERT INTO entry SELECT 7, told_at, happened_at, kind, counter, data, digest FROM entry",
    ],
)
def test_the_file_itself_refuses_changes(log, tmp_path, change):
    log.append("note", 1.0, {"text": "a"}, at(0))
    other = sqlite3.connect(tmp_path / "log.db")
    with pytest.raises(sqlite3.DatabaseError, match="only added"):
        other.execute(change)
    other.close()


def test_two_terminals_at_once(tmp_path):
    """Four writers of 50 entries each: 200 entries, numbered through, none twice."""
    path = tmp_path / "log.db"
    faults: list[BaseException] = []

    def write(name: int) -> None:
        try:
            log = Log.open(path)
            for i in range(50):
                log.append("note", float(i), {"text": f"{name}/{i}"}, at(i))
            log.close()
        except BaseException as fault:
            faults.append(fault)

    threads = [threading.Thread(target=write, args=(i,)) for i in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert not faults
    entries = Log.read(path).entries()
    assert [e.number for e in entries] == list(range(1, 201))
    assert {e.data["text"] for e in entries} == {f"{n}/{i}" for n in range(4) for i in range(50)}


def test_a_busy_log_is_told(log, tmp_path):
    log._db.execute("PRAGMA busy_timeout = 50")
    other = sqlite3.connect(tmp_path / "log.db", isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    with pytest.raises(BadInput, match="another program keeps it busy"):
        log.append("note", 1.0, {"text": "a"}, at(0))
    other.execute("ROLLBACK")
    other.close()
    assert log.append("note", 1.0, {"text": "a"}, at(0)).number == 1


# -- damage -----------------------------------------------------------------------------------


# -- export -----------------------------------------------------------------------------------


def test_csv_has_no_formula_and_no_control_character(log):
    for text in ("=1+1", "+1", "-1", "@x", "  =1", "\x1b[31mred", "\u202eevil", 'a\r\nb,"c"'):
        log.append("note", -1.5, {"text": text}, at(0))
    rows = list(csv.DictReader(io.StringIO(csv_of(log.entries()))))
    assert [row["text"][0] for row in rows[:5]] == ["'"] * 5
    assert [row["counter m"] for row in rows] == ["-1.5"] * 8, "a number stays a number"
    assert all(c.isprintable() or c == "\n" for c in csv_of(log.entries()))


def test_json_gives_back_what_was_told(log):
    log.append("note", 1 / 3, {"text": "é\u202e\x00"}, at(0))
    log.undo(1, at(1))
    text = json_of(log.entries())
    assert text.isascii()
    first, second = json.loads(text)
    assert (first["counter"], first["data"]["text"], first["undone"]) == (1 / 3, "é\u202e\x00", True)
    assert (second["kind"], second["undone"]) == ("undo", False)


def run(*arguments: str) -> int:
    with pytest.raises(SystemExit) as ended:
        main(list(arguments))
    return int(ended.value.code or 0)


def test_the_command_shows_and_exports(log, tmp_path, capsys):
    log.append("find", 12.0, {"what": "roots", "clock": 11.5}, at(0))
    assert run("log", str(tmp_path)) == 0
    assert "find at 12 m: roots; at 11:30 on the clock face" in capsys.readouterr().out
    out = tmp_path / "out.csv"
    assert run("log", str(tmp_path), "--csv", "-o", str(out)) == 0
    before = out.read_text()
    assert run("log", str(tmp_path), "--json", "-o", str(out)) == 2
    assert out.read_text() == before
    assert run("log", str(tmp_path), "--json", "-o", str(out), "--force") == 0
    assert json.loads(out.read_text())[0]["kind"] == "find"
    (tmp_path / "site.yaml").write_text(demo.MAIN.read_text())
    capsys.readouterr()
    assert run("log", str(tmp_path), "--geojson") == 0
    assert json.loads(capsys.readouterr().out)["features"][0]["properties"]["words"] == "roots"
    assert run("log", str(tmp_path / "nowhere")) == 2
    assert "no such folder" in capsys.readouterr().err


def test_an_empty_log_says_so_and_what_is_left_out_may_be_told_as_nothing(log, tmp_path, capsys):
    log.append("note", None, {"text": "x", "photo": None}, at(0))
    assert dict(log.entries()[0].data) == {"text": "x"}
    empty = tmp_path / "empty"
    empty.mkdir()
    (empty / "site.yaml").write_text(demo.MAIN.read_text())
    Log.open(empty / "log.db").close()
    assert run("log", str(empty)) == 0
    assert "Nothing is logged yet" in capsys.readouterr().out


def test_there_is_nothing_to_rescue_where_there_is_no_log(tmp_path):
    with pytest.raises(BadInput, match="no log to rescue"):
        rescue(tmp_path / "log.db", tmp_path / "new.db")
    assert not (tmp_path / "new.db").exists()


def test_a_file_that_the_system_will_not_open_is_told(tmp_path):
    path = tmp_path / "log.db"
    Log.open(path).close()
    path.unlink()
    path.mkdir()  # a folder of that name is there, but no file
    with pytest.raises(BadInput, match="cannot be opened"):
        Log.open(path)


def test_where_folders_cannot_be_synced_the_file_still_is(tmp_path, monkeypatch):
    """One common system opens no folders as files."""
    synced: list[str] = []

    def fsync(handle: int) -> None:
        synced.append(Path(os.readlink(f"/proc/self/fd/{handle}")).name)
        os.fsync(handle)

    other = {name: getattr(os, name) for name in ("open", "close", "link", "O_RDONLY", "O_RDWR")}
    monkeypatch.setattr(log_file, "os", SimpleNamespace(name="nt", fsync=fsync, **other))
    log_file.make_log(tmp_path / "log.db")
    monkeypatch.undo()
    assert synced == ["log.db"]
    assert Log.open(tmp_path / "log.db").entries() == ()
