"""What is told of a drain that is drawn wrong: in the words and units of where it is."""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.interview.dialogue import Session
from advisor.job.folder import Job
from advisor.terminal.ask_missing import pick_one, what_is_wrong
from advisor.terminal.page import Page
from tests.interview.small_session import known
from tests.terminal.test_ask import SMALL_HOUSE
from tests.terminal.test_choose import typed


def test_a_session_is_left_from_its_lists_of_the_drain_too(tmp_path):
    with typed("l"):
        assert what_is_wrong(Job(tmp_path), "britain", Page()) is None
    asks = Session(replace(known(), sheet=SMALL_HOUSE, ask_all=True)).open(())
    with typed("l"):
        assert pick_one([ask for ask in asks if ask.question.in_short], Page()) == "leave"


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
