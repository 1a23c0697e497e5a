"""The lengths of a log count from the opening of their push, as they were told beside it: from a technician's
day, who was told 20 ft past the cleanout and read 51 ft in the log. By hand: the opening lies 9.5 m down."""

from __future__ import annotations

import csv
import json
from datetime import UTC, datetime
from pathlib import Path

import pytest

from advisor.job.folder import Job
from advisor.push.log.log import Log
from advisor.quantity import Units
from advisor.tables.place import rules_dir
from advisor.terminal.log_screen import export_log, show_log
from advisor.terminal.page import Page
from tests.push.test_perhaps_there import SITE, USED

NOON = datetime(2026, 3, 4, 12, tzinfo=UTC)
UPPER = "the upper end of the line"


@pytest.fixture
def job(tmp_path: Path) -> Job:
    job = Job(tmp_path)
    job.site.write_text(SITE.replace("THERE", "yes"))
    return job


def told(job: Job, capsys, version: str | None = None) -> tuple[str, list[tuple], list[tuple]]:
    """The screen, and from the table and from the JSON the lengths of each find."""
    log = Log.open(job.log)
    begun = {"opening": USED, "direction": "downstream", **({"sheet": version} if version else {})}
    log.append("start", 0.0, begun, NOON)
    roots = {"what": "roots", "line": "house drain", "distance": 15.5, "low": 14.5, "high": 17.0}
    log.append("find", 6.0, roots, NOON)
    log.append("find", 2.0, {"what": "grease", "line": "house drain", "distance": 8.0}, NOON)
    log.close()
    show_log(job, Units.METRIC, rules_dir(), Page())
    screen = " ".join(capsys.readouterr().out.split())
    export_log(job, rules_dir(), False, None, False, Page())
    rows = csv.DictReader(capsys.readouterr().out.splitlines())
    said = ("down the line from there m", "at the least m", "at the most m")
    names = ("lengths along the line count from", *said)
    table = [tuple(row[name] for name in names) for row in rows if row["kind"] == "find"]
    export_log(job, rules_dir(), True, None, False, Page())
    finds = [each for each in json.loads(capsys.readouterr().out) if each["kind"] == "find"]
    assert not any("distance" in each["data"] for each in finds)
    return screen, table, [tuple(each["along_line"].values()) for each in finds]


def test_screen_table_and_json_count_from_the_opening_in_use(job, capsys):
    screen, table, data = told(job, capsys)
    assert f"6 m down it from {USED}" in screen
    assert (
        f"by the sheet 5 m down it from {USED} at the least; 7.5 m down it from {USED} at the most" in screen
    )
    assert f"1.5 m up it from {USED}" in screen
    assert "upper end" not in screen
    assert table == [(USED, "6.0", "5.0", "7.5"), (USED, "-1.5", "", "")]
    assert data == [(USED, 6.0, 5.0, 7.5), (USED, -1.5, None, None)]


@pytest.mark.parametrize("sheet", [None, "site: [", "site: x\nregion: nowhere\n"])
def test_without_a_sheet_the_log_is_shown_and_says_from_where_it_counts(job, capsys, sheet):
    job.site.unlink() if sheet is None else job.site.write_text(sheet)
    screen, table, data = told(job, capsys)
    assert "15.5 m down it" in screen
    why = "count from its upper end, for the sheet of this job cannot be read."
    assert f"Lengths down house drain {why}" in screen
    assert table == [(UPPER, "15.5", "14.5", "17.0"), (UPPER, "8.0", "", "")]
    assert data == [(UPPER, 15.5, 14.5, 17.0), (UPPER, 8.0, None, None)]


def test_by_a_sheet_drawn_anew_no_length_is_worked_out(job, capsys):
    screen, table, _ = told(job, capsys, version="another")
    assert "count from its upper end, for the sheet was drawn anew since." in screen
    assert table[0] == (UPPER, "15.5", "14.5", "17.0")


def test_where_some_count_from_an_opening_the_others_are_told_apart(job, capsys):
    """Of the two pushes the second was made by another sheet."""
    log = Log.open(job.log)
    for version in (None, "another"):
        log.append("start", 0.0, {"opening": USED, **({"sheet": version} if version else {})}, NOON)
        log.append("find", 6.0, {"what": "roots", "line": "house drain", "distance": 15.5}, NOON)
    log.close()
    show_log(job, Units.METRIC, rules_dir(), Page())
    screen = " ".join(capsys.readouterr().out.split())
    assert f"6 m down it from {USED}" in screen
    assert "15.5 m down it" in screen
    assert "Where no opening is named, lengths down house drain count from its upper end" in screen
