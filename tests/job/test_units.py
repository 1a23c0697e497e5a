"""Units that were told once for a job hold for every command on it; without them those of the region do."""

from __future__ import annotations

import pytest

from advisor import demo
from advisor.cli import main
from advisor.errors import BadInput
from advisor.job.folder import Job
from advisor.job.units import told_units
from advisor.quantity import Units
from advisor.tables.place import rules_dir
from advisor.terminal.log_screen import units_of
from advisor.terminal.push import follow
from advisor.terminal.ready import make_ready
from tests.cases.jobs import tables


@pytest.fixture
def job(tmp_path) -> Job:
    (tmp_path / "site.yaml").write_text(demo.MAIN.read_text())
    return Job(tmp_path)


def planned_in(path, given: str | None = None) -> Units:
    return make_ready(path, demo.KIT, given, 100, None, rules_dir()).case.units


def test_a_push_told_in_metric_makes_plan_card_report_and_log_metric(job, monkeypatch):
    """The site is in North America, where a plan is in feet as long as nobody says otherwise."""
    assert planned_in(job.folder) is units_of(job, tables()) is Units.INCH
    monkeypatch.setattr("advisor.terminal.choose.need_terminal", lambda _: None)
    monkeypatch.setattr(follow, "follow", lambda job, ready: 0)
    with pytest.raises(SystemExit):
        main(["push", str(job.folder), "--units", "metric"])
    assert planned_in(job.folder) is planned_in(job.site) is units_of(job, tables()) is Units.METRIC
    assert planned_in(job.folder, "inch") is Units.INCH, "once, for a paper"
    with pytest.raises(SystemExit):
        main(["push", str(job.folder)])
    assert planned_in(job.folder) is Units.METRIC
    assert job.site.read_text() == demo.MAIN.read_text(), "a sheet that is edited would be asked about anew"


def test_what_is_kept_is_one_of_the_two_or_told_to_be_none(job):
    job.units.write_text("yards\x1b[2J\n")
    with pytest.raises(BadInput, match=r"units.txt:1: got 'yards.*expected inch or metric"):
        planned_in(job.folder)
    assert planned_in(job.folder, "metric") is Units.METRIC
    job.units.unlink()
    job.units.mkdir()
    with pytest.raises(BadInput, match="this is not a file"):
        planned_in(job.folder)


def test_a_sheet_of_no_job_has_none(job):
    job.units.write_text("metric\n")
    other = job.folder / "other.yaml"
    other.write_text(demo.MAIN.read_text())
    assert told_units(None, other) is None
    assert told_units(None, None) is None
