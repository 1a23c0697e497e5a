"""What is told of a drain that is drawn wrong: in the words and units of where it is."""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.interview.answers import Answer
from advisor.interview.dialogue import Session
from advisor.interview.sheets import Answers
from advisor.interview.store import Kept
from advisor.interview.subject import JOB
from advisor.job.folder import Job
from advisor.push.track.double import opposite
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.terminal.ask_missing import pick_one, what_is_wrong
from advisor.terminal.ask_session import AskRun
from advisor.terminal.page import Page
from tests.cases.jobs import tables
from tests.interview.small_session import known
from tests.terminal.test_ask import SMALL_HOUSE
from tests.terminal.test_choose import typed


def test_a_session_is_left_from_its_lists_of_the_drain_too(tmp_path):
    with typed("l"):
        assert what_is_wrong(Job(tmp_path), "britain", Page()) is None
    asks = Session(replace(known(), sheet=SMALL_HOUSE, ask_all=True)).open(())
    with typed("l"):
        assert pick_one([ask for ask in asks if ask.question.in_short], Page()) == "leave"


def test_the_list_goes_on_where_the_last_thing_was_told(capsys):
    """After each answer it began again at the first of five pages."""
    asks = [
        each
        for each in Session(replace(known(), sheet=SMALL_HOUSE, ask_all=True)).open(())
        if each.question.in_short
    ]
    last = asks[-1]
    assert len(asks) > 9, "more than one page"
    with typed("b"):
        pick_one(asks, Page(), last)
    shown = " ".join(capsys.readouterr().out.split())
    assert last.short in shown
    assert asks[0].short not in shown


@pytest.mark.parametrize(
    ("region", "has", "lacks"),
    [
        ("britain", ("inspection chamber", "100 mm", "3 m"), (" in", " ft", "cleanout")),
        ("north america", ("yard cleanout", "3 in", "10 ft"), (" mm", "chamber")),
    ],
)
def test_how_a_missing_line_is_written_is_shown_as_people_there_measure(tmp_path, capsys, region, has, lacks):
    with typed("5\x04"):
        assert what_is_wrong(Job(tmp_path), region, Page()) == ()
    shown = capsys.readouterr().out
    assert "`yes, go on`: that writes the sheet. Save and leave (l) writes none." in " ".join(shown.split())
    told = shown.split("that it is on:")[1].split("Then: advisor ask")[0]
    rows = [row for row in told.splitlines() if ": " in row]
    assert all(any(word in row for row in rows) for word in has)
    assert not [row for row in rows for word in lacks if row.rstrip().endswith(word)]


def test_how_two_lines_meet_in_one_double_fitting_is_shown_and_is_read_so(tmp_path, capsys):
    """Bathrooms back to back: `ask` draws none, and nothing said how a sheet has it."""
    with typed("5\x04"):
        what_is_wrong(Job(tmp_path), "britain", Page())
    shown = capsys.readouterr().out.split("double fitting, with nothing between them:")[1]
    rows = [row.strip() for row in shown.split("that line itself")[0].splitlines() if row.strip()]
    stack = ("- {opening: vent, kind: roof vent}", "- drop: 3 m", *rows, "- drop: 3 m", "- end: public sewer")
    pieces = "".join(f"      {each}\n" for each in stack)
    text = (
        "site: two baths\nregion: britain\nlines:\n  - line: stack\n    kind: stack\n    pieces:\n" + pieces
    )
    for name in ("back", "front"):
        toilet = f"{{opening: {name} toilet, kind: P-outlet toilet}}"
        text += f"  - line: {name} bathroom\n    pieces:\n      - {toilet}\n      - pipe: 1 m\n"
    network = network_of(site_of_text(text, "site", tables()), tables())
    (met,) = (p for p in network.pieces.values() if p.branch == "back bathroom")
    across = opposite(network, met, tables())
    assert across is not None
    assert across[1].branch == "front bathroom"


