"""Practice at the terminal, key by key: a drill of each kind and a whole push, nothing kept that is left."""

from __future__ import annotations

from contextlib import suppress
from datetime import UTC, datetime, timedelta
from itertools import count

import pytest
from fsrs import Card

from advisor.cli import main
from advisor.commands.practice import KINDS
from advisor.errors import BadInput
from advisor.job.folder import Job
from advisor.practice.drills import make
from advisor.practice.review import Review, add, read
from advisor.practice.skill import ALONE, HINTS, SKILLS, WORKED, Skill
from advisor.push.log.log import Log
from advisor.tables.place import rules_dir
from advisor.terminal.page import Page
from advisor.terminal.practice.drill_screen import Left, run_drill
from advisor.terminal.practice.push_screen import run_push
from advisor.terminal.practice.report_screen import show_report
from advisor.terminal.practice.session import _told, job_drill, sitting
from advisor.terminal.practice.welcome import own_region, welcome
from advisor.terminal.ready import make_school
from tests.practice.school import MARKS, scene_of, school
from tests.practice.test_from_job import SITE
from tests.terminal.test_choose import typed

NOW = datetime(2026, 6, 1, 9, tzinfo=UTC)


def test_the_kinds_of_the_command_are_the_skills():
    assert KINDS == SKILLS


@pytest.mark.parametrize("step", [WORKED, HINTS, ALONE])
def test_a_drill_tells_what_the_answer_costs_and_why(step, capsys):
    drill = make("technique", school(), 3)
    best = [str(ask.options.index(ask.best) + 1) for ask in drill.asks]
    with typed(("h" if step == HINTS else "") + "".join(best)):
        graded = run_drill(drill, step, "technique", MARKS, Page())
    said = capsys.readouterr().out
    assert graded.credit == 1
    assert "Right." in said
    assert "In all: none is better" in said
    assert ("Hint:" in said) == (step != ALONE)


def test_what_is_to_be_seen_stands_above_every_question(capsys):
    """Above each, so that no drawing of the drain, however long, stands between the task and the question."""
    drill = make("opening", school(), 3)
    with typed("1"):
        run_drill(drill, ALONE, "opening", MARKS, Page())
    said = capsys.readouterr().out
    before = said[: said.index(drill.asks[0].question)].split()
    task = next(row for row in drill.story if row.startswith("The camera is to see: "))
    wanted = f"To be seen: {task.removeprefix('The camera is to see: ')}".split()
    assert before[-len(wanted) :] == wanted


