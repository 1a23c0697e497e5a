"""No question sends anybody where it is not told to be safe: a roof, a pit, a plug with a danger behind it.

What is safe is the safety screen's: don't know is never a yes (the issue), and common practice, no source.
"""

from __future__ import annotations

import pytest

from advisor.interview.answers import Answer
from advisor.interview.ask import Ask
from advisor.interview.dialogue import Session
from advisor.interview.question import DONT_KNOW
from advisor.result.build import plan_of
from tests.cases.jobs import rules, tables
from tests.interview.small_session import HOUSE, questions, session, walk

SAFE = {
    **{"gas-smell": "no", "holding": "no", "chemicals": "no", "pumps": "no", "roof": "yes", "deep": "no"},
    "septic": "no",
}
PIT = "house drain/opening:yard pit"
PIT_PLUG = HOUSE.replace(
    "      - opening: yard pit\n",
    "      - opening: trap pit\n        kind: house trap street-side plug\n      - opening: yard pit\n",
).replace("        there: 40 %\n", "")


def asked(of: Session, **other: str) -> list[tuple[str, str, str]]:
    """Every question about an opening that is put with these safety answers: its id, the place, the text."""
    said = {**SAFE, **{name.replace("_", "-"): word for name, word in other.items()}}
    answers = tuple(Answer(name, "job", (word,)) for name, word in said.items())
    return [
        (ask.question.id, tables().openings[hole.kind].place, ask.text)
        for ask in of.open(answers)
        if ask.subject.piece is not None and (hole := ask.subject.piece.hole) is not None
    ]


def of(sheet: str = PIT_PLUG) -> Session:
    return session(sheet=sheet, ask_all=True)


def test_with_everything_told_safe_each_opening_is_asked_about():
    found = {(name, place) for name, place, _ in asked(of())}
    assert {("opening-opens", "roof"), ("opening-opens", "pit"), ("pit-depth", "pit")} <= found


@pytest.mark.parametrize("word", ["no", DONT_KNOW])
@pytest.mark.parametrize("doubted", [False, True])
def test_nobody_is_sent_onto_a_roof_that_is_not_told_safe(word, doubted):
    sheet = (
        PIT_PLUG.replace("kind: roof vent\n", "kind: roof vent\n        there: 50 %\n")
        if doubted
        else PIT_PLUG
    )
    assert "roof" in {place for _, place, _ in asked(of(sheet))}
    assert "roof" not in {place for _, place, _ in asked(of(sheet), roof=word)}


@pytest.mark.parametrize("danger", ["gas-smell", "holding", "chemicals"])
@pytest.mark.parametrize("word", ["yes", DONT_KNOW])
def test_no_plug_is_turned_with_a_danger_that_is_not_ruled_out(danger, word):
    found = {name for name, _, _ in asked(of(), **{danger: word})}
    assert "opening-opens" not in found
    if danger == "gas-smell":
        assert "pit-depth" not in found


@pytest.mark.parametrize("word", ["yes", DONT_KNOW])
def test_nobody_reaches_for_a_plug_in_a_pit_that_may_be_deep(word):
    def tried(**said: str) -> list[str]:
        return [
            text for name, place, text in asked(of(), **said) if (name, place) == ("opening-opens", "pit")
        ]

    assert len(tried()) == 2
    (left,) = tried(deep=word)
    assert "Nobody goes in" in left, "a cover is lifted from outside"


@pytest.mark.parametrize("word", ["yes", DONT_KNOW])
def test_a_tank_that_is_not_ruled_out_keeps_people_from_the_pits(word):
    """Whoever does not know whether there is a tank opens no pit, so cannot say how deep it is."""
    assert "pit" not in {place for name, place, _ in asked(of(), septic=word) if name != "opening-there"}


def test_a_tank_that_nobody_knows_of_stays_a_danger():
    """A caution is never weakened by who was asked (the issue: don't know is never a no)."""
    dangers = {}
    for word in (None, DONT_KNOW, "yes", "no"):
        answers = () if word is None else (Answer("septic", "job", (word,)),)
        plan = plan_of(of().study(answers, whole=True))
        asks = [note.caution for note in plan.ask]
        dangers[word] = [c.word for c in (*asks, *plan.cautions) if c.id == "septic-tank"]
    assert dangers == {None: ["danger"], DONT_KNOW: ["danger"], "yes": ["danger"], "no": []}


