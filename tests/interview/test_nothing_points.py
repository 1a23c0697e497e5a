"""Where nothing is slow or backs up, nothing points anywhere: it is asked what is to be looked at."""

from __future__ import annotations

import pytest

from advisor.interview.answers import NONE, Answer
from advisor.interview.question import DONT_KNOW
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.interview.small_session import HOUSE, session

START = {"region": "north america", "built": "1952", "building": "crawl-space"}
CALM = dict.fromkeys(("gas-smell", "holding", "chemicals", "pumps", "roof", "deep", "septic"), "no")
FINE = ("kitchen sink", "basin", "bath", "toilet")
LOOK = ("look-at", "job")


def walked(of, say):
    """Every question up to those on the drain, answered; what was asked."""
    answers, asked = (), []
    while (ask := of.next(answers)) is not None and ask.question.block != "find out" and len(asked) < 40:
        asked.append(ask.key)
        answers = (*answers, Answer(*ask.key, say(ask.question.id)))
    return answers, asked


def say(**other):
    words = {**START, **CALM, "backs-up": NONE, "slow": NONE, "history": NONE, **other}
    given = {key: (value,) if isinstance(value, str) else value for key, value in words.items()}
    return lambda question: given.get(question.replace("_", "-"), (DONT_KNOW,))


def test_a_smell_of_sewage_is_no_suspicion_of_the_one_line_that_nobody_spoke_of():
    of = session()
    answers, asked = walked(of, say(**{"fine": FINE, "sewage-smell": "yes"}))
    assert LOOK in asked
    assert of.study(answers).suspects == ()


def test_a_smell_of_sewage_warns_of_its_gas_and_has_the_traps_filled_before_any_camera():
    """Common practice: a dry trap or a toilet's seal is the usual cause, and no camera finds it."""
    of = session(sheet=HOUSE)

    def plan(smell: str, holding: str = "no") -> tuple[set[str], str]:
        calm = {**CALM, "holding": holding, "sewage-smell": smell}
        made = plan_of(of.study(tuple(Answer(name, "job", (word,)) for name, word in calm.items())))
        return {note.id for note in made.cautions}, made.model_dump_json()

    cautions, told = plan("yes")
    assert "sewer-gas-indoors" in cautions
    assert "Pour a jug of water into each trap" in told
    cautions, told = plan("yes", holding="yes")
    assert "sewer-gas-indoors" in cautions
    assert "Pour a jug of water" not in told, "nobody runs water into a full line"
    cautions, told = plan("no")
    assert "sewer-gas-indoors" not in cautions
    assert "Pour a jug of water" not in told


def test_the_line_that_is_named_is_the_one_to_be_seen():
    of = session()
    answers, _ = walked(of, say(**{"fine": FINE, "look-at": "laundry line"}))
    assert plan_of(of.study(answers)).target.words == "laundry line"


def test_where_nobody_says_it_is_told_what_is_taken_instead(capsys):
    of = session()
    answers, _ = walked(of, say(fine=FINE))
    made = plan_of(of.study(answers))
    assert made.target.words == "house drain"  # the line that leaves the building
    show_plan(made, Units.INCH, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "nothing points anywhere" in said
    assert "Where the complaint points" not in said


@pytest.mark.parametrize("trouble", [{"slow": "bath"}, {"backs-up": "bath", "holding": "yes"}])
def test_where_something_runs_badly_that_points_and_nobody_is_asked(trouble):
    of = session()
    answers, asked = walked(of, say(**trouble))
    assert LOOK not in asked
    assert of.study(answers).suspects
