"""Questions: read strictly, short, and none that changes nothing.

How long a question may be and how many choices it may have is the issue's; what is worth asking in the trade
is common practice, no source.
"""

from __future__ import annotations

import json
import shutil
from dataclasses import replace

import pytest

from advisor.errors import BadInput
from advisor.interview.answers import NONE, Answer
from advisor.interview.dialogue import Session
from advisor.interview.question import MOST_CHOICES, MOST_WORDS, load_questions
from advisor.interview.sheets import Answers
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.tables.place import rules_dir
from tests.cases.jobs import rules, tables
from tests.interview.small_session import HOUSE, answered, known, questions, session

SAFETY = [
    "gas-smell", "gas-cleared", "holding", "standing-water", "chemicals", "pumps", "roof", "deep", "septic",
]  # fmt: skip


def test_the_safety_screen_asks_what_it_must_in_a_fixed_order():
    # The list: holding and where water stands; chemicals; gas smell; pumps; deep or on a roof.
    assert [each.id for each in questions().block("safety")] == SAFETY
    assert all(each.careful is not None for each in questions().block("safety"))


@pytest.mark.parametrize("question", questions().all, ids=lambda q: q.id)
def test_a_question_is_short_and_has_few_choices(question):
    # "At most 25 words, at most 7 choices" (the issue).
    for text in (question.text, question.upright, question.upright_low):
        filled = text.format(
            **{"name": "ground-floor toilet", "line": "house drain", "place": "below it"},
            **{"kind": "pipe", "storey": "9 ft", "drawn": "ground-floor toilet"},
        )
        assert len(filled.split()) <= MOST_WORDS == 25
    assert MOST_CHOICES == 7
    for region in ("north america", "britain"):
        assert len(question.offered(region)) <= 7
    assert question.why.endswith(".")
    assert 0 < question.knows.likely <= 1


def told(of, answers: Answers) -> str | None:
    """The plan less what it says of itself: to be listed as assumed or weak is no use."""
    study = of.study(answers)
    return study and json.dumps(plan_of(study).model_dump(exclude={"weak", "assumed", "site"}))


@pytest.mark.parametrize("question", questions().all, ids=lambda q: q.id)
def test_its_answers_give_different_plans(question):
    """A question that no rule, mechanic or hazard uses fails here."""
    of, found = session(), set()
    if question.block == "start":
        early = {
            "region": [
                (("north america",), ("1952",), ("basement",)),
                (("britain",), ("1952",), ("terraced-house",)),
            ],
            "built": [(("north america",), (year,), ("basement",)) for year in ("1905", "2005")],
            "building": [
                (("north america",), ("1952",), (name,)) for name in ("basement", "slab-one-storey")
            ],
        }[question.id]
        for values in early:
            answers: Answers = ()
            for each in values:
                answers = (*answers, answered(of.next(answers), *each))
            found.add(told(of, answers))
        assert len(found) == 2
        return
    at_one = question.about in ("assumed opening", "unmeasured opening")  # somebody has found one
    place = "yard cleanout" if question.id == "yard-opening-kind" else "floor cleanout"
    found_one = f"        kind: assumed {place}\n        there: yes"
    house = HOUSE
    if question.about == "branch":  # what is to be seen lies in one
        house = house.replace("look at: house drain", "look at: laundry line")
    if at_one:
        house = house.replace("        kind: floor cleanout\n        there: 60 %", found_one)
    of = session(sheet=house)
    safe = {"gas-smell": "no", "holding": "no", "chemicals": "no", "roof": "yes", "deep": "no"}
    safe |= {"septic": "no"} if question.about == "pit" else {}
    drains: Answers = tuple(Answer(about, "job", (word,)) for about, word in safe.items())
    if question.about == "pit":  # somebody has found it
        drains = (*drains, Answer("opening-there", "house drain/opening:yard pit", ("yes",)))
    about = drains if question.block in ("find out", "rest") else ()
    if question.id == "fine":  # it clears pipe of what somebody complains of
        about = (Answer("slow", "job", ("washing machine",)),)
    if question.id in ("machine-from", "machine-when", "machine-cable"):
        about = (Answer("machine-run", "job", ("41 ft",)),)
    asks = [ask for ask in of.open(about) if ask.question is question] or [of.ask(about, question.id)]
    for ask in asks:
        options = [option.value for option in ask.options]
        typed = ["2024", "2025"] if ask.question.type_in == "day" else ["3 ft", "60 ft"]
        options += typed if len(options) < 2 and ask.question.type_in else []
        for value in (*options[:3], NONE):
            found.add(told(of, (*about, answered(ask, value))))
            if len(found) > 1:
                return
    pytest.fail("whatever is answered, the plan is the same")


DEEP = '    careful: {say: "Taken as yes: stay at the rim, nobody goes in.", set: {deep pits: "yes"}}\n'
# The answers of the first question of the safety screen.
YES = '      - {words: "yes", set: {task/complaint/gas smell: "yes"}}\n'
NO = '      - {words: "no", set: {task/complaint/gas smell: "no"}}\n'


