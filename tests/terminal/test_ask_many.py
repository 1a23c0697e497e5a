"""Many questions at one key, and a drain that is drawn wrong: at the end of a session it can be said."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from advisor.interview.answers import Answer
from advisor.interview.ask import Ask
from advisor.interview.dialogue import Session
from advisor.interview.question import DONT_KNOW, Careful
from advisor.interview.sheets import Answers
from advisor.interview.sketch import sketch_changes
from advisor.interview.store import Kept
from advisor.job.folder import Job
from advisor.quantity import Units
from advisor.terminal.ask_session import AskRun
from advisor.terminal.page import Page
from tests.interview.small_session import known, questions, walk
from tests.interview.test_branch import SAFE, SLAB
from tests.terminal.test_ask import CALM, SMALL_HOUSE, of, run, typed

DANGER = Careful(say="Stay away from it.")
SAFETY = {"block": "safety", "careful": DANGER}


def at_the_lengths(session: Session) -> Answers:
    """Everything before the first length is answered with don't know, every danger with no."""
    answers: Answers = ()
    no = dict.fromkeys(("gas-smell", "holding", "chemicals", "pumps", "roof", "deep", "septic"), "no")
    while (ask := session.next(answers)) is not None and ask.question.id != "run":
        answers = (*answers, Answer(*ask.key, (no.get(ask.question.id, DONT_KNOW),)))
    return answers


def sitting(folder, keys: str, answers: Answers = ()) -> AskRun:
    session = Session(replace(known(), sheet=SMALL_HOUSE, ask_all=True))
    each = AskRun(session, Job(folder), Kept("x", SMALL_HOUSE, answers or at_the_lengths(session)), Page())
    with typed(keys):
        each.run()
    return each


def lengths(sat: AskRun) -> list[tuple[str, ...]]:
    return [a.values for a in sat.kept.answers if a.question == "run"]


def calm(ask: Ask) -> tuple[str, ...]:
    """What the keys CALM say, and then nothing."""
    safe = dict.fromkeys(("gas-smell", "holding", "chemicals", "pumps", "deep", "septic"), "no")
    return ({**safe, "roof": "yes"}.get(ask.question.id, DONT_KNOW),)


def test_one_key_leaves_all_lengths_and_back_brings_all_of_them_again(tmp_path, capsys):
    first = sitting(tmp_path, "kl")
    left = lengths(first)
    assert len(left) == 3  # not of the vent: the roof may not be climbed
    assert set(left) == {(DONT_KNOW,)}
    assert first.session.next(first.kept.answers).question.id != "run"
    told = " ".join(capsys.readouterr().out.split())
    assert f"know none of these, {len(left) - 1} more" in told
    assert f"{len(left)} taken as not known." in told
    assert lengths(sitting(tmp_path, "kbl")) == []
    # What was answered before stays when the others are left.
    assert lengths(sitting(tmp_path, "t12 ft\rkl")) == [("12 ft",), *[(DONT_KNOW,)] * (len(left) - 1)]


@pytest.mark.parametrize(("change", "left"), [({}, True), ({"careful": DANGER}, False), (SAFETY, False)])
def test_nothing_that_can_hurt_is_passed_over_together(change, left):
    """Each danger has its own don't know, whose careful branch is told: no key passes over several. Were a
    length dangerous, it would have to be asked of each pipe."""
    asked = questions().by_id["run"].model_copy(update=change)
    changed = tuple(asked if each.id == "run" else each for each in questions().all)
    session = Session(
        replace(known(), sheet=SMALL_HOUSE, ask_all=True, questions=replace(questions(), all=changed))
    )
    ask = session.ask((), "run", "laundry line/after washing machine/pipe 1")
    others = session.others_like(ask, ())
    assert bool(others) is left
    assert all(other.question.id == "run" for other in others)


def test_a_drain_that_is_drawn_wrong_can_be_told_of_at_the_end(tmp_path, capsys):
    # All is answered; of what is drawn wrong: an opening, which is not there.
    house = tmp_path / "an opening"
    house.mkdir()
    begin = CALM + "d" * 40
    made = run(house, begin + "x1" + "1" + "n" + "b" + "y")
    assert ("opening-there", ("no",)) in [(a.question, a.values) for a in made.kept.answers]
    assert "there: no" in (house / "site.yaml").read_text()
    told = " ".join(capsys.readouterr().out.split())
    assert "What of the drain is wrong?" in told
    first, second = (each.split("b back")[0] for each in told.split("Which one?")[1:3])
    name = re.search(r"1 (.+?: is it there)", first).group(1)
    assert name in second, "what was told just now can be told otherwise"


