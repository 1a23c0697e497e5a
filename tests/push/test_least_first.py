"""Lengths along a line that count from an opening: the less first, as people read a span.

From a trial: in at the lower chamber and up the drain, the log had "7.9 m up it at the least; 6.5 m at the
most", and the screens of the push "2.1 m to 0 m".
"""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from advisor.push.log.log import Entry
from advisor.push.now.datum import Datum
from advisor.push.report.log_words import told_words
from advisor.quantity import Units
from tests.cases.jobs import tables

NOON = datetime(2026, 11, 2, 12, tzinfo=UTC)
CHAMBER = Datum("house drain", 12.0, "front chamber", used=True, sure=True)


@pytest.mark.parametrize(
    ("low", "high", "told"),
    [
        # By hand, the chamber 12 m down the line.
        (
            4.0,
            5.5,
            ("6.5 m up it from front chamber at the least", "8 m up it from front chamber at the most"),
        ),
        (
            13.0,
            15.0,
            ("1 m down it from front chamber at the least", "3 m down it from front chamber at the most"),
        ),
        (11.0, 14.0, ("from 1 m up it from front chamber", "to 2 m down it from front chamber")),
    ],
)
def test_the_log_tells_the_least_as_the_least(low, high, told):
    data = {"what": "grease", "line": "house drain", "distance": (low + high) / 2, "low": low, "high": high}
    said = told_words(Entry(1, NOON, NOON, "find", 8.2, data), Units.METRIC, tables().stuck, CHAMBER)
    assert "by the sheet " + "; ".join(told) in said


@pytest.mark.parametrize(
    ("low", "high", "told"), [(4.0, 5.5, "6.5 to 8.0"), (13.0, 15.0, "1.0 to 3.0"), (9.9, 12.0, "0.0 to 2.1")]
)
def test_a_span_rises_up_the_line_and_down_it(low, high, told):
    assert CHAMBER.between(low, high, lambda m: f"{m:.1f}") == told


def test_a_span_on_both_sides_has_each_named():
    assert CHAMBER.between(11.0, 14.0, str) == "1.0 upstream to 2.0 downstream"