def test_how_a_part_of_other_pipe_is_written_is_shown_and_is_read_so(tmp_path, capsys):
    """The run of a newer kitchen has the material of its line, until a sheet says other."""
    with typed("5\x04"):
        what_is_wrong(Job(tmp_path), "britain", Page())
    rows = [row.strip() for row in capsys.readouterr().out.splitlines()]
    (change,) = [row for row in rows if row.startswith("- change:")]
    assert "newer kitchen" in rows[rows.index(change) - 1] + rows[rows.index(change) - 2]
    pieces = ("- {fixture: kitchen sink}", "- pipe: 2 m", change, "- pipe: 3 m", "- end: public sewer")
    line = "  - line: rear drain\n    material: plastic\n    pieces:\n"
    text = "site: new kitchen\nregion: britain\nlines:\n" + line + "".join(f"      {p}\n" for p in pieces)
    network = network_of(site_of_text(text, "site", tables()), tables())
    pipes = [piece.wall.material.likeliest for piece in network.pieces.values() if piece.kind == "pipe"]
    assert pipes == ["plastic", "clay"]


STACK = dict.fromkeys(("gas-smell", "holding", "chemicals", "pumps", "roof", "deep", "septic"), "no") | {
    "region": "north america", "built": "1931", "building": "two-storey-stack", "other-toilet": "no other",
    "house-trap": "no other", "sewage-smell": "no",
}  # fmt: skip


def sitting(folder, **told: str) -> AskRun:
    answers = tuple(Answer(name, JOB.id, (word,)) for name, word in {**STACK, **told}.items())
    return AskRun(Session(known()), Job(folder), Kept("new job", None, answers), Page())


def key_of(each: AskRun, question: str, words: str) -> str:
    options = each.session.ask(each.kept.answers, question).options
    return next(str(each.number or i) for i, each in enumerate(options, start=1) if words in each.words)


@pytest.mark.parametrize(
    ("question", "words", "stays"),
    [("building", "crawl space", "opening-there"), ("region", "Britain", "pumps")],
)
def test_another_house_keeps_what_still_fits_and_tells_what_is_to_be_told_again(
    tmp_path, capsys, question, words, stays
):
    """A house over a crawl space has one toilet: that the upper one backs up cannot be said of it."""
    each = sitting(tmp_path, **{"backs-up": "upstairs toilet"})
    there = Answer("opening-there", "house drain/opening:yard cleanout", ("yes",))
    each.kept = replace(each.kept, answers=(*each.kept.answers, there))
    with typed(key_of(each, question, words)):
        assert not each._put_again(Answer(question, JOB.id, (STACK.get(question, ""),))).leave
    said = " ".join(capsys.readouterr().out.split())
    assert "That cannot be" not in said
    assert "To be told again: What backs up" in said
    kept = {each.question: each.values for each in each.kept.answers}
    assert kept[question] != (STACK[question],)
    assert "backs-up" not in kept
    assert stays in kept


def test_an_answer_that_cannot_be_is_asked_again_where_that_is_said(tmp_path, capsys, monkeypatch):
    each = sitting(tmp_path)
    taken = iter((False, True))
    monkeypatch.setattr(AskRun, "_take", lambda *_: next(taken))
    with typed("yn"):
        said = each._put_again(Answer("pumps", JOB.id, ("no",)))
    assert said.values == ("no",)


def test_back_goes_to_what_was_told_last_though_another_question_is_open_before_it(tmp_path, capsys):
    """A toilet drawn later opens `what runs away well` again: back stuck there, answers lost at each key."""
    each = sitting(tmp_path, **{"backs-up": "none of these", "slow": "kitchen sink"})
    there = Answer("opening-there", "house drain/opening:yard cleanout", ("yes",))
    each.kept = replace(each.kept, answers=(*each.kept.answers, there))
    begin = each.kept.answers
    with typed("bbl"):
        assert not each._questions()
    said = " ".join(capsys.readouterr().out.split())
    assert each.kept.answers == begin[:-2]
    first, opening, slow = (
        said.index(words) for words in ("last cleared", "Look for the yard cleanout", "runs slow")
    )
    assert first < opening < slow, said


