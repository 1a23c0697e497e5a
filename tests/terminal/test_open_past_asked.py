"""How much of the pipe is open past a find is asked of every one, logged, and decides.

From a trial: "wipes, nothing gets through" barred no water, "fine roots over most of the line" ended a push.
Common practice, no source: what leaves less than two thirds open is not sure to let a tap by.
"""

from __future__ import annotations

import csv
import io
import json

import pytest

from advisor.push.log.found import find_in_few
from advisor.push.log.log import Log, entry_text
from advisor.push.report.export import csv_of, json_of
from advisor.push.report.log_words import told_words
from advisor.quantity import Units
from tests.cases.jobs import tables
from tests.terminal.test_push_session import BEGIN, job, push

__all__ = ["job", "push"]  # fixtures
HERE = BEGIN + "r9\rn" + "ff"
ASKED = "How much of the pipe is open past it?"


def last(job):
    log = Log.read(job.log)
    entry = log.standing()[-1]
    log.close()
    return entry


@pytest.mark.parametrize(
    ("key", "told", "bars"),
    [
        ("1", "nearly all of the pipe open", False),
        ("2", "more than two thirds of the pipe open", False),
        ("3", "less than two thirds of the pipe open", True),
        ("4", "hardly any of the pipe open", True),
        ("5", "it may fill the pipe", True),
        ("d", "it may fill the pipe", True),
    ],
)
def test_it_is_logged_in_words_and_decides(job, push, key, told, bars):
    said = push(HERE + f"roots over most of the pipe\r\r{key}a" + "q")
    find = last(job)
    assert (find.kind, find.data["open"]) == ("find", told)
    assert ("no head goes into a mass of roots" in said.partition("Noted: ")[2]) is bars
    assert find_in_few(find).endswith(f"pipe, {told}")
    (row,) = (each for each in csv.DictReader(io.StringIO(csv_of((find,)))) if each["kind"] == "find")
    assert row["open"] == told
    assert json.loads(json_of((find,)))[0]["data"]["open"] == told
    assert f"; {told};" in told_words(find, Units.INCH, tables().stuck)


@pytest.mark.parametrize("what", ["crack", "offset joint", "sag", "diaper caught on an offset"])
def test_of_what_fills_no_bore_by_its_words_too(job, push, what):
    """From a trial: a diaper caught on an offset was taken for the offset, and not asked of."""
    assert ASKED in push(HERE + f"{what}\r\r3t" + "q")
    assert entry_text(last(job), "open") == "less than two thirds of the pipe open"


def test_back_goes_to_the_reading_and_other_words_are_asked_anew(job, push):
    said = push(HERE + "wipes\r\rb" + "\r3b" + "b" + "\x1b" + "crack\r\r1t" + "q")
    assert said.count(ASKED) == 4
    assert (last(job).data["what"], entry_text(last(job), "open")) == ("crack", "nearly all of the pipe open")


def test_a_note_that_warns_of_what_may_fill_it_asks_too(job, push):
    said = push(BEGIN + "r9\rn" + "fnan object\r\r5t" + "q")
    assert ASKED in said
    assert entry_text(last(job), "open") == "it may fill the pipe"
    assert "not into it" in said