def test_a_choice_that_hurts_shows_its_caution(capsys):
    drill = make("stop", school(), 3)
    bad = next(i for i, option in enumerate(drill.asks[0].options, 1) if option.unsafe)
    with typed(str(bad)):
        graded = run_drill(drill, HINTS, "stop", MARKS, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert not MARKS.passed(graded.credit, bool(graded.unsafe))
    assert drill.asks[0].options[bad - 1].unsafe.text.split()[0] in said
    assert "In all: not passed" in said


def test_leaving_keeps_nothing(tmp_path, capsys):
    drill = make("stop", school(), 3)
    with typed("q"), pytest.raises(Left):
        run_drill(drill, HINTS, "stop", MARKS, Page())
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
    show_report(read(log), NOW, MARKS, Page())
    assert "Nothing has been practised yet" in capsys.readouterr().out
    for day in range(3):
        add(log, Review(NOW + timedelta(days=day), "hands", day, "rod", WORKED, 12.0, 0.6, day == 1))
    show_report(read(log), NOW + timedelta(days=3), MARKS, Page())
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
        graded = run_drill(drill, ALONE, "technique", MARKS, Page())
    said = capsys.readouterr().out
    assert graded.credit == 1
    assert "Distances count from the top of each line." in " ".join(said.split())
    for word, meaning in drill.words:
        assert f"{word}: {meaning}" in " ".join(said.split())


def test_another_follows_without_its_example_and_the_sitting_ends_with_its_seeds(tmp_path, capsys):
    log = tmp_path / "practice.jsonl"
    with typed("1" + "1" + "1" + "1" + "1"):  # the example, an answer, another, an answer, another
        sitting(school(), log, lambda: NOW, "stop", iter([3, 4]), Page())
    assert [review.seed for review in read(log)] == [3, 4]
    assert capsys.readouterr().out.count("AN EXAMPLE") == 1


def test_a_whole_push_is_kept_as_a_skill_of_its_own(tmp_path):
    log = tmp_path / "practice.jsonl"
    with typed("0" + "q"):  # given up at the openings, enough
        sitting(school(), log, lambda: NOW, "push", iter([1]), Page())
    (kept,) = read(log)
    study, _ = scene_of(1)
    assert (kept.skill, kept.seed, kept.about) == ("push", 1, study.target.line)


@pytest.mark.parametrize(
    ("wait", "says"),
    [
        (timedelta(hours=5), "This comes back today."),
        (timedelta(hours=30), "This comes back tomorrow."),
        (timedelta(days=4, hours=1), "This comes back in 4 days."),
    ],
)
def test_when_a_skill_comes_back_is_told_in_days(wait, says, capsys):
    skill = Skill("stop", HINTS, Card(card_id=1, due=NOW + wait))
    _told(skill, skill, NOW, Page())
    said = capsys.readouterr().out
    assert says in said
    assert "From here on" not in said


def test_a_step_that_was_reached_is_told(capsys):
    _told(Skill("stop", WORKED), Skill("stop", HINTS), NOW, Page())
    assert capsys.readouterr().out.split() == ["From", "here", "on:", *f"{HINTS}.".split()]


def test_a_report_of_every_skill_misses_none_and_says_when_each_comes_back(tmp_path, capsys):
    reviews = [Review(NOW, name, 1, "x", WORKED, 0.0, 1.0, False) for name in SKILLS]
    show_report(reviews, NOW + timedelta(seconds=1), MARKS, Page())
    soon = capsys.readouterr().out
    assert "Not begun" not in soon
    assert "hurt somebody" not in soon
    assert soon.count("comes back on") == len(SKILLS)
    show_report(reviews[:1], NOW + timedelta(days=400), MARKS, Page())
    late = " ".join(capsys.readouterr().out.split())
    assert "due now" in late
    assert "1 drill from" in late
    assert "Not begun: " in late


def test_a_drill_from_a_job_tells_at_its_end_what_came_of_it(tmp_path, capsys):
    job = Job(tmp_path)
    job.site.write_text(SITE)
    log = Log.open(job.log)
    log.append("start", 0.0, {"opening": "Odalys plug"}, NOW)
    for technique, outcome in (("quick push", "stopped"), ("turn the rod", "passed")):
        log.append("try", 3.0, {"technique": technique, "outcome": outcome}, NOW)
    log.close()
    with typed("1"):
        job_drill(school(), job, 1, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert said.count("On the job turn the rod passed in the end.") == 1
    with typed("q"):
        job_drill(school(), job, 1, Page())
    assert "Left." in capsys.readouterr().out


@pytest.mark.parametrize("key", ["q", "\x03", "\x04"])
def test_what_was_left_does_not_come_again(key, tmp_path, monkeypatch, capsys):
    """Its answers are known by then; what is asked for by its number comes as asked."""
    monkeypatch.setenv("PUSH_ADVISOR_HOME", str(tmp_path))
    monkeypatch.setattr("advisor.terminal.choose.need_terminal", lambda _: None)
    monkeypatch.setattr("advisor.terminal.ready.make_school", lambda *_: school())
    (tmp_path / "practice-region").write_text("britain")
    seeds = []

    def seen(school_, seed: int):
        seeds.append(seed)
        return scene_of(3)

    monkeypatch.setattr("advisor.terminal.practice.session.scene", seen)
    for options in ([], [], ["--seed", "7"]):
        with typed(key), suppress(SystemExit, KeyboardInterrupt, EOFError):
            main(["practice", "push", *options])
    assert seeds[0] != seeds[1]
    assert seeds[2] == 7
    # One that is finished counts on from there: nothing that was shown is shown again.
    add(tmp_path / "practice.jsonl", Review(NOW, "push", seeds[1], "x", WORKED, 1.0, 0.9, unsafe=False))
    with typed(key), suppress(SystemExit, KeyboardInterrupt, EOFError):
        main(["practice", "push"])
    assert seeds[3] not in seeds[:2]
    capsys.readouterr()


def test_a_count_that_cannot_be_kept_is_told(tmp_path):
    (tmp_path / "practice-left").mkdir()
    with pytest.raises(BadInput, match="cannot be written"), typed("q"):
        sitting(school(), tmp_path / "practice.jsonl", lambda: NOW, "stop", count(3), Page())
