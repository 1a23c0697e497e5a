"""A wet cellar: asked about where there is one, and what it comes from is looked for before any camera.

What comes up floods back, what follows the taps leaks, what follows rain is mostly ground water: common
practice, no source. That current and sewage gas kill in a wet cellar is common knowledge.
"""

from __future__ import annotations

import pytest

from advisor.interview.answers import Answer
from advisor.interview.question import DONT_KNOW
from advisor.result.build import plan_of
from tests.cases.hazards import SMALL, run, site
from tests.cases.jobs import planned
from tests.interview.small_session import HOUSE, questions, session

IN_CELLAR = HOUSE.replace("        there: 60 %\n", "        there: 60 %\n        cellar: yes\n")
CALM = dict.fromkeys(("gas-smell", "holding", "chemicals", "pumps", "roof", "deep", "septic"), "no")


def asked(of, words):
    """Every question up to those of what is remembered."""
    answers = ()
    while (ask := of.next(answers)) is not None and ask.question.block != "history":
        answers = (*answers, Answer(*ask.key, (words.get(ask.question.id, DONT_KNOW),)))
    return [each.question for each in answers]


@pytest.mark.parametrize(
    ("region", "building", "cellar"),
    [
        ("britain", "cellar-house", True),
        ("north america", "basement", True),
        ("britain", "newer-detached", False),
        ("north america", "slab-one-storey", False),
    ],
)
def test_it_is_asked_where_an_opening_is_drawn_in_a_cellar(region, building, cellar):
    words = {**CALM, "region": region, "building": building}
    assert asked(session(), words).count("wet-cellar") == cellar


@pytest.mark.parametrize(
    ("answer", "says", "dangers"),
    [
        ("no", "", set()),
        ("yes", "Find out when it is wet", {"wet-cellar-mains", "low-room"}),
        ("when used", "see which brings the water", {"wet-cellar-mains", "low-room"}),
        ("after rain", "No camera in the drain finds that", {"wet-cellar-mains"}),
        ("comes up", "Tell whoever keeps that", {"wet-cellar-mains", "low-room"}),
    ],
)
def test_each_answer_is_followed_by_what_it_may_come_from_and_by_its_dangers(answer, says, dangers):
    of = session(sheet=IN_CELLAR)
    told = {**CALM, "sewage-smell": "no", "wet-cellar": answer}
    made = plan_of(of.study(tuple(Answer(name, "job", (word,)) for name, word in told.items())))
    assert {note.id for note in made.cautions} & {"wet-cellar-mains", "low-room"} == dangers
    steps = " ".join(step for route in made.routes[:1] for step in route.before)
    every = ("Find out when", "see which brings", "No camera in the drain", "Tell whoever keeps")
    assert says in steps
    assert sum(each in steps for each in every) == bool(says)


def test_what_comes_up_backs_up_whatever_was_said_of_the_line():
    """Water that comes up stands in the line: `holding: no` is taken for not known until somebody looked."""
    made = planned(
        site(run("kind: end cleanout"), "run", complaint="holding: no, wet cellar: comes up"), SMALL
    )
    assert "see that the line is not holding" in made.first_step
    assert "plug-under-head" in {note.id for note in made.cautions}
    assert "the cellar backs up or stands full" in made.model_dump_json()


def test_a_gully_that_is_told_to_back_up_is_there_and_not_looked_for():
    sheet = IN_CELLAR.replace("kind: floor cleanout", "kind: floor drain")
    of, told = session(sheet=sheet), tuple(Answer(name, "job", ("no",)) for name in CALM)
    looks_for = ("opening-there", "house drain/opening:floor cleanout")
    assert looks_for in {each.key for each in of.open(told)}
    told = (*told, Answer("slow", "job", ("floor cleanout",)))
    assert looks_for not in {each.key for each in of.open(told)}


@pytest.mark.parametrize(("kind", "pumps", "told"), [
    ("floor drain", "yes", True), ("floor drain", "no", False), ("floor cleanout", "yes", False),
])  # fmt: skip
def test_a_floor_gully_beside_a_pump_may_be_a_sump_which_is_no_way_in(kind, pumps, told):
    text = site(run(f"kind: {kind}, cellar: yes"), "run", "britain", top=f"pumps: {pumps}\n")
    steps = " ".join(planned(text, SMALL, worlds=50).routes[0].before)
    assert ("sump" in steps) == told


def test_gully_and_sink_in_the_cellar_are_among_what_may_run_badly():
    told = {**CALM, "region": "britain", "building": "cellar-house"}
    of, answers = session(), tuple(Answer(name, "job", (word,)) for name, word in told.items())
    named = {option.words for option in of.ask(answers, "backs-up").options}
    assert {"cellar gully", "cellar sink", "yard gully", "toilet"} <= named


def test_where_it_comes_up_is_called_as_people_there_call_it():
    """A North American cellar has a floor drain, no gully; what is filed is the same."""
    for question in questions().all:
        assert not [each.words for each in question.offered("north america") if "gully" in each.words]
    here, there = (questions().by_id["wet-cellar"].offered(r) for r in ("north america", "britain"))
    assert [each.value for each in here] == [each.value for each in there]
