"""The log on the screen, its tables and the report place a find alike: by what was seen after it as well."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import pytest

from advisor.job.folder import Job
from advisor.push.log.log import Log
from advisor.push.report.build import report_of
from advisor.quantity import Units
from advisor.tables.place import rules_dir
from advisor.terminal import log_placed
from advisor.terminal.log_screen import export_log, export_points, show_log
from advisor.terminal.page import Page
from tests.cases.jobs import rules, tables
from tests.push.test_placed_anew import READ, SITE, as_told, end, placed, standing
from tests.terminal.test_now_shown import NOON, case_of, study_of

TOLD = (*READ, as_told(), end(12.0))
# By hand in test_placed_anew: 6.6 m down, which a grid of 0.2 m has as it is; 4 m short of the end.
DOWN, SHORT = "6.6 m down", 4.0


@pytest.fixture(scope="module")
def job(tmp_path_factory) -> Job:
    job = Job(tmp_path_factory.mktemp("job"))
    job.site.write_text(SITE)
    log = Log.open(job.log)
    for entry in standing(*TOLD):
        log.append(entry.kind, entry.counter, entry.data, NOON)
    log.close()
    return job


@pytest.fixture(autouse=True)
def one_study(monkeypatch):
    monkeypatch.setattr(log_placed, "work_through", lambda *_: study_of(SITE))


def test_the_screen_places_it_and_says_so(job, capsys):
    kept = job.log.read_bytes()
    show_log(job, Units.METRIC, rules_dir(), Page())
    screen = " ".join(capsys.readouterr().out.split())
    assert f"roots; on yard drain; by the sheet {DOWN} it" in screen
    assert f"counted from public sewer; {SHORT:g} m less than there by the counter" in screen
    assert log_placed.TOLD in screen
    assert job.log.read_bytes() == kept, "the file holds what was told"


def test_the_tables_and_the_points_have_it_too(job, capsys):
    export_log(job, rules_dir(), False, None, False, Page())
    row = next(row for row in csv.DictReader(capsys.readouterr().out.splitlines()) if row["kind"] == "find")
    export_points(job, rules_dir(), None, False, Page())
    (point,) = json.loads(capsys.readouterr().out)["features"]
    told = placed(standing(*TOLD)).data["distance"]
    for down in (float(row["down the line from there m"]), point["properties"]["down_the_line_m"]):
        assert down == pytest.approx(float(told or 0), abs=1e-3)


def test_the_report_says_the_same():
    made = report_of("job", standing(*TOLD), case_of(SITE), tables(), rules(), Path(rules_dir()))
    assert f"by the sheet {DOWN} yard drain" in str(made.sections)
    assert "short of public sewer" in str(made.sections)


def test_where_no_plan_can_be_made_it_stands_as_it_was_told(job, tmp_path, capsys):
    other = Job(tmp_path)
    other.log.write_bytes(job.log.read_bytes())
    show_log(other, Units.METRIC, rules_dir(), Page())
    screen = " ".join(capsys.readouterr().out.split())
    told = float(as_told()[2]["distance"] or 0)
    assert f"{told:g} m down it" in screen
    assert log_placed.TOLD not in screen
