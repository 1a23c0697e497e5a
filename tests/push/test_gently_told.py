"""A gentle push that was told is called that in log and report, as plan and card call it.

From a trial: told by the key "pushed gently again", and read as "steady push" in the log and the report.
"""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from advisor.outcome.attempts import STEADY, TURN
from advisor.push.log.log import Entry
from advisor.push.report.log_words import told_words
from advisor.push.report.words import GENTLY, technique_words
from advisor.quantity import Units
from tests.cases.jobs import tables
from tests.push.test_report import START, report, text_of

NOON = datetime(2026, 11, 2, 12, tzinfo=UTC)


def tried(technique: str, force: str | None) -> Entry:
    data = {"technique": technique, "outcome": "passed", **({"force": force} if force else {})}
    return Entry(1, NOON, NOON, "try", 7.1, data)


@pytest.mark.parametrize(
    ("technique", "force", "called"),
    [
        (STEADY, None, "a gentle push"),
        (STEADY, "light", "a gentle push"),
        (STEADY, "firm", "an even push"),  # it was told as firm: no word calls that gentle
        (STEADY, "hard", "an even push"),
        (TURN, "light", "turn the rod"),
    ],
)
def test_it_is_called_as_it_was_done(technique, force, called):
    entry = tried(technique, force)
    assert technique_words(entry) == called
    assert told_words(entry, Units.METRIC, tables().stuck).startswith(f"{called}; it passed")


def test_it_is_the_word_of_plan_and_card():
    assert tables().in_pipe.tried_before.gently == GENTLY


def test_the_report_says_so():
    told = text_of(report(START, ("try", 6.0, {"technique": STEADY, "outcome": "passed", "force": "light"})))
    assert "tried a gentle push: it passed" in told
