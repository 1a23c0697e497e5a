"""A report tells the place that the screen told, and calls a counter reading only what the counter showed.

From a trial: held at 7.1 m, 0.9 m of it down to the pipe, the screen told "6.2 m by the counter; by the sheet
somewhere 4.9 m to 7.9 m"; the report "by the sheet 7.5 m" and "from 4.3 m up it by the counter (find no. 1)".
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

import pytest

from advisor.push.before import tasks
from advisor.push.before.tasks import Seen, shown
from advisor.push.log.kinds import FIND
from advisor.push.now.seen import runs_of
from advisor.push.report.doubt import doubt_now, doubt_of, place_at
from advisor.push.report.log_words import told_words
from advisor.quantity import Units
from tests.cases.jobs import tables
from tests.push.test_no_step_back import SHEET, WAY
from tests.push.test_report import Told, entries
from tests.terminal.test_now_shown import pushed, study_of

FRONT = "front chamber"
START: Told = ("start", 0.0, {"opening": FRONT, "direction": "upstream"})


def found(count: int) -> Told:
    """A find where the head is after so many entries, as it is put into the log."""
    now = pushed(SHEET, FRONT, *WAY[:count], direction="upstream")
    return FIND, now.counter, {"what": "a rim", **place_at(now, now.fix), **doubt_now(now)}


@pytest.mark.parametrize(("count", "alone"), [(2, False), (3, True), (4, True), (6, False)])
def test_the_log_keeps_that_the_screen_told_a_span_alone(count, alone):
    """As the screen: held, and gone on from there, no one figure; before, and at a chamber seen, one."""
    assert (found(count)[2].get("somewhere") is True) is alone


def test_then_the_report_tells_the_span_alone():
    (entry,) = entries(found(3))
    doubt = doubt_of(entry, study_of(SHEET).network)
    told = " ".join(
        doubt.words(Units.METRIC, "7.5 m up", lambda *_: "4.9 m to 7.9 m", lambda *_: "4.9 m to 7.9 m up it")
    )
    assert "by the sheet somewhere 4.9 m to 7.9 m up it" in told
    assert "7.5 m" not in told


def test_and_so_does_the_log():
    (entry,) = entries(found(3))
    told = told_words(entry, Units.METRIC, tables().stuck)
    assert re.search(r"by the sheet [\d.]+ m down it at the least", told)
    assert len(re.findall(r"by the sheet", told)) == 1


@cache
def seen() -> Seen:
    return shown(runs_of(entries(START, *WAY[:3], found(3))), study_of(SHEET))


@pytest.fixture
def unsure(monkeypatch) -> Seen:
    """The same where it is sure of no more than 4.3 m of the 8 m which way the rod went: from 14 m down."""
    cover = replace(seen().cover, seen=((14 - 4.3, 14.0),), unsure=True)
    monkeypatch.setattr(tasks, "covered", lambda *_: cover)
    return replace(seen(), cover=cover)


def test_what_was_seen_at_the_least_is_no_reading_of_the_counter(unsure):
    lead, known = unsure.told({4: 1})
    assert "from 4.3 m up it from front chamber at the least" in lead
    assert "by the counter" not in lead
    assert "By the counter the lens came 7.1 m in from front chamber." in known


def test_nor_is_it_the_place_of_the_find(unsure):
    number = next(each.number for each in unsure.runs[0].entries if each.kind == FIND)
    assert "find no. 1" not in " ".join((*unsure.told({number: 1}), *unsure.missed("", {number: 1})))
