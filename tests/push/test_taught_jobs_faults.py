"""The list of jobs that are learned from: what is wrong with it is told, and it stays as it was."""

from __future__ import annotations

from pathlib import Path

import pytest

from advisor.errors import BadInput
from advisor.job.own import MOVED
from advisor.push.report import taught_jobs
from advisor.push.report.taught_jobs import LIST, listed, remember


@pytest.fixture
def own(tmp_path, monkeypatch) -> Path:
    folder = tmp_path / "own"
    monkeypatch.setenv(MOVED, str(folder))
    return folder


def test_a_list_that_is_no_text(own):
    own.mkdir()
    (own / LIST).write_bytes(b"\xff\xfe\x00")
    with pytest.raises(BadInput, match="cannot be read"):
        listed()


def test_a_job_that_nothing_is_learned_from_cannot_be_forgotten(own, tmp_path):
    with pytest.raises(BadInput, match="nothing is learned from this job; see advisor learn show"):
        remember([tmp_path], forget=True)
    assert not own.exists()


def test_a_file_where_the_folder_should_be(own):
    own.write_text("mine")
    with pytest.raises(BadInput, match="cannot be made"):
        remember([], forget=False)
    assert own.read_text() == "mine"


def test_a_sheet_that_is_gone_or_no_text_is_named(own, tmp_path):
    wounded = tmp_path / "site.yaml"
    with pytest.raises(BadInput, match=r"site\.yaml.*cannot be read"):
        taught_jobs._text(wounded)
    wounded.write_bytes(b"site: \xff\n")
    with pytest.raises(BadInput, match=r"site\.yaml.*cannot be read"):
        taught_jobs._text(wounded)