def told_of(building: str, region: str) -> Answers:
    """Two fixtures or openings of that very building told of, and another toilet drawn."""
    begin = {"region": region, "building": building, "other-toilet": "yes, somewhere"}
    answers = tuple(Answer(name, JOB.id, (word,)) for name, word in begin.items())
    fine = Session(known()).ask(answers, "fine")
    assert fine is not None
    names = [each.value for each in fine.options]
    return (*answers, Answer("fine", JOB.id, (names[0], names[-1])))


@pytest.mark.parametrize("building", known().buildings, ids=lambda each: each.id)
def test_of_every_typical_building_each_answer_and_each_part_can_be_told_otherwise(building):
    """Without its region a British house was taken for an American one, which has no such gully: that threw
    people out to the shell at each key of what is wrong."""
    session, answers = Session(known()), told_of(building.id, building.region)
    parts = {ask.subject.about for ask in session.may_tell(answers)}
    assert {"run", "joining", "wall"} <= parts
    assert all(session.again(answers, each.question, each.about) for each in answers)


@pytest.mark.parametrize("key", ["1", "2", "3", "4", "5"])
def test_at_no_key_of_what_is_wrong_is_anybody_thrown_out(tmp_path, capsys, key):
    each = AskRun(
        Session(known()), Job(tmp_path), Kept("x", None, told_of("flat-above-shop", "britain")), Page()
    )
    with typed(f"{key}l"):
        assert each._wrongly_drawn() == ("changed" if key == "5" else "left")


def test_back_over_a_toilet_drawn_late_takes_what_was_told_of_it_too(tmp_path):
    region, building, other, fine = told_of("flat-above-shop", "britain")
    late = Kept("x", None, (region, building, fine, other))
    each = AskRun(Session(known()), Job(tmp_path), late, Page())
    each._go_back()
    assert each.kept.answers == (region, building)


def test_where_a_toilet_joins_is_changed_after_it_was_told_to_be_slow(tmp_path, capsys):
    """Reckoned without that answer nothing is called so: that threw people out to the shell."""
    begin = {"region": "britain", "building": "terraced-house", "other-toilet": "yes, somewhere"}
    slow = {"backs-up": "kitchen gully", "slow": "other toilet"}
    answers = tuple(Answer(name, JOB.id, (word,)) for name, word in {**begin, **slow}.items())
    each = AskRun(Session(known()), Job(tmp_path), Kept("x", None, answers), Page())
    with typed(key_of(each, "other-toilet", "in the yard chamber") + "1"):
        assert not each._put_again(answers[2]).leave
    kept = {each.question: each.values for each in each.kept.answers}
    assert kept["other-toilet"] == ("rear drain/opening:yard chamber",)
    assert kept["slow"] == ("other toilet",)


def test_where_other_pipe_begins_is_told_by_keys_and_a_length(tmp_path, capsys):
    """Iron that runs out past the wall before the clay begins had to be written into the sheet by hand."""
    house = {"region": "north america", "building": "basement"}
    each = sitting(tmp_path, **house)
    names = [ask.question.id for ask in each.session.not_drawn(each.kept.answers)]
    pick = str(names.index("other-pipe") + 1)
    with typed(f"4{pick}25 ft\r1b"):
        assert each._wrongly_drawn() == "changed"
    said = " ".join(capsys.readouterr().out.split())
    assert "between foundation wall and change of pipe? Pace it out." in said
    assert "What is the house drain beyond change of pipe mostly made of" in said
    text = each.session.sheets.text(each.kept.answers)
    assert "- pipe: 5 ft\n        landmark: change of pipe\n" in text
