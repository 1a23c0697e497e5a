"""Practice at the terminal, key by key: a drill of each kind and a whole push, nothing kept that is left."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from itertools import count

import pytest

from advisor.cli import main
from advisor.commands.practice import KINDS
from advisor.errors import BadInput
from advisor.practice.drills import make
from advisor.practice.review import Review, add, read
from advisor.practice.skill import ALONE, HINTS, SKILLS, WORKED
from advisor.tables.place import rules_dir
from advisor.terminal.page import Page
from advisor.terminal.practice.drill_screen import Left, run_drill
from advisor.terminal.practice.push_screen import run_push
from advisor.terminal.practice.report_screen import show_report
from advisor.terminal.practice.session import sitting
from advisor.terminal.practice.welcome import own_region, welcome
from advisor.terminal.ready import make_school
from tests.practice.school import scene_of, school
from tests.terminal.test_choose import typed

NOW = datetime(2026, 6, 1, 9, tzinfo=UTC)


def test_the_kinds_of_the_command_are_the_skills():
    assert KINDS == SKILLS


@pytest.mark.parametrize("step", [WORKED, HINTS, ALONE])
def test_a_drill_tells_what_the_answer_costs_and_why(step, capsys):
    drill = make("technique", school(), 3)
    best = [str(ask.options.index(ask.best) + 1) for ask in drill.asks]
    with typed(("h" if step == HINTS else "") + "".join(best)):
        graded = run_drill(drill, step, "technique", Page())
    said = capsys.readouterr().out
    assert graded.credit == 1
    assert "Right." in said
    assert "In all: none is better" in said
    assert ("Hint:" in said) == (step != ALONE)


def test_a_choice_that_hurts_shows_its_caution(capsys):
    drill = make("stop", school(), 3)
    bad = next(i for i, option in enumerate(drill.asks[0].options, 1) if option.unsafe)
    with typed(str(bad)):
        graded = run_drill(drill, HINTS, "stop", Page())
    said = " ".join(capsys.readouterr().out.split())
    assert not graded.passed
    assert drill.asks[0].options[bad - 1].unsafe.text.split()[0] in said
    assert "In all: not passed" in said


def test_leaving_keeps_nothing(tmp_path, capsys):
    drill = make("stop", school(), 3)
    with typed("q"), pytest.raises(Left):
        run_drill(drill, HINTS, "stop", Page())
    log = tmp_path / "practice.jsonl"
    with typed("q"):
        sitting(school(), log, lambda: NOW, "stop", count(3), Page())
    assert not log.exists()
    assert "does not count" in capsys.readouterr().out


def test_an_answer_is_kept_before_the_next_question(tmp_path, capsys):
    log = tmp_path / "practice.jsonl"
    with typed("1" + "1" + "q"):  # the example read, an answer, enough
        sitting(school(), log, lambda: NOW, "stop", count(3), Page())
    assert [(r.skill, r.seed, r.at) for r in read(log)] == [("stop", 3, NOW)]
    assert "AN EXAMPLE" in capsys.readouterr().out


def test_a_whole_push_is_played_and_walked_back(capsys):
    _, push = scene_of(0)
    with typed(
        "h" + "11" + "88" + "1111" + "21" + "45" + "10" * 20
    ):  # at the end give up, wherever it stands
        graded = run_push(push, HINTS, Page())
    said = capsys.readouterr().out
    assert "Hint:" in said
    assert "WALKING IT BACK" in said
    assert "Counter" in said
    assert 0 <= graded.credit <= 1


def test_the_report_is_honest_about_few_tries(tmp_path, capsys):
    log = tmp_path / "practice.jsonl"
    show_report(read(log), NOW, Page())
    assert "Nothing has been practised yet" in capsys.readouterr().out
    for day in range(3):
        add(log, Review(NOW + timedelta(days=day), "hands", day, "rod", WORKED, 12.0, 0.6, day == 1))
    show_report(read(log), NOW + timedelta(days=3), Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "3 tries: too few to tell" in said
    assert "o!o" in said
    assert "can hurt somebody or cost the head was chosen once" in said


@pytest.mark.parametrize("options", [["--seed", "-1"], ["--seed", "x"], ["juggling"], ["--from", "nowhere"]])
def test_nonsense_is_told_in_one_go(options, capsys, tmp_path, monkeypatch):
    monkeypatch.setenv("PUSH_ADVISOR_HOME", str(tmp_path))
    with pytest.raises(SystemExit) as ended:
        main(["practice", *options])
    assert ended.value.code == 2
    assert capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_where_one_works_is_asked_once_and_kept(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("PUSH_ADVISOR_HOME", str(tmp_path / "own"))
    with typed("2"):
        assert own_region(Page()) == "britain"
    assert own_region(Page()) == "britain"
    (tmp_path / "own" / "practice-region").write_text("the moon")
    with typed("1"):
        assert own_region(Page()) == "north america"
    (tmp_path / "own" / "practice-region").write_bytes(b"\xff\xfe")
    with pytest.raises(BadInput, match="cannot be read"):
        own_region(Page())
    welcome(Page(), first_time=True)
    welcome(Page(), first_time=False)
    assert capsys.readouterr().out.count("What is new comes with an example first.") == 1


def test_a_school_of_one_region_draws_its_houses_only():
    drawn = make_school(None, rules_dir(), "britain")
    assert {each.region for each in drawn.buildings} == {"britain"}
    assert len(make_school(None, rules_dir()).buildings) > len(drawn.buildings)


def test_broken_off_by_the_keyboard_is_told(tmp_path, capsys):
    with typed("\x03"), pytest.raises(KeyboardInterrupt):
        sitting(school(), tmp_path / "practice.jsonl", lambda: NOW, "stop", count(3), Page())
    assert "All before it is kept" in capsys.readouterr().out


def test_the_drain_and_the_words_are_shown_and_asked_again(capsys):
    drill = make("technique", school(), 3)
    with typed("sw" + "".join(str(ask.options.index(ask.best) + 1) for ask in drill.asks)):
        graded = run_drill(drill, ALONE, "technique", Page())
    said = capsys.readouterr().out
    assert graded.credit == 1
    assert "Distances count from the top of each line." in " ".join(said.split())
    for word, meaning in drill.words:
        assert f"{word}: {meaning}" in " ".join(said.split())
