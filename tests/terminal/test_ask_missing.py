"""What is told of a drain that is drawn wrong: in the words and units of where it is."""

from __future__ import annotations

import pytest

from advisor.job.folder import Job
from advisor.terminal.ask_missing import what_is_wrong
from advisor.terminal.page import Page
from tests.terminal.test_choose import typed


@pytest.mark.parametrize(
    ("region", "has", "lacks"),
    [
        ("britain", ("inspection chamber", "100 mm", "3 m"), (" in", " ft", "cleanout")),
        ("north america", ("yard cleanout", "3 in", "10 ft"), (" mm", "chamber")),
    ],
)
def test_how_a_missing_line_is_written_is_shown_as_people_there_measure(tmp_path, capsys, region, has, lacks):
    with typed("5\x04"):
        assert what_is_wrong(Job(tmp_path), region, Page()) == ()
    told = capsys.readouterr().out.split("that it is on:")[1].split("Then: advisor ask")[0]
    rows = [row for row in told.splitlines() if ": " in row]
    assert all(any(word in row for row in rows) for word in has)
    assert not [row for row in rows for word in lacks if row.rstrip().endswith(word)]
