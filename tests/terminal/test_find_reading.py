"""A find belongs where it was seen, which is not where the head is once it is drawn back."""

from __future__ import annotations

import pytest

import tests.terminal.test_push_session as sitting
from advisor.push.log.log import open_push
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.now.then import at_reading, stops_behind
from tests.terminal.test_cautions_shown import boxes
from tests.terminal.test_now_shown import study_of
from tests.terminal.test_push_answers import standing
from tests.terminal.test_push_session import BEGIN, ESC, FOOT

job, push = sitting.job, sitting.push  # fixtures
# Stopped at 9 ft by what lies before it (roots), and drawn back to 7 ft.
BACK = BEGIN + "r4.2\rtr3" + "s9\r" + "910" + "0" + "m" + "p7\r"


def now_of(job) -> Now:
    entries = open_push(tuple(standing(job)))
    study = study_of(job.site.read_text())
    return Now(Push(study, entries[0]), entries[1:])


def finds(job):
    return [entry for entry in standing(job) if entry.kind == "find"]


def test_it_asks_at_which_reading_and_offers_the_present_one_and_the_stop(job, push):
    said = push(BACK + "ffroots\r" + "9\r" + "1t" + "q")
    assert "In this push it was stopped at 9 ft." in said
    assert "At which reading was it seen? Empty: 7 ft, as now" in said
    (find,) = finds(job)
    assert find.counter == pytest.approx(9 * FOOT)


def test_its_place_on_the_sheet_is_that_of_its_reading(job, push):
    """2 ft of counter from where the head is now is 2 ft of pipe further on, to a cell of 0.2 m."""
    push(BACK + "ffroots\r9\r1t" + "ffgrease\r\r1t" + "q")
    there, here = finds(job)
    assert there.data["line"] == here.data["line"]
    apart = abs(float(there.data["distance"]) - float(here.data["distance"]))
    assert apart == pytest.approx(2 * FOOT, abs=0.21)


@pytest.mark.parametrize("typed", ["9.5", "40"])
def test_where_the_lens_has_not_been_nothing_was_seen(job, push, typed):
    said = push(BACK + f"ffroots\r{typed}\r" + "8\r" + "1t" + "q")
    assert "In this push the lens has been from 0 ft to 9 ft." in said
    assert finds(job)[0].counter == pytest.approx(8 * FOOT)


def test_back_from_the_hour_keeps_the_reading(job, push):
    said = push(BACK + "ffroots\r9\r1bb" + "\r1t" + "q")
    assert "At which reading was it seen? Empty: 9 ft" in said
    assert finds(job)[0].counter == pytest.approx(9 * FOOT)


def test_a_number_for_a_name_is_told_once(job, push):
    said = push(BACK + "ff6.3\r" + "roots\r\r1t" + "q")
    assert "6.3 is a number, no name." in said
    assert finds(job)[0].data["what"] == "roots"
    said = push("fm3\r" + "3\r" + "\r" + "q")
    assert "3 is a number, no name." in said
    assert standing(job)[-1].data["name"] == "3", "who types it again means it"


def test_where_the_head_was_at_a_reading(job, push):
    push(BACK + "q")
    now = now_of(job)
    assert stops_behind(now) == (pytest.approx(9 * FOOT),)
    assert at_reading(now, 9.5 * FOOT) is None
    between = at_reading(now, 8 * FOOT)
    assert between is not None
    assert now.along < between.along < at_reading(now, 9 * FOOT).along


@pytest.mark.parametrize("kind", ["f", "n"])
@pytest.mark.parametrize(("what", "warned"), [("yellow hose across", True), ("yellow grease", False)])
def test_what_may_be_a_gas_pipe_is_warned_of_as_soon_as_it_is_told(push, kind, what, warned):
    told = f"f{kind}{what}\r" + ("\r1t" if warned or kind == "f" else "")
    said = push(BEGIN + "r4\rn" + told + "q", raw=True)
    after = said.partition("Noted: ")[2]
    last = after.rpartition("COUNTER")[2]  # on a small screen what stands above that scrolls off
    box = " ".join(boxes(last.splitlines()).get("WARNING", []))
    assert ("call the gas utility's emergency line or 911" in box) is warned
    not_past = " ".join(boxes(after.splitlines()).get("NOT PAST HERE", []))
    assert ("a gas pipe" in not_past) is warned, "told as a note or as a find"


def test_a_note_that_may_be_a_gas_pipe_is_a_find_until_it_is_taken_back(job, push):
    """Safety first: a note bars nothing. Where it was seen is asked, as of a find."""
    said = push(BACK + "fnyellow pipe across\r9\r1t" + "q")
    assert "At which reading was it seen? Empty: 7 ft, as now" in said
    (find,) = finds(job)
    assert (find.counter, find.data["what"]) == (pytest.approx(9 * FOOT), "yellow pipe across")
    assert "Taken back: find" in push("u" + "fnno key for the cellar\r" + "q")
    assert [entry.kind for entry in standing(job)][-1] == "note"
    assert not finds(job)


def test_a_note_that_is_typed_anew_without_those_words_is_a_note(job, push):
    push(BACK + "fnyellow pipe\r" + ESC + "\x15no key\r" + "q")
    assert standing(job)[-1].data == {"text": "no key"}
