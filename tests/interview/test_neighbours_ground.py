"""A chamber in a neighbour's garden is told as it is found: leave is asked for before anybody goes there."""

from __future__ import annotations

from advisor.interview.answers import Answer
from advisor.interview.hazards import beside_question
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.terminal import ask_screen
from advisor.terminal.page import Page
from tests.interview.small_session import HOUSE, session
from tests.result.test_not_past import plan_text
from tests.terminal.test_choose import typed

SAFE = {"gas-smell": "no", "holding": "no", "chemicals": "no", "roof": "no", "deep": "no", "septic": "no"}
CALM = tuple(Answer(name, "job", (word,)) for name, word in SAFE.items())
PIT, INDOORS = "house drain/opening:yard pit", "house drain/opening:floor cleanout"
NEIGHBOURS = Answer("opening-there", PIT, ("neighbour",))
LEAVE = "ask for leave first"


def test_it_is_an_answer_outdoors_only():
    of = session(sheet=HOUSE)
    words = {place: of.ask(CALM, "opening-there", place).options for place in (PIT, INDOORS)}
    assert [option.value for option in words[PIT]] == ["yes", "no", "neighbour", "shut"]
    assert [option.value for option in words[INDOORS]] == ["yes", "no", "shut"]


def test_yes_and_no_keep_their_keys_beside_it(capsys):
    of = session(sheet=HOUSE)
    asked = of.ask(CALM, "opening-there", PIT)
    for keys, value in (("y", "yes"), ("1", "yes"), ("n", "no"), ("2", "no"), ("3", "neighbour")):
        with typed(keys):
            assert ask_screen.put(asked, of, CALM, Page()).values == (value,)
    assert "3 yes, on a neighbour's ground" in " ".join(capsys.readouterr().out.split())


def test_leave_comes_with_the_opening_and_before_anybody_is_sent_there_again():
    of = session(sheet=HOUSE)
    made = {
        word: plan_of(of.study((*CALM, Answer("opening-there", PIT, (word,)))))
        for word in ("yes", "neighbour")
    }
    route = {word: next(r for r in plan.routes if r.opening == "yard pit") for word, plan in made.items()}
    assert any(LEAVE in step for step in route["neighbour"].before)
    assert "ask-leave" in {note.id for note in route["neighbour"].cautions}
    assert not any(LEAVE in step for step in route["yes"].before)
    told = (*CALM, NEIGHBOURS)
    asked = of.ask(told, "opening-opens", PIT)
    beside = beside_question(asked, of.sheets.drain(told), of.known, Units.INCH)
    assert any("neighbour's ground" in words for words in beside)


def test_the_plan_asks_for_leave_before_its_first_way_whichever_that_is():
    """Leave takes time: it is asked before the second way in is all that is left."""
    text = """
site: two ways in
region: britain
lines:
  - line: drain
    size: 100 mm
    pieces:
      - {opening: near plug, kind: floor cleanout}
      - pipe: 3 m
      - {opening: far, kind: yard cleanout, ground: neighbour}
      - pipe: 3 m
      - end: public sewer
task:
  look at: drain
  complaint: {holding: no, chemicals: no, gas smell: no}
"""
    told = plan_text(text)
    assert told.routes[0].opening == "near plug"
    assert any(note.text.startswith("On a neighbour's ground: far.") for note in told.routes[0].cautions)
    own = plan_text(text.replace(", ground: neighbour", ""))
    assert not any("neighbour's ground" in note.text for note in own.routes[0].cautions)
