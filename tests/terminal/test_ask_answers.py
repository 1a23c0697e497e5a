"""Answers from a file, saved and read back, and what is offered at the end."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest

from advisor import demo
from advisor.errors import BadInput
from advisor.interview.dialogue import Session
from advisor.interview.store import Kept, checked, mark_of, read, save
from advisor.job.folder import new_job
from advisor.site.sheet import read_site
from advisor.tables.place import rules_dir
from advisor.terminal.ask_command import Wanted, ask
from advisor.terminal.ask_offers import offer_card, offer_kit
from advisor.terminal.page import Page
from advisor.terminal.ready import make_ready
from tests.cases.jobs import tables
from tests.interview.small_session import known
from tests.terminal.test_ask import CALM, SMALL_HOUSE, run, typed

FILE = """
job: {name}
answers:
  - {{question: region, answer: north america}}
  - {{question: built, answer: "1952"}}
  - {{question: building, answer: basement}}
  - {{question: gas-smell, answer: "no"}}
  - {{question: holding, answer: "no, it drains away"}}
  - {{question: backs-up, answer: [floor drain, toilet]}}
  - {{question: opening-there, about: yard cleanout, answer: "yes"}}
"""


def wanted(**given: object) -> Wanted:
    return replace(Wanted(None, None, False, None, None, 100, None, rules_dir()), **given)  # type: ignore[arg-type]


@pytest.fixture
def away(tmp_path, monkeypatch):
    """An empty working folder, no truck kit, and no terminal."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("PUSH_ADVISOR_HOME", str(tmp_path / "own"))
    monkeypatch.setattr("sys.stdin", io.StringIO())
    return tmp_path


def test_without_a_terminal_and_a_file_it_says_so(away):
    with pytest.raises(BadInput, match="use --answers FILE"):
        ask(wanted())


def test_answers_from_a_file_plan_and_say_what_went_unanswered(away, capsys):
    (away / "answers.yaml").write_text(FILE.format(name="Alder Row 9"))
    assert ask(wanted(answers=away / "answers.yaml")) == 0
    said = capsys.readouterr().out
    assert "NOT ANSWERED, TAKEN AS NOT KNOWN" in said
    assert "chemicals: Has anybody poured" in said
    assert "DO THIS FIRST" in said
    sheet = read_site(away / "alder-row-9" / "site.yaml", tables()).model
    assert sheet.site == "Alder Row 9"
    assert sheet.task.complaint.backs_up == ("toilet", "floor drain")
    assert sheet.pumps is True  # the careful branch


@pytest.mark.parametrize(
    ("was", "now", "says"),
    [
        (
            "question: holding",
            "question: holdin",
            "answers.yaml:8: no question is called 'holdin'; did you mean",
        ),
        ("no, it drains away", "nope", "no such answer; did you mean 'no'"),
        (
            "about: yard cleanout",
            "about: yard cleanot",
            "'yard cleanot' is not open to that; did you mean 'yard cl",
        ),
        ("[floor drain, toilet]", "[floor drain, tub]", "got 'tub'"),
        ('answer: "1952"', 'answer: "952"', "expected a year such as 1958"),
        ("  - {question: building, answer: basement}\n", "", "there is nothing to ask it about yet"),
    ],
)
def test_a_wrong_answer_is_told_with_its_line(away, was, now, says):
    text = FILE.format(name="x")
    assert was in text
    (away / "answers.yaml").write_text(text.replace(was, now))
    with pytest.raises(BadInput) as caught:
        ask(wanted(answers=away / "answers.yaml"))
    assert says in str(caught.value)
    assert not (away / "x").exists()


def test_a_sheet_is_gone_on_with_and_a_hand_made_one_is_kept(away, capsys):
    job = away / "job"
    job.mkdir()
    (job / "site.yaml").write_text(SMALL_HOUSE)
    (away / "a.yaml").write_text('answers: [{question: holding, answer: "no"}]\n')
    ask(wanted(site=job, answers=away / "a.yaml", units="metric"))
    assert (job / "site.before-1.yaml").read_text() == SMALL_HOUSE
    made = (job / "site.yaml").read_text()
    assert "holding: no" in made
    assert read(job / "answers.yaml")[1].made == mark_of(made)
    # Its own sheet it writes over; one that was edited since it takes for the truth, and keeps.
    (job / "site.yaml").write_text(made.replace("fitting: unknown", "fitting: wye", 1))
    (away / "b.yaml").write_text('answers: [{question: gas-smell, answer: "no"}]\n')
    capsys.readouterr()
    ask(wanted(site=job, answers=away / "b.yaml"))
    assert " m)" in (said := capsys.readouterr().out)
    assert " ft" not in said, "it was told in metric"
    assert "fitting: wye" in (job / "site.yaml").read_text()
    assert (job / "site.before-2.yaml").exists()