def test_one_pipe_is_picked_by_its_name_and_its_length_told(tmp_path, capsys):
    """45 ft in all are dealt out as by hand in tests/interview/test_stretch.py: 25 and 20 ft."""
    begin = CALM + "d" * 40
    run(tmp_path, begin + "x3" + "b" + "y")
    said = " ".join(capsys.readouterr().out.split()).split("Which one?")[1]
    assert said.index("length of the pipe") < said.index("the house drain: material"), "lengths come first"
    (key,) = re.findall(r"(\d) house drain, between floor cleanout and vent: length of the pipe", said)
    again = tmp_path / "again"
    again.mkdir()
    run(again, begin + "x3" + key + "t45 ft\r" + "b" + "y\x04")
    sheet = (again / "site.yaml").read_text()
    assert re.search(r"- pipe: about 25 ft\n +- bend: unknown .*\n +- pipe: about 20 ft\n", sheet)
    assert sheet.count("pipe: assumed") == SMALL_HOUSE.count("pipe: assumed") - 2


def slab(folder, keys: str, building: str = "slab-one-storey") -> AskRun:
    """Everything asked and nobody knows, then these keys at the end."""
    told = {**SLAB, **SAFE, "building": building}
    session = Session(replace(known(), name="slab"))
    answers = walk(session, lambda ask: (told.get(ask.question.id, DONT_KNOW),))
    each = AskRun(session, Job(folder), Kept("slab", None, answers), Page())
    with typed(keys):
        each.run()
    return each


def test_a_length_past_what_nobody_found_is_told_as_one(tmp_path, capsys):
    """33 ft to the street, dealt out as by hand in tests/interview/test_total.py."""
    slab(tmp_path, "x3" + "1t33 ft\ry" + "b" + "d" * 40 + "y\x04")
    said = " ".join(capsys.readouterr().out.split())
    assert "1 house drain, between edge of the slab and public sewer: length of the pipe" in said
    sheet = (tmp_path / "site.yaml").read_text()
    assert "      - pipe: about 1.8 ft\n      - opening: yard cleanout\n" in sheet
    assert "there: 65 %" in sheet, "nobody knows still whether it is there"


@pytest.mark.parametrize(
    ("keys", "drawn", "building"),
    [
        ("12", "joined by: other bathroom", "slab-one-storey"),
        ("122", "joined by: other stack", "crawl-space"),  # which may have a floor higher up
        ("22", "trap: house trap", "slab-one-storey"),
        ("32", "joined by: other kitchen line", "slab-one-storey"),
        ("42", "opening: other cleanout", "slab-one-storey"),
    ],
)
def test_what_the_drawing_lacks_is_drawn_from_the_end(tmp_path, capsys, keys, drawn, building):
    slab(tmp_path, "x4" + keys + "b" + "d" * 40 + "y\x04", building)
    assert f"- {drawn}\n" in (tmp_path / "site.yaml").read_text()
    assert "yes, but nobody knows where" in " ".join(capsys.readouterr().out.split())


def test_a_length_that_a_branch_parts_is_told_again(tmp_path, capsys):
    nothing = "d" * 40
    made = slab(tmp_path, "x3" + "4t6 ft\rb" + nothing + "x4" + "1" + "4" + "b" + nothing + "y\x04")
    said = " ".join(capsys.readouterr().out.split())
    assert "between bathroom stack and bath branch: length of the pipe" in said
    assert (
        "To be told again: How long is the pipe on the house drain, between bathroom stack and bath" in said
    )
    assert "6 ft" not in {value for a in made.kept.answers for value in a.values}


def test_what_is_on_the_next_page_of_the_list_is_picked_there(tmp_path, capsys):
    name = "the house drain: how it looks inside"
    begin = CALM + "d" * 40 + "x3" + "m"
    run(tmp_path, begin + "b" + "y\x04")
    first, second = capsys.readouterr().out.split("Which one?")[1:3]
    assert name not in first
    (key,) = re.findall(rf"(\d) {name}", " ".join(second.split()))
    again = tmp_path / "again"
    again.mkdir()
    made = run(again, begin + key + "l")
    assert "What does the inside of the house drain look like" in " ".join(capsys.readouterr().out.split())
    assert not made.job.site.is_file()


def test_whoever_wants_to_tell_more_is_asked_on_until_it_is_enough(tmp_path, capsys):
    made = run(tmp_path, CALM + "d" * 40 + "q" + "ddd" + "q" + "y")
    asked = [a.question for a in made.kept.answers]
    stopped = len(walk(of(SMALL_HOUSE, "small job"), calm))
    assert len(asked) == stopped + 3
    told = " ".join(capsys.readouterr().out.split())
    assert "q ask me more" in told
    assert "The most telling first. Enough: q." in told


