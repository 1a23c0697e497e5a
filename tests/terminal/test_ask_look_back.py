"""What an answer is told to change, what is drawn of it, and how answers are looked back at."""

from __future__ import annotations

import re

import pytest

from advisor.interview.answers import NONE, Answer
from advisor.interview.question import DONT_KNOW
from advisor.interview.store import Kept
from advisor.job.folder import Job
from advisor.terminal.ask_session import AskRun
from advisor.terminal.page import Page
from tests.terminal import test_ask_begin as others
from tests.terminal.test_ask import CALM, SMALL_HOUSE, of, run, typed
from tests.terminal.test_ask_begin import LATER, folder

away = others.away  # a fixture
sit = others.sit  # a fixture


def test_a_roof_that_is_not_safe_leaves_its_openings_out_and_says_so(tmp_path, capsys):
    run(tmp_path, "2222" + "2" + "l")
    said = " ".join(capsys.readouterr().out.split())
    assert "the openings up there are left out" in said
    assert said.count("No new warning comes of that") == said.count("> no") - 1


def test_a_line_that_drains_and_a_drain_that_stands_full_are_told_not_to_go_together(tmp_path, capsys):
    run(tmp_path, CALM + "10" + "l")
    said = " ".join(capsys.readouterr().out.split())
    assert said.count("One does not go with the other") == 1
    assert "WARNING: A full line can burst out where it is opened." in said


def changed(folder, told: tuple[Answer, ...], which: Answer, keys: str, capsys) -> str:
    """What is said where one of these answers is put again and changed by the keys."""
    each = AskRun(of(SMALL_HOUSE, "small job"), Job(folder), Kept("small job", SMALL_HOUSE, told), Page())
    with typed(keys):
        each._put_again(which)
    return " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize("first", [DONT_KNOW, "yes"])
def test_a_warning_that_stood_before_is_told_of_the_yes_it_comes_of(tmp_path, capsys, first):
    """The pump may start whether it was taken or is told to be there: `no warning` of it would be a lie."""
    pumps = Answer("pumps", "job", (first,))
    said = changed(tmp_path, (pumps,), pumps, "1", capsys)
    assert "WARNING: A pump that starts can throw sewage in your face." in said
    assert "No new warning comes of that" not in said


@pytest.mark.parametrize(("place", "warns"), [("yard pit", True), (NONE, False)])
def test_a_place_that_stands_full_is_never_told_as_no_danger(tmp_path, capsys, place, warns):
    """It stood so before, or the line was told as full: that nothing comes of it would be a lie."""
    full, none = Answer("holding", "job", ("yes",)), Answer("standing-water", "job", (NONE,))
    options = of(SMALL_HOUSE, "small job").ask((full, none), "standing-water").options
    key = next((str(n) for n, each in enumerate(options, 1) if each.value == place), "")
    said = changed(tmp_path, (full, none), none, key + "0", capsys)
    assert ("none is opened but as the steps" in said) == warns
    assert ("No new warning comes of that" in said) == (not warns)


@pytest.mark.parametrize("question", ["backs-up", "standing-water"])
def test_what_ran_away_well_and_now_does_not_is_told_and_counts_no_more(tmp_path, capsys, question):
    """Else the sheet, the plan and the report would go on calling it fine."""
    fine, up = Answer("fine", "job", ("toilet",)), Answer(question, "job", (NONE,))
    session = of(SMALL_HOUSE, "small job")
    asked = session.ask((up, fine), question)
    key = next(str(n) for n, each in enumerate(asked.options, 1) if each.value == "toilet")
    said = changed(tmp_path, (up, fine), up, key + "0", capsys)
    assert said.count("One does not go with the other: toilet was said to run away well.") == 1
    worse = (Answer(question, "job", ("toilet",)), fine)
    assert session.sheets.drain(worse).sheet.model.task.complaint.fine == ()
    assert "toilet" not in [each.value for each in session.ask(worse, "fine").options]


def test_at_the_end_too_one_may_leave_and_go_on_another_day(tmp_path, capsys):
    each = AskRun(of(SMALL_HOUSE, "small job"), Job(tmp_path), Kept("small job", SMALL_HOUSE), Page())
    with typed("l"):
        assert each._reviewed() == "left"
    assert "l save and leave" in " ".join(capsys.readouterr().out.split())


def test_no_change_is_a_whole_sentence(tmp_path, capsys):
    run(tmp_path, CALM + "ddd" + "l")
    said = " ".join(capsys.readouterr().out.split())
    told = re.findall(r"(No change\. [^>]*?\.) ", said)
    assert told
    assert all(re.match(r"No change\. [A-Z]", each) for each in told), told


@pytest.mark.parametrize(("gas", "card"), [("no", True), ("yes", False)])
def test_a_card_is_offered_only_where_a_camera_may_go_in(away, sit, gas, card):
    job = folder(away, site=SMALL_HOUSE)
    keys = "1" if gas == "yes" else CALM + "ddd" + "1" + "d" * 40 + "0" + "0"
    said = sit(LATER + keys, site=job)
    assert ("Which card for the pocket?" in said) == card
    assert (job / "site.yaml").is_file()