def test_answers_are_saved_and_read_back(tmp_path):
    session = Session(replace(known(), sheet=SMALL_HOUSE))
    begin = run(tmp_path, CALM + "20" + "l")
    sheet, kept = read(tmp_path / "answers.yaml")
    assert kept.answers == begin.kept.answers
    assert kept.sheet == SMALL_HOUSE
    assert checked(sheet, session) == begin.kept.answers


def test_a_full_disk_leaves_the_answers_before(tmp_path, monkeypatch):
    save(tmp_path / "answers.yaml", Kept("x", None))
    before = (tmp_path / "answers.yaml").read_bytes()

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(BadInput, match="No space left"):
        save(tmp_path / "answers.yaml", Kept("y", None))
    assert (tmp_path / "answers.yaml").read_bytes() == before
    assert [p.name for p in tmp_path.iterdir()] == ["answers.yaml"]


def ready_of(folder):
    return make_ready(folder, None, None, 100, None, rules_dir())


@pytest.mark.parametrize(("key", "files"), [("1", ["card.pdf"]), ("2", []), ("0", []), ("n", [])])
def test_the_card_is_offered_and_made_where_it_is_wanted(tmp_path, capsys, key, files):
    job = new_job(tmp_path, "small job")
    job.site.write_text(demo.MAIN.read_text())
    with typed(key):
        offer_card(ready_of(job.folder), job, Page())
    assert [path.name for path in job.folder.glob("card*")] == files
    assert ("IF STUCK" in capsys.readouterr().out) == (key == "2")


def test_a_second_card_never_takes_the_place_of_the_first(tmp_path):
    job = new_job(tmp_path, "small job")
    job.site.write_text(demo.MAIN.read_text())
    for _ in range(2):
        with typed("1"):
            offer_card(ready_of(job.folder), job, Page())
    assert sorted(path.name for path in job.folder.glob("card*")) == ["card-2.pdf", "card.pdf"]


def test_a_line_that_holds_has_the_card_that_tells_how_to_relieve_it(tmp_path, capsys):
    job = new_job(tmp_path, "small job")
    job.site.write_text(demo.MAIN.read_text().replace("holding: no", "holding: yes"))
    with typed("1"):
        offer_card(ready_of(job.folder), job, Page())
    assert "how to relieve the line" in capsys.readouterr().out
    assert [path.name for path in job.folder.glob("card*")] == ["card.pdf"]


def test_the_truck_is_asked_for_only_where_no_kit_is_known(tmp_path, capsys):
    with typed("2"):
        offer_kit(None, None, rules_dir(), Page())
    assert "advisor kit new" in capsys.readouterr().out.split("truck", 1)[1]
    with typed(""):  # put off once, it is not asked again
        offer_kit(None, None, rules_dir(), Page())
    assert not capsys.readouterr().out


def test_the_truck_is_not_asked_for_where_a_kit_is_named(capsys):
    with typed(""):
        offer_kit(demo.KIT, None, rules_dir(), Page())
    assert not capsys.readouterr().out


def test_what_was_ticked_when_somebody_left_is_ticked_when_the_question_comes_again(tmp_path, capsys):
    """It said Saved, and the next day the tick was gone."""
    run(tmp_path, CALM + "d" + "1" + "l")
    kept = read(tmp_path / "answers.yaml")[1]
    capsys.readouterr()
    again = run(tmp_path, "0l", kept)
    assert "after all" in capsys.readouterr().out
    (ticked,) = [a.values for a in again.kept.answers if a.question == kept.ticked.question]
    assert ticked == kept.ticked.values
    assert len(ticked) == 1
    assert read(tmp_path / "answers.yaml")[1].ticked is None
