"""Generated examples are the same in every run, so that a red test is red for everybody."""

import gc
import os

import pytest
from hypothesis import settings

from tests.kept import (
    each_worked_out_anew,
    files_read_once,
    keys_bound_once,
    pages_measured_once,
    pushes_planned_once,
    ways_worked_out_once,
)

# A program that a test starts need not compile every module of ours again.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

settings.register_profile("same", derandomize=True, deadline=None)
settings.load_profile("same")


@pytest.fixture(autouse=True)
def _own_folder_is_empty(tmp_path, monkeypatch):
    """No test sees, or leaves, a kit or a log of whoever runs it."""
    monkeypatch.setenv("PUSH_ADVISOR_HOME", str(tmp_path / "own folder"))


@pytest.fixture(scope="session", autouse=True)
def _shared():
    """What is the same for all tests of a process is made once."""
    with (
        keys_bound_once(),
        files_read_once(),
        ways_worked_out_once(),
        pages_measured_once(),
        pushes_planned_once(),
    ):
        yield


@pytest.fixture
def anew():
    """For a test of whether what is worked out anew comes out the same: it must not come from a memory."""
    with each_worked_out_anew():
        yield


def pytest_collection_modifyitems(items):
    """A file runs in one process, and all that is practised in one: its houses are drawn and planned once."""
    for item in items:
        name = "practice" if "practice" in item.nodeid.partition("::")[0] else str(item.path)
        item.add_marker(pytest.mark.xdist_group(name))


@pytest.hookimpl(trylast=True)
def pytest_collection_finish():
    """What was imported stays to the end: the collector need not go through it again and again."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(20000, 10, 10)
