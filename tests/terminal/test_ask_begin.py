"""How a question session begins, goes on and is looked back at: nothing asked twice, nothing lost."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from advisor.errors import BadInput
from advisor.interview.answers import Answer
from advisor.interview.dialogue import Session
from advisor.interview.question import DONT_KNOW
from advisor.interview.store import Kept, mark_of, read, save
from advisor.job.folder import Job
from advisor.job.own import kit_later
from advisor.tables.place import rules_dir
from advisor.terminal import ask_screen
from advisor.terminal.ask_command import ask
from advisor.terminal.ask_offers import offer_kit
from advisor.terminal.ask_session import AskRun
from advisor.terminal.page import Page
from tests.interview.small_session import known
from tests.terminal import test_ask_answers as sitting
from tests.terminal.test_ask import CALM, SMALL_HOUSE, of, on_disk, run, typed
from tests.terminal.test_ask_answers import wanted

away = sitting.away  # a fixture
LATER = "2"  # what is on the truck is said another day
GAS_NO = ("gas-smell", ("no",))


@pytest.fixture
def sit(away, monkeypatch, capsys):
    """One whole command with these keys; what the screen said."""
    monkeypatch.setattr("advisor.terminal.ask_command.need_terminal", lambda _: None)

    def command(keys: str, **given: object) -> str:
        with typed(keys):
            assert ask(wanted(**given)) == 0
        return " ".join(capsys.readouterr().out.split())

    return command


def folder(away: Path, **files: str) -> Path:
    job = away / "job"
    job.mkdir()
    for name, text in files.items():
        (job / f"{name}.yaml").write_text(text)
    return job


# -- where it begins ------------------------------------------------------------------------------


def test_a_new_job_is_named_and_kept_in_a_folder_of_that_name(away, sit):
    said = sit(LATER + "Alder Row 9\r" + "1" + "l")
    assert "What do you call this job?" in said
    assert "Everything is kept in the folder alder-row-9." in said
    assert on_disk(away / "alder-row-9") == [("region", ("north america",))]
    assert read(away / "alder-row-9" / "answers.yaml")[1].job == "Alder Row 9"


def test_a_job_without_a_name_is_called_job(away, sit):
    sit(LATER + "\r" + "1" + "l")
    assert on_disk(away / "job") == [("region", ("north america",))]


@pytest.mark.parametrize(
    ("name", "says"),
    [("x" * 61, "it is longer than 60 letters"), ("Row\u200b9", "letters, numbers and spaces only")],
)
def test_a_name_that_no_folder_takes_is_asked_again(away, sit, name, says):
    said = sit(LATER + name + "\r" + "Elm 4\r" + "1" + "l")
    assert says in said
    assert [path.name for path in away.iterdir() if path.is_dir() and path.name != "own"] == ["elm-4"]


def test_sixty_letters_are_a_name(away, sit):
    sit(LATER + "x" * 60 + "\r" + "1" + "l")
    assert (away / ("x" * 60)).is_dir()


def test_a_sheet_alone_begins_a_job_called_after_its_site(away, sit):
    sheet = away / "somewhere.yaml"
    sheet.write_text(SMALL_HOUSE)
    said = sit(LATER + "2" + "l", site=sheet)
    assert "What do you call this job?" not in said
    assert "kept in the folder short-house." in said
    assert on_disk(away / "short-house") == [GAS_NO]
    assert sheet.read_text() == SMALL_HOUSE


def test_a_job_that_was_left_before_its_sheet_goes_on_where_it_was(away, sit):
    sit(LATER + "Alder Row 9\r" + "1" + "l")
    said = sit("e" + "l", site=away / "alder-row-9")
    assert "WHERE YOU LEFT OFF" in said
    assert "Where is the building? North America." in said
    assert [name for name, _ in on_disk(away / "alder-row-9")] == ["region", "built"]


def test_an_empty_folder_becomes_a_job_of_its_name(away, sit):
    job = folder(away)
    said = sit(LATER + "1" + "l", site=job)
    assert "WHERE YOU LEFT OFF" not in said
    assert on_disk(job) == [("region", ("north america",))]
    assert read(job / "answers.yaml")[1].job == "job"


def test_cut_off_before_it_wrote_a_sheet_it_keeps_its_answers(away, sit):
    job = folder(away, site=SMALL_HOUSE)
    save(job / "answers.yaml", Kept("job", SMALL_HOUSE, (Answer("gas-smell", "job", ("no",)),)))
    sit(LATER + "2" + "l", site=job)
    assert on_disk(job) == [GAS_NO, ("holding", ("no",))]


def test_its_own_sheet_it_knows_again_and_goes_on_from_the_answers(away, sit):
    made = SMALL_HOUSE + "# made\n"
    job = folder(away, site=made)
    answers = (Answer("gas-smell", "job", ("no",)),)
    save(job / "answers.yaml", Kept("job", SMALL_HOUSE, answers, mark_of(made)))
    sit(LATER + "2" + "l", site=job)
    assert on_disk(job) == [GAS_NO, ("holding", ("no",))]
    # Edited since, what stands on the sheet holds, and what was answered is not asked again.
    (job / "site.yaml").write_text(made + "# edited\n")
    sit("2" + "l", site=job)
    assert on_disk(job) == [GAS_NO, ("holding", ("no",)), ("chemicals", ("no",))]


def test_what_was_answered_since_the_sheet_outlives_an_edit_by_hand(away, sit):
    """Nothing is written over without a copy beside it, and what does not fit any more is told by name."""
    job = folder(away, site=SMALL_HOUSE + "# made\n")
    gas, tank, plug = (
        Answer("gas-smell", "job", ("no",)),
        Answer("septic", "job", ("yes",)),
        Answer("opening-there", "house drain/opening:no such plug", ("yes",)),
    )
    save(job / "answers.yaml", Kept("job", SMALL_HOUSE, (gas, tank, plug), mark_of(SMALL_HOUSE), (gas,)))
    was = (job / "answers.yaml").read_bytes()
    (job / "site.yaml").write_text(SMALL_HOUSE.replace("task:\n", "task:\n  complaint: {gas smell: no}\n"))
    said = sit(LATER + "l", site=job)
    assert "edited by hand" in said
    assert "kept as answers.before-1.yaml" in said
    assert "left out: Look for the no such plug: is it there? yes." in said
    assert (job / "answers.before-1.yaml").read_bytes() == was
    assert on_disk(job) == [("gas-smell", ("no",)), ("septic", ("yes",))]
    sit("l", site=job)
    assert on_disk(job) == [("gas-smell", ("no",)), ("septic", ("yes",))]
    assert not (job / "answers.before-2.yaml").exists(), "once an edit"


def test_an_answer_that_fits_no_more_is_told_and_the_job_goes_on_without_it(away, sit):
    job = folder(away)
    had = (Answer("gas-smell", "job", ("no",)), Answer("holding", "job", ("a word of old",)))
    save(job / "answers.yaml", Kept("small job", SMALL_HOUSE, had))
    was = (job / "answers.yaml").read_text()
    said = sit(LATER + "l", site=job)
    assert "Does not fit any more and is left out: " in said
    assert "a word of old." in said
    assert "The answers so far are kept as answers.before-1.yaml." in said
    assert (job / "answers.before-1.yaml").read_text() == was
    assert on_disk(job) == [GAS_NO]


# -- what an answer is told to change -------------------------------------------------------------


# -- where nobody can be asked --------------------------------------------------------------------


def test_with_every_question_answered_nothing_is_told_as_unanswered(away, capsys):
    (away / "first").mkdir()
    run(away / "first", "1")  # gas: nothing more is asked
    capsys.readouterr()
    ask(wanted(answers=away / "first" / "answers.yaml"))
    said = capsys.readouterr().out
    assert "NOT ANSWERED" not in said
    assert "Gas will explode" in " ".join(said.split())


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ('{question: holding, answer: ["yes", "no"]}', "holding: expected one answer"),
        ("{question: built, answer: '1699'}", "expected a year such as 1958"),
    ],
)
def test_an_answer_that_cannot_hold_is_told_with_its_line(away, row, says):
    (away / "a.yaml").write_text(f"answers:\n  - {{question: region, answer: britain}}\n  - {row}\n")
    with pytest.raises(BadInput) as caught:
        ask(wanted(answers=away / "a.yaml"))
    assert says in str(caught.value)
    assert str(caught.value).startswith(f"{away / 'a.yaml'}:3: ")


def test_not_known_may_be_said_in_a_file_and_stays_not_known(away, capsys):
    (away / "a.yaml").write_text(f"answers: [{{question: region, answer: {DONT_KNOW}}}]\n")
    ask(wanted(answers=away / "a.yaml"))
    said = capsys.readouterr().out
    assert "region: " not in said.split("DO THIS FIRST")[0], "it was answered"
    assert ("region", (DONT_KNOW,)) in on_disk(away / "job")


def test_the_truck_is_asked_about_at_once_where_that_is_wanted(away, monkeypatch):
    asked = []
    monkeypatch.setattr(
        "advisor.terminal.ask_offers.kit_command.new",
        lambda force, units, rules, page: asked.append((force, units)),
    )
    with typed("1"):
        offer_kit(None, "metric", rules_dir(), Page())
    assert asked == [(False, "metric")], "a kit that is there is never written over"
    assert not kit_later().exists(), "it is not put off"


# -- what an answer changed -----------------------------------------------------------------------


def test_before_the_building_is_known_there_is_nothing_to_draw(tmp_path, capsys):
    run(tmp_path, "b" + "s" + "d" + "s" + "e" + "l", Kept("new job", None))
    said = " ".join(capsys.readouterr().out.split())
    assert "This is the first question." in said
    assert said.count("Nothing is drawn yet: first the kind of building.") == 2
    assert "Taken as North America, with its words, codes and emergency numbers." in said
    assert "Noted; the plan starts once the building is known." in said


def test_the_building_is_drawn_as_soon_as_it_is_known(tmp_path, capsys):
    kept = run(tmp_path, "1e" + "1" + "d" + "l", Kept("new job", None)).kept
    said = " ".join(capsys.readouterr().out.split())
    assert kept.answers[2].question == "building"
    assert "Drawn as: " in said
    assert "places where a rod might go in, all assumed." in said
    # Nobody knows whether it smells of gas: what to do until somebody does is said at once.
    assert "Until then the gas warning stands." in said


# -- looking back ---------------------------------------------------------------------------------


def test_an_answer_picked_to_be_changed_and_left_stays(tmp_path):
    each = run(tmp_path, CALM + "ddd" + "1" + "d" * 40 + "1b" + "0")
    assert each.kept.answers[0] == Answer("gas-smell", "job", ("no",))


def test_more_answers_than_one_screen_are_looked_at_in_turn(tmp_path, capsys):
    each = run(tmp_path, CALM + "ddd" + "1" + "d" * 40 + "mm" + "0")
    said = capsys.readouterr().out.split("Is this right?")
    shown = each.kept.answers
    assert len(shown) > ask_screen.SHOWN
    assert "more of them" in said[1]
    # The second screen begins with the eighth answer, and after the last screen comes the first again.
    eighth, _ = ask_screen.told(shown[7], each.session, each.kept.answers)
    assert eighth in " ".join(said[2].split())
    assert eighth not in " ".join(said[1].split())


@pytest.mark.parametrize("right", ["0", "y"])
def test_with_few_answers_there_is_no_more_to_see(right, capsys):
    """`Is this right?` takes its number and, as every such question, a yes."""
    session = Session(replace(known(), sheet=SMALL_HOUSE))
    answers = (Answer("gas-smell", "job", ("no",)),)
    with typed("m" + right):
        assert ask_screen.pick_to_change(answers, session, Page(), more=False) is None
    assert "more of them" not in capsys.readouterr().out


def test_an_answer_about_what_is_no_longer_there_can_be_taken_out(tmp_path):
    """The house was changed; what was said of an opening of the other house keeps its question, and goes."""
    gone = Answer("opening-there", "house drain/opening:no such plug", ("yes",))
    kept = Kept("small job", SMALL_HOUSE, (Answer("gas-smell", "job", ("no",)), gone))
    each = AskRun(of(SMALL_HOUSE, "small job"), Job(tmp_path), kept, Page())
    assert ask_screen.told(gone, each.session, kept.answers) == (
        "Look for the no such plug: is it there?",
        "yes",
    )
    with typed("2"):
        assert each._reviewed() == "changed"
    assert on_disk(tmp_path) == [GAS_NO]


def test_where_all_was_asked_no_more_is_offered(tmp_path, capsys):
    session = Session(replace(known(), sheet=SMALL_HOUSE, ask_all=True))
    each = AskRun(session, Job(tmp_path), Kept("small job", SMALL_HOUSE), Page())
    with typed("1"):
        each.run()
    assert "Know more?" not in capsys.readouterr().out
    other = tmp_path / "other"
    other.mkdir()
    run(other, "1")
    assert "Know more? advisor ask" in " ".join(capsys.readouterr().out.split())