@pytest.mark.parametrize(
    ("was", "now", "says"),
    [
        ("settles: site.gas_smell", "settles: site.gas_smel", "did you mean 'site.gas_smell'?"),
        ("  - id: pumps\n", "  - id: chemicals\n", "'chemicals' stands twice"),
        ("    block: safety\n", "    block: safty\n", "block: got 'safty'"),
        ("text: Do you smell gas, here or at the door?", "text: " + "gas " * 26, "26 words; expected"),
        ("not after: {holding:", "not after: {holdin:", "did you mean 'holding'?"),
        ('not after: {holding: "no"', "not after: {holding: nay", "'nay' is no answer to holding"),
        ("source: own\n", "source: owl\n", "no source has the id 'owl'; did you mean 'own'?"),
        ("    about: site\n", "    about: sight\n", "did you mean 'site'?"),
        (DEEP, "", "has a careful branch"),
        ("    minutes: {value: 0.2, unit: min}\n", "    minutes: {value: 0.2, unit: mm}\n", "minutes"),
        ("    choices:\n" + YES + NO, "", "there is nothing to answer"),
        (YES + NO, YES * 8, "choices: more than 7 in north america"),
        (YES + NO, YES + NO + "    into: site\n", "into: what is typed or likely needs a place"),
    ],
)  # fmt: skip
def test_a_fault_names_file_and_line(tmp_path, was, now, says):
    shutil.copytree(rules_dir() / "questions", tmp_path / "questions")
    path = tmp_path / "questions" / "2_safety.yaml"
    text = path.read_text()
    assert was in text
    path.write_text(text.replace(was, now, 1))
    with pytest.raises(BadInput) as caught:
        load_questions(tmp_path, tables(), rules())
    assert says in str(caught.value)
    assert "2_safety.yaml:" in str(caught.value) or "questions: " in str(caught.value)


def test_an_empty_folder_is_told(tmp_path):
    with pytest.raises(BadInput, match="no question"):
        load_questions(tmp_path, tables(), rules())


@pytest.mark.parametrize(
    ("region", "units", "storey"),
    [
        ("north america", None, "8.9 ft"),
        ("britain", None, "2.7 m"),
        ("north america", Units.METRIC, "2.7 m"),
        ("britain", Units.INCH, "8.9 ft"),
    ],
)
def test_nobody_is_told_to_pace_out_a_pipe_that_stands(region, units, storey):
    """A storey is about 2.7 m or 8.9 ft (2.7 / 0.3048 = 8.86): as an unknown drop counts."""
    sheet = HOUSE.replace("region: north america", f"region: {region}").replace(
        "drop: assumed 8 ft", "drop: unknown"
    )
    asks = Session(replace(known(), sheet=sheet, ask_all=True, units=units)).open(())
    asked = [each for each in asks if each.question.id == "run"]
    drops = [each.text for each in asked if each.subject.kind == "drop"]
    pipes = [each.text for each in asked if each.subject.kind == "pipe"]
    assert drops
    assert pipes
    for text in drops:
        assert "Pace" not in text
        assert f"Count storeys of about {storey}" in text
    assert all(text.endswith("Pace it out.") for text in pipes)


@pytest.mark.parametrize("asked", ["holding", "standing-water"])
def test_a_trap_that_stands_full_as_it_always_does_is_no_standing_water(asked):
    """Every gully and toilet holds a water seal: only what stands higher is held by the line."""
    assert "trap" in questions().by_id[asked].text


@pytest.mark.parametrize(
    ("kind", "cover"), [("gully", "grid"), ("floor drain", "grating"), ("shower drain", "strainer")]
)
def test_nobody_takes_a_cover_for_the_way_in(kind, cover):
    """A gully has a grid and no plug to tape, and the grid is wider than its rodding arm (trade)."""
    text = questions().by_id["opening-size"].asked_of("no", kind)
    assert f"not by its {cover}" in text
    assert "tape" not in text.lower()
    assert len(text.split()) <= MOST_WORDS


def test_of_an_opening_without_a_plug_no_plug_is_measured():
    size = questions().by_id["opening-size"]
    texts = (size.asked_of("no", kind) for kind in ("gully", "stack access door", "air admittance valve"))
    assert not [text for text in texts if "plug" in text]


def test_the_question_of_material_names_the_pipe_it_means():
    """A newer kitchen's run and the old drain are one line: what was seen of a part was told of it all."""
    house = {"region": "britain", "built": "1930", "building": "terraced-house"}
    said = tuple(Answer(question, "job", (word,)) for question, word in house.items())
    asks = [ask for ask in session().open(said) if ask.question.id == "pipe-material"]
    told = {ask.subject.name: ask.text for ask in asks}
    assert "mostly" in told["the rear drain"]
    assert "from kitchen sink to rodding arm" in told["the rear drain"]
    assert "to public sewer" in told["the rear drain beyond rodding arm"]
    assert "from kitchen" not in told["the rear drain beyond rodding arm"]
    assert "from rain gully to the rear drain" in told["the rain gully line"]
    assert max(len(text.split()) for text in told.values()) <= MOST_WORDS
    assert "newer kitchen" in asks[0].question.why
