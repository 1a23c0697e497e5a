"""Wounded answer files, wounded log files, and logs that tell nonsense in the right form.

As tests/fuzz/test_files.py: never a traceback, never slow, one message a fault with its place.
"""

from __future__ import annotations

import re
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random

import pytest

from advisor.errors import BadInput
from advisor.interview.sheets import Answers
from advisor.interview.store import Kept, checked, read, save
from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.push.disagree import disagree
from advisor.push.log.kinds import KINDS, START, UNDO, Value
from advisor.push.log.log import Entry, Log, open_push
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.report.build import report_of
from advisor.push.report.export import csv_of, json_of
from advisor.push.report.pages import text_of
from advisor.quantity import Units
from advisor.site.sheet import site_of_text
from advisor.tables.place import rules_dir
from tests.cases.jobs import rules, tables
from tests.fuzz.mutate import SPLINTERS, mutants
from tests.interview.small_session import answered, session
from tests.push.sites import WALK

LONGEST = 2.0  # s of this process for one file
SKIPPED = 10  # what follows from a log that is accepted is worked out for one in so many: it takes the time
MOST_ANSWERS = 14
NOON = datetime(2026, 3, 4, 12, tzinfo=UTC)
PLACE = re.compile(r"^[^:]*(answers\.yaml|log\.db|push)(:\d+)?: \S")


def in_time(start: float, what: object) -> None:
    assert time.process_time() - start < LONGEST, what


def told_well(wrong: BadInput, what: object) -> None:
    for fault in str(wrong).split("\n"):
        assert PLACE.match(fault), f"{fault!r} for {what!r}"
        assert fault.isprintable(), fault


# -- answers ------------------------------------------------------------------------------------


def whole_answers(path: Path) -> str:
    """A file of answers as a session leaves it: every kind of question answered."""
    luck, of = Random(5), session()
    answers: Answers = ()
    while (ask := of.next(answers)) is not None and len(answers) < MOST_ANSWERS:
        value = luck.choice([option.value for option in ask.options] or ["12 ft"])
        value = "no" if ask.question.id in ("gas-smell", "holding", "chemicals") else value
        answers = (*answers, answered(ask, value))
    save(path, Kept("a job", None, answers))
    return path.read_text(encoding="utf-8")


def put_answers_through(tmp_path: Path, count: int) -> None:
    path = tmp_path / "answers.yaml"
    text, of, accepted = whole_answers(path), session(), 0
    for wounded in mutants([text], count, seed=11):
        path.write_text(wounded, encoding="utf-8", errors="surrogatepass")
        start = time.process_time()
        try:
            sheet, _ = read(path)
            accepted += bool(checked(sheet, of))
        except BadInput as wrong:
            told_well(wrong, wounded)
        in_time(start, wounded)
    assert accepted, "some wounds are harmless"


def test_wounded_answer_files(tmp_path):
    put_answers_through(tmp_path, 1000)


@pytest.mark.slow
def test_ten_thousand_wounded_answer_files(tmp_path):
    put_answers_through(tmp_path, 10_000)


# -- the file of a log -----------------------------------------------------------------------------


def wounded_bytes(whole: bytes, luck: Random) -> bytes:
    """Bits turned, blocks lost, doubled, swapped or blanked, text put in, the end torn off."""
    data = bytearray(whole)
    for _ in range(luck.randint(1, 3)):
        at, other = luck.randrange(len(data)), luck.randrange(len(data))
        block = luck.choice((1, 4, 64, 512, 4096))
        wound = luck.randrange(6)
        if wound == 0:
            data[at] ^= 1 << luck.randrange(8)
        elif wound == 1:
            data[at : at + block] = bytes(min(block, len(data) - at))
        elif wound == 2:
            data[at : at + block] = data[other : other + block]
        elif wound == 3:
            del data[at : at + block]
        elif wound == 4:
            word = luck.choice(SPLINTERS).encode("utf-8", "replace")
            data[at : at + len(word)] = word
        else:
            del data[max(at, 1) :]
    return bytes(data)


