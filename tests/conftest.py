"""Generated examples are the same in every run, so that a red test is red for everybody."""

import pytest
from hypothesis import settings

settings.register_profile("same", derandomize=True, deadline=None)
settings.load_profile("same")


@pytest.fixture(autouse=True)
def _own_folder_is_empty(tmp_path, monkeypatch):
    """No test sees, or leaves, a kit or a log of whoever runs it."""
    monkeypatch.setenv("PUSH_ADVISOR_HOME", str(tmp_path / "own folder"))
