"""Folders of jobs: what a name becomes on disk, and which sheet and kit a command takes from where."""

from __future__ import annotations

import pytest

from advisor import demo
from advisor.errors import BadInput
from advisor.job.folder import Job, folder_name, job_at, job_kit, new_job, site_sheet
from advisor.job.output import write_out
from advisor.job.own import own_folder, own_kit
from advisor.tables.place import rules_dir
from advisor.terminal.ready import make_ready


@pytest.mark.parametrize(
    ("name", "folder"),
    [
        ("Larkspur Court, house 7", "larkspur-court-house-7"),
        ("../../etc/passwd", "etc-passwd"),
        ("/absolute", "absolute"),
        ("CON", "job-con"),
        ("trailing. ", "trailing"),
        ("\x00\x1b[31m", "31m"),
        ("Rue de l'Égout", "rue-de-l-egout"),
        ("下水", "job"),
        ("a" * 300, "a" * 60),
    ],
)
def test_a_name_becomes_a_folder_that_stays_where_it_is_put(name, folder):
    assert folder_name(name) == folder


def test_a_new_job_never_takes_a_folder_that_is_there(tmp_path):
    assert [new_job(tmp_path, "drain").name for _ in range(3)] == ["drain", "drain-2", "drain-3"]


def test_a_job_that_cannot_be_made_is_told(tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(BadInput, match="cannot be made"):
        new_job(tmp_path / "file", "drain")


def test_a_path_names_a_sheet_or_the_folder_that_holds_one(tmp_path):
    job = new_job(tmp_path, "drain")
    with pytest.raises(BadInput, match=r"there is no site\.yaml"):
        site_sheet(job.folder)
    job.site.write_text(demo.MAIN.read_text())
    assert site_sheet(job.folder) == job.site
    assert site_sheet(job.site) == job.site
    assert job_at(job.folder) == Job(job.folder)
    with pytest.raises(BadInput, match="this is a file"):
        job_at(job.site)
    with pytest.raises(BadInput, match="no such folder"):
        job_at(tmp_path / "elsewhere")


def test_the_kit_of_the_job_stands_above_that_of_the_truck(tmp_path):
    job = new_job(tmp_path, "drain")
    job.site.write_text(demo.MAIN.read_text())

    def name(kit=None):
        return make_ready(job.folder, kit, None, None, None, rules_dir()).case.kit.name

    text = demo.KIT.read_text()
    usual = name()
    assert own_kit() is None
    own_folder().mkdir()
    (own_folder() / "kit.yaml").write_text(text.replace("kit: demo van", "kit: of the truck"))
    assert name() == "of the truck" != usual
    job.kit.write_text(text.replace("kit: demo van", "kit: of the job"))
    assert job_kit(job.folder) == job.kit
    assert name() == "of the job"
    assert name(demo.KIT) == "demo van"


def test_a_thousand_jobs_of_one_name_are_enough(tmp_path):
    (tmp_path / "mill-lane").mkdir()
    for number in range(2, 1000):
        (tmp_path / f"mill-lane-{number}").mkdir()
    with pytest.raises(BadInput, match="a thousand jobs called 'mill-lane' already"):
        new_job(tmp_path, "Mill Lane")


def test_without_a_word_the_users_own_folder_is_that_of_the_system(tmp_path, monkeypatch):
    monkeypatch.delenv("PUSH_ADVISOR_HOME")
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))  # XDG base directory specification
    assert own_folder() == tmp_path / "push-advisor"
    assert own_kit() is None
    assert not list(tmp_path.iterdir()), "asking makes nothing"


def test_a_file_is_never_written_over_a_folder(tmp_path):
    with pytest.raises(BadInput, match="this is a folder"):
        write_out(tmp_path, b"x", force=True)