def put_logs_through(tmp_path: Path, count: int) -> None:
    path, luck = tmp_path / "log.db", Random(12)
    log = Log.open(path)
    for number in range(25):
        log.append("note", float(number), {"text": f"note {number}"}, NOON + timedelta(minutes=number))
    true = log.entries()
    log.close()
    whole, accepted = path.read_bytes(), 0
    for _ in range(count):
        wounded = wounded_bytes(whole, luck)
        for left in tmp_path.glob("log.db*"):
            left.unlink()
        path.write_bytes(wounded)
        start = time.process_time()
        try:
            log = Log.open(path)
            try:
                assert log.entries() == true, "an entry was lost or changed in silence"
                accepted += 1
            finally:
                log.close()
        except BadInput as wrong:
            told_well(wrong, "a wounded log")
        in_time(start, "a wounded log")
    assert accepted, "some wounds are harmless"


def test_wounded_log_files(tmp_path):
    put_logs_through(tmp_path, 1000)


@pytest.mark.slow
def test_ten_thousand_wounded_log_files(tmp_path):
    put_logs_through(tmp_path, 10_000)


# -- what a log tells ------------------------------------------------------------------------------

WORDS = ("floor plug", "tie-in", "bend", "steady push", "quick push", "string", "kitchen sink", "house drain",
         "wall ahead", "picture stands", "large reel", *SPLINTERS)  # fmt: skip
NUMBERS = (0.0, 1.0, -1.0, 3.4, 7.5, 12.0, 29.0, 1e3, -1e3, 1e-12, 1e12, 0.5)


def random_entry(number: int, luck: Random) -> tuple[str, float | None, dict[str, Value]]:
    kind = START if number == 0 else luck.choice(list(KINDS))
    data: dict[str, Value] = {}
    for name, says in KINDS[kind].items():
        if not says.needed and luck.random() < 0.5:
            continue
        if says.words:
            data[name] = luck.choice(says.words)
        elif says.type is float:
            data[name] = float(luck.randint(1, number)) if kind == UNDO and number else luck.choice(NUMBERS)
        elif says.type is bool:
            data[name] = luck.random() < 0.5
        else:
            data[name] = luck.choice(WORDS)
    if kind == START:
        data["opening"] = "floor plug"
    return kind, None if luck.random() < 0.2 else luck.choice(NUMBERS), data


def put_stories_through(tmp_path: Path, count: int) -> None:
    """Random entries in the right form; every reader of a log gets through each or says what is wrong."""
    luck = Random(13)
    case = Case(site_of_text(WALK, "walk", tables()), default_kit(tables()), Units.INCH, 50)
    study = plan(case, tables(), rules())
    followed = 0
    for number in range(count):
        path = tmp_path / f"{number}" / "log.db"
        path.parent.mkdir()
        log = Log.open(path)
        for place in range(luck.randint(1, 8)):
            kind, counter, data = random_entry(place, luck)
            try:
                log.append(kind, counter, data, NOON + timedelta(minutes=place))
            except BadInput as wrong:
                told_well(wrong, data)
        start = time.process_time()
        entries, standing = log.entries(), log.standing()
        log.close()
        assert csv_of(entries).replace("\n", "").isprintable()
        assert json_of(entries)
        if number % SKIPPED == 0:
            followed += follow(standing, study, case)
        in_time(start, entries)
    assert followed


def follow(standing: tuple[Entry, ...], study: object, case: Case) -> bool:
    made = report_of("a job", standing, case, tables(), rules(), rules_dir())
    assert text_of(made)
    begun = open_push(standing)
    if not begun:
        return False
    now = Now(Push(study, begun[0]), begun[1:])  # type: ignore[arg-type]
    assert now.fix.places
    assert 0 <= now.fix.best.chance <= 1
    assert now.check is None or now.check.fixture in now.push.tracker.chart.fixtures
    assert now.held_at[0] is None or now.held_at[1], "no spot holds it where it is not held"
    assert all(why.isprintable() and why.endswith(".") for why in disagree(now))
    return True


def test_logs_that_tell_nonsense(tmp_path):
    put_stories_through(tmp_path, 200)


@pytest.mark.slow
def test_ten_thousand_logs_that_tell_nonsense(tmp_path):
    put_stories_through(tmp_path, 10_000)
