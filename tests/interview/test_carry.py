"""A sheet edited by hand after a session: it holds, and what was answered since stays; nothing is lost.

These are rules that the technicians who use it set; no formula is behind them.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.interview.answers import NONE, Answer
from advisor.interview.carry import carried
from advisor.interview.dialogue import Session
from advisor.interview.question import DONT_KNOW
from advisor.interview.store import Kept, read, save
from tests.interview.small_session import HOUSE, session, walk

CALM = dict.fromkeys(("gas-smell", "holding", "chemicals", "pumps", "deep", "septic"), "no") | {"roof": "yes"}
FIXED = (
    *(Answer(name, "job", (word,)) for name, word in CALM.items()),
    Answer("backs-up", "job", ("toilet",)),
    Answer("slow", "job", (NONE,)),
    Answer("history", "job", (DONT_KNOW,)),
    Answer("fine", "job", (NONE,)),
)
PIT = "house drain/opening:yard pit"
SINCE = (Answer("shared", "job", ("yes",)), Answer("opening-there", PIT, ("yes",)))


def made() -> str:
    text = session(sheet=HOUSE).sheets.text(FIXED)
    assert text is not None
    return text


def kept(*since: Answer) -> Kept:
    return Kept("job", HOUSE, (*FIXED, *since), "mark", FIXED)


def on(text: str) -> Session:
    return session(sheet=text, ask_all=True)


def questions(answers) -> set[str]:
    return {answer.question for answer in answers}


def test_answers_since_the_sheet_hold_on_top_of_the_edited_one():
    edited = made().replace("site: short house", "site: long house")
    found = carried(kept(*SINCE), on(edited))
    assert set(SINCE) <= set(found.answers)
    assert not found.lost
    text = on(edited).sheets.text(found.answers)
    assert "site: long house" in text
    assert "shared: yes" in text.replace('"', "").replace("'", "")


def test_none_of_them_stays_answered_and_is_not_asked_again():
    of = on(made().replace("site: short house", "site: long house"))
    found = carried(kept(), of)
    assert {"slow", "history", "fine"} <= questions(found.answers)
    asked = questions(walk(of, lambda ask: (DONT_KNOW,), found.answers)[len(found.answers) :])
    assert not asked & {*questions(FIXED), "standing-water"}


def test_what_backs_up_on_the_sheet_is_not_offered_as_slow_or_fine():
    of = on(made())
    for name in ("slow", "fine"):
        ask = of.ask((), name)
        assert ask is not None
        assert "toilet" not in [option.value for option in ask.options]
        assert "washing machine" in [option.value for option in ask.options]
    worse = of.ask((Answer("slow", "job", ("washing machine",)),), "backs-up")
    assert "washing machine" in [option.value for option in worse.options], "what got worse can be told"


@pytest.mark.parametrize(
    ("edit", "gone"),
    [
        (lambda text: f"shared: no\n{text}", "shared"),  # the sheet says otherwise by now
        (lambda text: text.replace("yard pit", "yard chamber"), "opening-there"),  # not there any more
    ],
)
def test_what_does_not_fit_the_edited_sheet_is_told_by_name(edit, gone):
    found = carried(kept(*SINCE), on(edit(made())))
    assert [answer.question for answer in found.lost] == [gone]
    assert questions(SINCE) - {gone} <= questions(found.answers)
    assert gone not in questions(found.answers)


def test_an_answer_changed_since_holds_where_the_hand_left_the_place_alone():
    """The line was told to drain, and since then to hold: the newer word holds, it is the one that warns."""
    changed = tuple(Answer("holding", "job", ("yes",)) if a.question == "holding" else a for a in FIXED)
    since = Kept("job", HOUSE, changed, "mark", FIXED)
    text = made()
    assert Answer("holding", "job", ("yes",)) in carried(since, on(f"{text}# by hand\n")).answers
    other = text.replace("holding: no", "holding: unknown").replace("holding: 'no'", "holding: unknown")
    assert other != text
    assert Answer("holding", "job", ("yes",)) in carried(since, on(other)).answers, "it is open again"


def test_the_file_tells_which_answers_the_sheet_was_written_from(tmp_path):
    save(tmp_path / "answers.yaml", kept(*SINCE))
    _, again = read(tmp_path / "answers.yaml")
    assert again == kept(*SINCE)


def test_what_the_hand_left_alone_can_still_be_changed():
    """A size mended by hand, and every answer of before is there; the plug turns out to be seized."""
    told = (*FIXED, *SINCE, Answer("opening-opens", PIT, ("yes",)))
    before = Kept("job", HOUSE, told, "mark", told)
    text = session(sheet=HOUSE).sheets.text(told)
    edited = text.replace("site: short house", "site: long house")
    assert edited != text
    found = carried(before, on(edited))
    assert set(told) - set(found.answers) == {SINCE[1]}, "what opens is there: that is asked no more"
    assert {"holding", "backs-up", "shared", "opening-opens"} <= questions(found.on_sheet)
    of = on(found.sheet)
    again = of.sheets.drain(found.answers).sheet.model
    assert again == on(edited).sheets.drain(()).sheet.model, "nothing is said otherwise than by hand"
    seized = tuple(replace(a, values=("no",)) if a.question == "opening-opens" else a for a in found.answers)
    assert of.sheets.drain(seized).network.pieces[PIT].hole.opens is False
    fewer = tuple(replace(a, values=(NONE,)) if a.question == "backs-up" else a for a in found.answers)
    assert of.sheets.drain(fewer).sheet.model.task.complaint.backs_up == ()


def test_what_the_hand_changed_holds_and_is_not_taken_off():
    text = made().replace("holding: no", "holding: yes").replace("holding: 'no'", "holding: yes")
    text = text.replace('holding: "no"', "holding: yes")
    assert text != made()
    found = carried(kept(), on(text))
    assert "holding" not in questions(found.answers)
    assert on(found.sheet).sheets.drain(found.answers).sheet.model.task.complaint.holding is True
