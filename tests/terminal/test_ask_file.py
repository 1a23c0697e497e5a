"""Answers from a file beside those of the job: which go, which stay, and what is told of it."""

from __future__ import annotations

from pathlib import Path

import pytest

from advisor.errors import BadInput
from advisor.interview.answers import Answer
from advisor.interview.store import Kept, mark_of, save
from advisor.terminal.ask_command import ask
from tests.terminal import test_ask_answers as others
from tests.terminal.test_ask import SMALL_HOUSE, on_disk
from tests.terminal.test_ask_answers import wanted
from tests.terminal.test_ask_begin import GAS_NO, folder

away = others.away  # a fixture


def test_answers_from_a_file_leave_a_copy_of_those_that_were_there(away, capsys):
    job = folder(away, site=SMALL_HOUSE)
    save(job / "answers.yaml", Kept("job", SMALL_HOUSE, (Answer("septic", "job", ("yes",)),)))
    was = (job / "answers.yaml").read_bytes()
    (away / "a.yaml").write_text("answers: [{question: gas-smell, answer: 'yes'}]\n")
    ask(wanted(site=job, answers=away / "a.yaml"))
    assert (job / "answers.before-1.yaml").read_bytes() == was


def of_file(away: Path, job: Path | None, text: str, capsys: pytest.CaptureFixture[str]) -> str:
    """What is said where the job is given a file of answers."""
    (away / "a.yaml").write_text(text)
    ask(wanted(site=job, answers=away / "a.yaml"))
    return " ".join(capsys.readouterr().out.split())


def test_answers_from_a_file_go_over_earlier_ones_and_the_others_stay(away, capsys):
    """What it does with answers that a job has already is told on one line."""
    job = folder(away, site=SMALL_HOUSE)
    pit = Answer("opening-there", "house drain/opening:yard pit", ("yes",))
    had = (Answer("gas-smell", "job", ("no",)), Answer("septic", "job", ("yes",)), pit)
    save(job / "answers.yaml", Kept("job", SMALL_HOUSE, had, mark_of(SMALL_HOUSE)))
    rows = "{question: septic, answer: 'no'}, {question: shared, answer: 'yes'}"
    said = of_file(away, job, f"answers: [{rows}]", capsys)
    assert "Earlier answers that stay: 2. Replaced by the file's: septic (yes, now no)." in said
    told = on_disk(job)
    assert told[:3] == [GAS_NO, ("septic", ("no",)), ("opening-there", ("yes",))]
    assert ("shared", ("yes",)) in told
    sheet = (job / "site.yaml").read_text()
    assert all(line in sheet for line in ("septic: no", "shared: yes", "there: yes"))
    # What was not answered the first time stays as not known, and is not listed anew.
    again = of_file(away, job, f"answers: [{rows}]", capsys)
    assert f"stay: {len(told)}. Replaced by the file's: none." in again
    assert "Not answered" not in again
    assert on_disk(job) == told


def test_answers_that_the_file_leaves_no_room_for_are_told(away, capsys):
    """Another kind of building: what was said of a place in the old one cannot be said of the new."""
    start = "{question: region, answer: north america}, {question: built, answer: '1952'}"
    rows = "{question: opening-there, about: yard cleanout, answer: 'yes'}, {question: roof, answer: 'yes'}"
    of_file(away, None, f"answers: [{start}, {{question: building, answer: basement}}, {rows}]", capsys)
    (job,) = (path.parent for path in away.glob("*/answers.yaml"))
    said = of_file(away, job, "answers: [{question: building, answer: apartment-riser}]", capsys)
    assert "building (basement, now apartment-riser)" in said
    assert "left out: Look for the yard cleanout: is it there? yes." in said
    assert ("opening-there", ("yes",)) not in on_disk(job)
    assert ("roof", ("yes",)) in on_disk(job)


def test_what_is_asked_later_decides_nothing_of_what_was_asked_before(away, capsys):
    """That a lid lifts says that it is there; that it is there stays given all the same."""
    job = folder(away, site=SMALL_HOUSE)
    pit = "house drain/opening:yard pit"
    had = (Answer("septic", "job", ("no",)), Answer("opening-there", pit, ("yes",)))
    save(job / "answers.yaml", Kept("job", SMALL_HOUSE, had, mark_of(SMALL_HOUSE)))
    lifts = "answers: [{question: opening-opens, about: yard pit, answer: 'yes'}]"
    said = of_file(away, job, lifts, capsys)
    assert "stay: 2. Replaced by the file's: none." in said
    assert "left out: " not in said
    told = on_disk(job)
    assert {("opening-there", ("yes",)), ("opening-opens", ("yes",))} <= set(told)
    again = of_file(away, job, (job / "answers.yaml").read_text(), capsys)
    assert f"stay: {len(told)}. Replaced by the file's: none." in again
    # By its name the same thing is meant, and what hangs on it goes with it.
    gone = "answers: [{question: opening-there, about: yard pit, answer: 'no'}]"
    said = of_file(away, job, gone, capsys)
    assert f"opening-there about {pit} (yes, now no)" in said
    assert "left out: Does the yard pit open? yes." in said


def test_a_file_of_answers_that_is_wrong_leaves_the_job_as_it_was(away, capsys):
    job = folder(away, site=SMALL_HOUSE)
    save(job / "answers.yaml", Kept("job", SMALL_HOUSE, (Answer("septic", "job", ("yes",)),)))
    was = {path.name: path.read_bytes() for path in job.iterdir()}
    with pytest.raises(BadInput, match="no such answer"):
        of_file(away, job, "answers: [{question: gas-smell, answer: perhaps}]", capsys)
    assert {path.name: path.read_bytes() for path in job.iterdir()} == was


def test_over_a_sheet_that_was_edited_by_hand_the_answers_of_a_file_go_too(away, capsys):
    job = folder(away, site=SMALL_HOUSE + "# edited\n")
    had = (Answer("gas-smell", "job", ("no",)), Answer("shared", "job", ("yes",)))
    save(job / "answers.yaml", Kept("job", SMALL_HOUSE, had, mark_of(SMALL_HOUSE)))
    said = of_file(away, job, "answers: [{question: shared, answer: 'no'}]", capsys)
    assert "edited by hand" in said
    assert "stay: 1. Replaced by the file's: shared (yes, now no)." in said
    assert GAS_NO in on_disk(job)
