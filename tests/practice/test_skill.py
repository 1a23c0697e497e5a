"""Steps, schedule and review log; the schedule against the fsrs library itself."""

from __future__ import annotations

import json
import os
from datetime import UTC, datetime, timedelta

import pytest
from fsrs import Card, Rating, Scheduler

from advisor.errors import BadInput
from advisor.practice.progress import chart, standing
from advisor.practice.review import Review, add, read
from advisor.practice.skill import ALONE, HINTS, SKILLS, WORKED, next_skill, replay
from tests.practice.school import MARKS

START = datetime(2026, 3, 2, 9, tzinfo=UTC)


def review(day: float, credit: float, skill: str = "opening", seed: int | None = None, unsafe: bool = False):
    at = START + timedelta(days=day)
    number = int(day * 100) if seed is None else seed
    return Review(at, skill, number, "wye", WORKED, 30 * (1 - credit), credit, unsafe)


HISTORY = [
    (0, 1.0), (0.01, 0.9), (1, 0.3), (1.01, 1.0), (3, 0.6), (9, 1.0), (30, 1.0), (80, 0.85), (300, 1.0),
]  # fmt: skip


def test_the_schedule_is_the_librarys_own():
    # Again below half, hard below four fifths, else good: as docs/practice.md has it.
    card = Card(card_id=1, due=START)
    library = Scheduler(desired_retention=0.9, maximum_interval=180, enable_fuzzing=False)
    for day, credit in HISTORY:
        told = Rating.Again if credit < 0.5 else Rating.Hard if credit < 0.8 else Rating.Good
        card, _ = library.review_card(card, told, review_datetime=START + timedelta(days=day))
    ours = replay([review(day, credit) for day, credit in HISTORY], MARKS)["opening"].card
    assert ours is not None
    assert ours.to_json() == card.to_json()


def test_replay_from_the_log_gives_the_same_state(tmp_path):
    log = tmp_path / "own" / "practice.jsonl"
    told = [review(day, credit, SKILLS[i % 3]) for i, (day, credit) in enumerate(HISTORY)]
    for each in told:
        add(log, each)
    assert read(log) == tuple(told)
    once, again = replay(told, MARKS), replay(read(log), MARKS)
    for name in SKILLS:
        assert (once[name].step, once[name].cases) == (again[name].step, again[name].cases)
        cards = [s[name].card.to_json() if s[name].card else None for s in (once, again)]
        assert cards[0] == cards[1]


def test_every_skill_comes_back_within_six_months():
    at, told = 0.0, []
    for _ in range(30):
        told.append(review(at, 1.0))
        due = replay(told, MARKS)["opening"].due
        assert due is not None
        wait = (due - told[-1].at).total_seconds() / 86400
        assert wait <= 183
        at += wait
    assert wait > 150  # the schedule does stretch that far


def test_help_fades_and_comes_back():
    told = [review(i, 1.0) for i in range(2)]
    assert replay(told, MARKS)["opening"].step == WORKED
    told.append(review(2, 1.0, seed=100))  # the second case again: not a third one
    assert replay(told, MARKS)["opening"].step == WORKED
    told.append(review(3, 0.5))
    assert replay(told, MARKS)["opening"].step == HINTS  # 1, 1, 0.5: five sixths
    told += [review(10 + i, 0.8) for i in range(3)]
    assert replay(told, MARKS)["opening"].step == ALONE
    told += [review(20 + i, 0.49) for i in range(3)]
    assert replay(told, MARKS)["opening"].step == HINTS
    told += [review(30 + i, 1.0, unsafe=True) for i in range(3)]
    assert replay(told, MARKS)["opening"].step == WORKED  # what hurts somebody is no credit


def test_what_is_due_comes_first_and_never_one_kind_twice_running():
    skills = replay([], MARKS)
    assert next_skill(skills, START) == SKILLS[0]
    assert next_skill(skills, START, SKILLS[0]) == SKILLS[1]
    told = [review(i * 0.001, 1.0, name) for i, name in enumerate(SKILLS)]
    far = START + timedelta(days=400)
    first = next_skill(replay(told, MARKS), far)
    assert next_skill(replay(told, MARKS), far, first) != first
    assert (
        next_skill(replay(told, MARKS), START, SKILLS[0]) != SKILLS[0]
    )  # nothing due: what comes back soonest


def test_a_review_is_on_disk_when_told_and_only_added(tmp_path, monkeypatch):
    log, synced = tmp_path / "practice.jsonl", []
    fsync = os.fsync
    monkeypatch.setattr(os, "fsync", lambda handle: (synced.append(handle), fsync(handle)))
    add(log, review(0, 1.0))
    first = log.read_bytes()
    add(log, review(1, 0.5))
    assert len(synced) == 2
    assert log.read_bytes().startswith(first)


@pytest.mark.parametrize("cut", range(1, 60, 7))
def test_a_line_that_a_power_cut_left_half_is_not_told(tmp_path, cut):
    log = tmp_path / "practice.jsonl"
    add(log, review(0, 1.0))
    whole = log.read_bytes()
    log.write_bytes(whole + whole[:cut])
    assert read(log) == (review(0, 1.0),)
    add(log, review(1, 1.0))
    assert read(log) == (review(0, 1.0), review(1, 1.0))


def test_a_line_without_its_end_is_kept(tmp_path):
    log = tmp_path / "practice.jsonl"
    add(log, review(0, 1.0))
    log.write_bytes(log.read_bytes().rstrip(b"\n"))
    add(log, review(1, 1.0))
    assert read(log) == (review(0, 1.0), review(1, 1.0))


@pytest.mark.parametrize("wrong", ["nonsense", "{}", "[1]", '{"at": "yesterday"}', "null"])
def test_a_damaged_log_is_told_by_its_line(tmp_path, wrong):
    log = tmp_path / "practice.jsonl"
    add(log, review(0, 1.0))
    log.write_text(log.read_text() + wrong + "\n")
    with pytest.raises(BadInput, match=r"practice\.jsonl:2: this is not a review"):
        read(log)


def test_progress_is_honest_about_few_tries():
    few = [review(i, 1 - i / 10) for i in range(9)]
    assert "too few to tell" in standing(few, "opening", MARKS).words
    # Ten tries, half against half: means 20 and 5 min, all alike within a half.
    made = [review(i, 1 / 3 if i < 5 else 5 / 6) for i in range(10)]
    told = standing(made, "opening", MARKS)
    assert told.gain == pytest.approx(15)
    assert told.words == "15 min less a drill than at first"
    # Spread as wide as the gap: regrets 0 and 30 in turn on both sides.
    even = [review(i, i % 2) for i in range(10)]
    assert standing(even, "opening", MARKS).words == "no change that the tries can show"


def test_the_chart_has_one_mark_a_try():
    made = [review(0, 1.0), review(1, 0.9), review(2, 0.6), review(3, 0.0), review(4, 1.0, unsafe=True)]
    assert chart(made) == ".:oO!"


def test_a_log_is_json_lines(tmp_path):
    add(tmp_path / "x", review(0, 1.0))
    row = json.loads((tmp_path / "x").read_text())
    assert row["skill"] == "opening"
    assert row["at"].endswith("+00:00")


def test_a_skill_that_there_is_no_more_is_left_out():
    old = Review(datetime(2026, 1, 5, tzinfo=UTC), "juggling", 1, "x", WORKED, 0.0, 1.0, False)
    assert replay([old], MARKS) == replay([], MARKS)


def test_what_was_not_tried_is_told_so():
    assert standing([], "stop", MARKS).words == "not tried yet"
