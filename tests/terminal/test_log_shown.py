"""The log and what was learned, on the screen: in words of whoever pushes, not of the file."""

from __future__ import annotations

import time
from datetime import UTC, datetime
from math import log
from pathlib import Path

import pytest

from advisor.job.folder import Job
from advisor.push.learn.learn import Lessons
from advisor.push.learn.pairs import Pair
from advisor.push.learn.rub import Factor
from advisor.push.log.kinds import KINDS
from advisor.push.log.log import Entry, Log
from advisor.quantity import Units
from advisor.tables.place import rules_dir
from advisor.terminal import learn_screen
from advisor.terminal.log_screen import export_log, line_of, show_log
from advisor.terminal.page import Page
from tests.cases.jobs import tables

NOON = datetime(2026, 3, 4, 12, tzinfo=UTC)


def shown(
    kind: str, data: dict[str, object], counter: float | None = 3.0, units: Units = Units.METRIC
) -> str:
    entry = Entry(1, NOON, NOON, kind, counter, data)  # type: ignore[arg-type]
    return line_of(entry, units, tables().stuck).removeprefix(f"1 {NOON.astimezone():%Y-%m-%d %H:%M:%S}: ")


@pytest.mark.parametrize(
    ("kind", "data", "expected"),
    [
        (
            "try",
            # In the order in which a file keeps it: by the letters of the names.
            {"book": 0.42, "force": "light", "outcome": "stopped", "planned": True, "spot": "wye into main",
             "technique": "pull and turn", "water": "none", "way": "merge"},
            "tried at 3 m: pull and turn; at the wye into main; fitting: out of a branch into the main; "
            "still held; light push; water: none; one try passes in 42 % by the book; as planned",
        ),
        ("offered", {"technique": "short strokes", "way": "leg"},
         "advised at 3 m: short strokes; fitting: off the main into a branch"),
        ("sighting", {"what": "bore", "size": 0.1},
         "sighting at 3 m: the pipe changes size; about 100 mm wide"),
        ("find", {"clock": 6.0, "distance": 4.0, "line": "main", "sure": 0.7, "what": "roots"},
         "find at 3 m: roots; on main; by the sheet 4 m down it; at 6:00 on the clock face; "
         "70 % sure of the pipe"),
        ("stopped", {"sign": "wall ahead", "feel": "dead"},
         "went no further at 3 m: seen: a wall across the picture; felt: it feels dead and hard"),
        ("water", {"fixture": "sink", "seconds": 9.0, "dye": False, "side": "behind"},
         "water at 3 m: run at sink; it came after 9 s; from behind the lens; without dye"),
        ("water", {"fixture": "sink", "seconds": None, "dye": False},
         "water at 3 m: run at sink; not seen to come; without dye"),
        ("water", {"fixture": "sink", "dye": True}, "water at 3 m: run at sink; not seen to come; with dye"),
        ("try", {"technique": "guide", "outcome": "passed", "loadout": "slim reel", "outside": True},
         "tried at 3 m: guide; it passed; with slim reel, guide on it; all of the rod drawn out for it"),
        ("try", {"technique": "string", "outcome": "passed", "loadout": "slim + guide", "outside": True},
         "tried at 3 m: string; it passed; with slim + guide, string on it; all of the rod drawn out for it"),
        ("try", {"technique": "guide", "outcome": "passed", "loadout": "slim + guide", "outside": True},
         "tried at 3 m: guide; it passed; with slim + guide; all of the rod drawn out for it"),
        ("try", {"technique": "guide", "outcome": "passed", "loadout": "slim reel", "outside": False},
         "tried at 3 m: guide; it passed; with slim reel; the rod not known to be out for it"),
        ("try", {"technique": "water", "outcome": "passed", "loadout": "slim reel"},
         "tried at 3 m: water; it passed; with slim reel"),
        ("end", {"reached": False, "why": "no time"}, "ended at 3 m: target not reached; why: no time"),
        ("mark", {"name": "m", "depth": 1.2, "upright": False},
         "mark at 3 m: m; depth 1.2 m; not in a riser"),
    ],
)  # fmt: skip
def test_an_entry_is_told_in_plain_words(kind, data, expected):
    assert shown(kind, data) == expected


def test_an_undo_says_what_was_taken_back():
    assert shown("undo", {"of": 3.0}, None) == "taken back: entry 3"


def test_nothing_that_an_entry_says_is_lost():
    """A value for everything that any kind of entry may say: each is in the line."""
    for kind, says in KINDS.items():
        for name, say in says.items():
            value = say.words[0] if say.words else "zebra" if say.type is str else 4.0
            if say.type is bool or name in ("way", "what", "outcome"):
                continue
            told = shown(kind, {name: value})
            assert ("zebra" if value == "zebra" else value if say.words else "4") in told, (kind, name)
            assert "_" not in told


def test_times_on_the_screen_are_those_of_the_place_and_exports_keep_utc(monkeypatch, tmp_path, capsys):
    """Noon UTC is half past five in the afternoon where the clock is five and a half hours ahead."""
    monkeypatch.setenv("TZ", "XYZ-05:30")
    time.tzset()
    try:
        job = Job(tmp_path)
        log_ = Log.open(job.log)
        log_.append("start", 0.0, {"opening": "plug"}, NOON)
        log_.close()
        show_log(job, Units.METRIC, rules_dir(), Page())
        said = capsys.readouterr().out
        assert "2026-03-04 17:30:00: start" in said
        assert "UTC+05:30" in " ".join(said.split()).upper()
        assert "12:00" not in said
        export_log(job, rules_dir(), False, None, False, Page())
        said = capsys.readouterr().out
        assert "happened at UTC" in said
        assert "2026-03-04T12:00:00Z" in said
    finally:
        monkeypatch.undo()
        time.tzset()


# -- what was learned -------------------------------------------------------------------------


def lessons(gain: float) -> Lessons:
    pair = Pair("pull and turn", "merge", 9, 4, 0.4, 0.45, 0.3, 0.6, 0.1)
    return Lessons((pair,), Factor(1.0, 0.9, 1.1), 9, 0, 2, gain >= 0, gain, True, 0.0, 5)


@pytest.mark.parametrize(
    ("gain", "words"),
    [
        # A log score won is the logarithm of how many times likelier what happened was thought.
        (0.0, "Used. With each job foretold from the others, what happened is foretold as well as by "
         "the book: no change."),
        (log(2),
         "Used. With each job foretold from the others, what happened is foretold better: 2.00 times"),
        (log(1000), "more than 100 times as likely as by the book"),
        (-log(2), "Not used. With each job foretold from the others, what happened is foretold worse: 0.50"),
    ],
)  # fmt: skip
def test_what_was_learned_is_told_without_scores(gain, words, monkeypatch, capsys):
    monkeypatch.setenv("COLUMNS", "90")
    monkeypatch.setattr(learn_screen, "lessons_now", lambda *_: (lessons(gain), ()))
    monkeypatch.setattr(learn_screen, "listed", lambda: (Path("job"),))
    assert learn_screen.show_lessons(rules_dir(), Page()) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert words in said
    assert "pull and turn, out of a branch" in said
    assert "merge" not in said
    assert "+0.00" not in said