def test_back_among_what_was_asked_for_is_the_question_before_and_out_of_the_first(tmp_path, capsys):
    """`b back` ended it, and a yes that was meant for the question before accepted the drain."""
    made = run(tmp_path, CALM + "d" * 40 + "qb" + "q" + "ddbbd" + "q" + "l")
    stopped = len(walk(of(SMALL_HOUSE, "small job"), calm))
    assert len(made.kept.answers) == stopped + 1
    *told, last = " ".join(capsys.readouterr().out.split()).split("q enough asked")
    asked = [each.rpartition("? ")[0][-40:] for each in told]
    first, second, third = asked[1:4]
    assert len({first, second, third}) == 3
    assert asked == [first, first, second, third, second, first, second]
    assert "Is this right?" in told[1], "back from the first leads out"
    assert "Is this right?" in last


def test_no_more_is_offered_where_all_was_asked(tmp_path, capsys):
    run(tmp_path, CALM + "d" * 40 + "q" + "d" * 60 + "y" + "0")
    said = " ".join(capsys.readouterr().out.split())
    assert "There is nothing more to ask." in said
    assert "q ask me more" not in said.split("There is nothing more to ask.")[1]


def test_where_to_write_what_is_not_drawn_at_all_is_told(tmp_path, capsys):
    run(tmp_path, CALM + "d" * 40 + "x5" + "y")
    said = capsys.readouterr().out
    told = " ".join(said.split())
    assert "- joined by: back bathroom" in told
    assert "advisor ask" in told
    assert str(tmp_path / "site.yaml") in said.replace("\n  ", "")
    assert said.count("THE DRAIN AS UNDERSTOOD SO FAR") == 1, "it would push off what was just told"


WHOLE, CHANGED = "THE DRAIN AS UNDERSTOOD SO FAR", "CHANGED IN THE DRAIN"


def test_after_a_change_only_what_changed_of_the_drain_is_shown_and_the_whole_when_asked_for(
    tmp_path, capsys
):
    """Of 31 ft from the toilet to the sewer 30 are told (by hand: it begins at 34.5 ft): the sewer moves."""
    run(tmp_path, CALM + "d" * 40 + "x31t30 ft\rb" + "y")
    said = capsys.readouterr().out
    assert said.count(WHOLE) == 1
    _, _, after = said.partition(CHANGED)
    rows = [line.strip() for line in after.partition("Is this right?")[0].splitlines() if line.strip()]
    assert [row.partition(", ")[0] for row in rows[:-1]] == ["house drain", "64 ft?  end: public sewer"]
    assert rows[-1].startswith("?: nobody has seen it")
    again = tmp_path / "again"
    again.mkdir()
    run(again, CALM + "d" * 40 + "s" + "y")
    assert capsys.readouterr().out.count(WHOLE) == 2


def test_an_answer_that_changes_nothing_of_the_drain_shows_none_of_it(tmp_path, capsys):
    run(tmp_path, CALM + "d" * 40 + "41" + "y")  # a pump, which is not drawn
    said = capsys.readouterr().out
    assert said.count("Is this right?") == 2
    assert (said.count(WHOLE), said.count(CHANGED)) == (1, 0)


def test_a_line_that_is_new_or_gone_is_among_the_changes():
    joined = "      - joined by: laundry line\n        fitting: unknown\n"
    start, end = SMALL_HOUSE.index("  - line: laundry line"), SMALL_HOUSE.index("  - line: vent")
    less = (SMALL_HOUSE[:start] + SMALL_HOUSE[end:]).replace(joined, "")
    before, now = (of(text, "x").sheets.drain(()).network for text in (SMALL_HOUSE, less))
    added = sketch_changes(before=now, now=before, units=Units.INCH, width=70)
    assert any(row.startswith("laundry line, 2 in") for row in added)
    assert any("no way in: washing machine" in row for row in added)
    gone = sketch_changes(before=before, now=now, units=Units.INCH, width=70)
    assert "laundry line: not drawn any more" in gone
    assert sketch_changes(before, before, Units.INCH, 70) == ()


def test_leaving_while_it_is_corrected_leaves(tmp_path, capsys):
    made = run(tmp_path, CALM + "d" * 40 + "x2" + "1" + "l")
    assert "Saved. Go on with: advisor ask" in capsys.readouterr().out
    assert not made.job.site.is_file()