def test_each_danger_that_nobody_has_ruled_out_can_be_ruled_out_on_the_safety_screen():
    """A danger that stands on every screen only because nobody was asked is asked about (the issue)."""
    flags = [name for name, fact in rules().facts.items() if name.startswith("site.") and fact.kind == "flag"]
    dangers = [r for r in rules().all_rules if (c := r.conclusion.caution) is not None and c.word == "danger"]
    hang = {n for r in dangers if r.about == "site" for n in flags if r.when.evaluate({n: True}) is True}
    assert hang == {"site.gas_smell", "site.septic"}
    assert hang <= {question.settles for question in questions().block("safety")}


@pytest.mark.parametrize(("word", "left"), [("no", []), (DONT_KNOW, ["septic-tank"])])
def test_after_the_safety_screen_no_danger_hangs_on_what_was_never_asked(word, left):
    """Each once, by one key, without --all; don't know keeps the danger."""
    house = session(sheet=HOUSE)

    def say(ask: Ask) -> tuple[str, ...]:
        return ({**SAFE, "septic": word}.get(ask.question.id, DONT_KNOW),)

    answers = walk(house, say)
    assert [a.question for a in answers].count("septic") == 1
    plan = plan_of(house.study(answers, whole=True))
    assert [note.caution.id for note in plan.ask if note.caution.word == "danger"] == left


def test_a_tank_that_is_drawn_is_not_asked_about():
    drawn = HOUSE.replace("      - end: public sewer\n", "      - tank: septic tank\n      - end: soakaway\n")
    for sheet, wanted in ((HOUSE, True), (drawn, False)):
        told = walk(session(sheet=sheet), lambda ask: (SAFE.get(ask.question.id, DONT_KNOW),))
        assert ("septic" in {a.question for a in told}) is wanted


@pytest.mark.parametrize(
    ("question", "word"),
    [
        ("opening-there", "no"),
        ("opening-there", DONT_KNOW),
        ("opening-opens", "no"),
        ("opening-opens", DONT_KNOW),
    ],
)
def test_a_pit_that_nobody_found_or_opened_has_no_depth_to_tell(question, word):
    doubt = "there: 40 %" if question == "opening-there" else "there: yes"
    of_ = session(sheet=HOUSE.replace("there: 40 %", doubt), ask_all=True)

    def deep(*more: Answer) -> bool:
        answers = (*(Answer(name, "job", (w,)) for name, w in SAFE.items()), *more)
        return "pit-depth" in {ask.question.id for ask in of_.open(answers)}

    assert not deep(Answer(question, PIT, (word,)))
    assert deep(Answer(question, PIT, ("yes",)))


def test_nobody_paces_from_what_nobody_found():
    """Whoever does not know whether the pit is there cannot say how far it is; from elsewhere they can."""
    of_ = session(sheet=HOUSE, ask_all=True)

    def runs(word: str) -> list[str]:
        answers = (Answer("opening-there", PIT, (word,)),)
        return [ask.text for ask in of_.open(answers) if ask.question.id in ("run", "bend")]

    assert sum("yard pit" in text for text in runs("yes")) == 2
    assert not [text for text in runs(DONT_KNOW) if "yard pit" in text]
    assert [text for text in runs("yes") if "yard pit" not in text] == runs(DONT_KNOW) != []


def test_a_sheet_that_says_gas_ends_it_as_an_answer_does():
    assert session(sheet=HOUSE + "  complaint: {gas smell: yes}\n", ask_all=True).next(()) is None


@pytest.mark.parametrize("kind", [name for name, kind in tables().openings.items() if kind.usable])
def test_only_what_has_a_plug_is_asked_for_it(kind):
    """What is brought to an opening tells whether it has a plug: a wrench for it, or a spare one."""
    sheet = HOUSE.replace("kind: floor cleanout\n        there: 60 %", f"kind: {kind}")
    (text,) = [
        text for name, _, text in asked(of(sheet)) if name == "opening-opens" and "floor cleanout" in text
    ]
    row = tables().openings[kind]
    plugged = any("plug" in thing or "cap" in thing for thing in row.bring)
    assert ("its plug" in text or "plug in its side" in text) == plugged, text
    assert len(text.split()) <= 25


def test_water_is_not_tried_in_a_line_that_holds_or_has_something_poured_in():
    for danger in ("holding", "chemicals"):
        said = tuple(Answer(n, "job", (w,)) for n, w in {**SAFE, danger: "yes"}.items())
        said = (
            *said,
            *(Answer(n, "job", (DONT_KNOW,)) for n in ("standing-water", "backs-up", "slow", "history")),
        )
        ask = session(sheet=HOUSE, ask_all=True).next(said)
        assert ask is not None
        assert ask.question.id != "fine"
