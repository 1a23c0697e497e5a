"""Another bathroom or kitchen than the drawing has: asked for once, and drawn where it is told to join.

By hand, on the slab house of rules/archetypes: between bathroom stack and bath branch lie 3 to 8 ft of drain,
which a joining in the middle parts into 1.5 to 4 ft and the same. That nothing joins a smaller pipe is common
practice, no source.
"""

from __future__ import annotations

import pytest

from advisor.interview.answers import Answer
from advisor.interview.branch import NO_OTHER, SOMEWHERE
from advisor.interview.moved import moved
from advisor.interview.question import DONT_KNOW
from advisor.interview.sheets import Answers
from advisor.result.build import plan_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables
from tests.interview.small_session import HOUSE, answered, known, session, walk

SAFE = dict.fromkeys(("gas-smell", "holding", "chemicals", "pumps", "roof", "deep", "septic"), "no")
SLAB = {"region": "north america", "built": "1952", "building": "slab-one-storey"}
BRANCHES = ("other-toilet", "other-kitchen")
# Every second kind of building; the others with the slow checks.
EACH = [
    building if number % 2 == 0 else pytest.param(building, marks=pytest.mark.slow)
    for number, building in enumerate(known().buildings)
]


def begin(**said: str) -> Answers:
    return tuple(Answer(question, "job", (word,)) for question, word in {**SLAB, **SAFE, **said}.items())


def place(words: str, question: str = "other-toilet", answers: Answers = ()) -> str:
    """The value of the answer that says so."""
    (found,) = [o.value for o in session().ask(answers or begin(), question).options if words in o.words]
    return found


BETWEEN = place("between bathroom stack and bath branch")


def test_it_is_drawn_where_it_is_told_to_join_and_its_toilet_is_a_way_in():
    of = session()
    said = (*begin(), Answer("other-toilet", "job", (BETWEEN,)))
    text = of.sheets.text(said)
    half = "      - pipe: assumed 1.50 ft to 4.00 ft\n"
    assert f"{half}      - joined by: other bathroom\n        fitting: unknown\n{half}" in text
    network = of.sheets.drain(said).network
    before = of.sheets.drain(begin()).network
    (new,) = {each.name for each in network.openings()} - {each.name for each in before.openings()}
    assert new == "other toilet"
    assert "other toilet" in {route.opening.name for route in of.study(said).routes}
    assert "other toilet" in [option.value for option in of.ask(said, "backs-up").options]
    whole = [
        sum(p.along for p in each.pieces.values() if p.line == "house drain") for each in (before, network)
    ]
    assert whole[0] == pytest.approx(whole[1], abs=0.01)
    # Nobody has seen any of it.
    assert {a.about for a in network.assumed} > {a.about for a in before.assumed}
    assert "      - pipe: assumed 3 to 12 ft\n" in text


def test_where_nobody_knows_the_place_it_is_the_lowest_inside_which_every_way_down_meets():
    of = session()
    text = of.sheets.text((*begin(), Answer("other-toilet", "job", (SOMEWHERE,))))
    # Between the kitchen line and the edge of the slab: 5 to 12 ft.
    half = "        fitting: unknown\n      - pipe: assumed 2.50 ft to 6.00 ft\n"
    assert f"- joined by: kitchen line\n{half}      - joined by: other bathroom\n" in text
    assert f"- joined by: other bathroom\n{half}        landmark: edge of the slab\n" in text


@pytest.mark.parametrize("word", [DONT_KNOW, NO_OTHER])
def test_dont_know_and_no_leave_the_drawing_and_every_chance(word):
    of = session()
    for question in BRANCHES:
        said = (*begin(), Answer(question, "job", (word,)))
        assert of.sheets.text(said) == of.sheets.text(begin())


def test_it_is_asked_once_before_what_backs_up_and_only_of_a_drawing_that_nobody_made():
    of = session()
    told = walk(of, lambda ask: ({**SLAB, **SAFE}.get(ask.question.id, DONT_KNOW),))
    asked = [answer.question for answer in told]
    assert [asked.count(each) for each in BRANCHES] == [1, 0]
    assert asked.index("other-toilet") < asked.index("backs-up"), "it may be what backs up"
    drawn = walk(session(sheet=HOUSE), lambda ask: (SAFE.get(ask.question.id, DONT_KNOW),))
    assert not {answer.question for answer in drawn} & set(BRANCHES)


def test_another_kitchen_is_asked_with_all_before_any_length_and_told_at_the_end():
    of = session(ask_all=True)
    told = walk(of, lambda ask: ({**SLAB, **SAFE}.get(ask.question.id, DONT_KNOW),), most=300)
    asked = [answer.question for answer in told]
    assert [asked.count(each) for each in BRANCHES] == [1, 1]
    assert asked.index("other-kitchen") < asked.index("run")
    lacking = [ask.question.id for ask in session(sheet=HOUSE).not_drawn(())]
    assert lacking == [
        "other-toilet",
        "house-trap",
        "other-kitchen",
        "other-cleanout",
        "other-outdoors",
        "other-pipe",
    ]


@pytest.mark.parametrize("building", EACH, ids=lambda b: b.id)
def test_wherever_it_joins_the_sheet_is_whole_and_no_pipe_is_smaller_than_what_joins_it(building):
    of = session()
    year = str(max(building.first_year, min(1952, (building.last_year or 2100))))
    house = {"region": building.region, "built": year, "building": building.id}
    said = tuple(Answer(question, "job", (word,)) for question, word in house.items())
    for question in BRANCHES:
        ask = of.ask(said, question)
        for option in ask.options[1:]:
            now = (*said, answered(ask, option.value))
            network = of.sheets.drain(now).network
            name = ask.question.branch[building.region].line
            (junction,) = [p for p in network.pieces.values() if p.kind == "junction" and p.branch == name]
            joined = network.pieces[network.lines[name][-1]].wall.nominal.value
            assert junction.wall.nominal.value >= joined
            site_of_text(of.sheets.text(now), "site", tables())


def test_a_second_branch_joins_where_the_first_one_made_a_place():
    of = session()
    said = (*begin(), Answer("other-toilet", "job", (BETWEEN,)))
    below = place("between other bathroom and bath branch", "other-kitchen", said)
    text = of.sheets.text((*said, Answer("other-kitchen", "job", (below,))))
    assert text.index("joined by: other bathroom") < text.index("joined by: other kitchen line")
    assert text.index("joined by: other kitchen line") < text.index("joined by: bath branch")


def test_what_was_told_of_a_length_that_is_parted_later_is_told_again():
    of = session()
    run = Answer("run", BETWEEN, ("6 ft",))
    other = Answer("run", "house drain/after bath branch/pipe 1", ("12 ft",))
    said = (*begin(), run, other)
    now = (*said, Answer("other-toilet", "job", (BETWEEN,)))
    assert moved(of, said, now) == (run,)
    assert moved(of, said, (*said, Answer("other-toilet", "job", (NO_OTHER,)))) == ()


def test_what_is_drawn_of_the_kind_is_told():
    text = session().ask(begin(building="two-storey-stack"), "other-toilet").text
    assert text.startswith("Drawn is: downstairs toilet, upstairs toilet.")


def test_what_has_a_name_of_its_own_is_the_same_wherever_something_else_joins():
    """An opening or a junction beside the new branch: only the words of its place change."""
    of = session()
    told = (
        Answer("opening-opens", "house drain/opening:yard cleanout", ("yes",)),
        Answer("joining", "house drain/junction:bathroom stack", ("wye",)),
        Answer("joining", "house drain/junction:bath branch", ("combination",)),
        Answer("fine", "job", ("none of these",)),
    )
    said = (*begin(), *told)
    for words in ("between bathroom stack and bath branch", "between kitchen line and edge of the slab"):
        now = (*said, Answer("other-toilet", "job", (place(words),)))
        assert moved(of, said, now) == ()


# -- a house trap, by its two plugs: of the basement house, 2 to 6 ft before the foundation wall ----

CELLAR = {"building": "basement"}


def traps(**said: str) -> list[str]:
    """What is asked before the drain itself, of such a house."""
    of, answers = session(), ()
    told = {**SLAB, **CELLAR, **SAFE, **said}
    while (ask := of.next(answers)) is not None and ask.question.block in ("start", "safety", "complaint"):
        answers = (*answers, answered(ask, told.get(ask.question.id, DONT_KNOW)))
    return [answer.question for answer in answers]


@pytest.mark.parametrize(
    ("house", "asked"),
    [
        ({}, True),
        ({"built": DONT_KNOW}, True),
        ({"built": "1985"}, False),
        ({"building": "row-house-trap", "built": "1905"}, False),  # its own stands in the drawing
        ({"region": "britain", "building": "terraced-house", "built": "1905"}, False),
    ],
)
def test_two_plugs_side_by_side_are_asked_for_where_an_old_house_may_have_them(house, asked):
    """Common practice: house traps were built until about the middle of the last century."""
    found = traps(**house)
    assert ("house-trap" in found) == asked
    assert not asked or found.index("house-trap") < found.index("backs-up")


def test_of_a_newer_house_they_are_told_at_the_end():
    told = begin(**CELLAR, built="1985")
    assert "house-trap" in [ask.question.id for ask in session().not_drawn(told)]
    drawn = begin(building="row-house-trap", built="1905")
    assert "house-trap" not in [ask.question.id for ask in session().not_drawn(drawn)]


def test_whoever_does_not_know_of_two_plugs_is_told_to_look_for_them_until_it_is_known():
    """The trap holds the head and a full one empties over whoever opens it: don't know left no word of it."""
    of, house = session(worlds=50), begin(**CELLAR)
    said = (*house, Answer("house-trap", "job", (DONT_KNOW,)))
    (note,) = [note for note in plan_of(of.study(said, whole=True)).ask if note.caution.id == "house-trap"]
    assert "two plugs" in note.about[0]
    assert "Stop" in note.caution.text
    edited = of.sheets.text(said)
    assert "house trap: unknown" in edited
    for answer in ("no other", place("nobody knows", "house-trap", house)):
        now = (Answer("house-trap", "job", (answer,)),)
        assert "house trap: unknown" not in of.sheets.text((*house, *now))
        assert "house trap: unknown" not in session(sheet=edited).sheets.text(now)


@pytest.mark.parametrize("where", ["between floor cleanout and foundation wall", "nobody knows"])
def test_they_are_drawn_with_their_trap_where_they_are_told_to_be_and_are_ways_in(where):
    of, house = session(), begin(**CELLAR)
    said = (*house, Answer("house-trap", "job", (place(where, "house-trap", house),)))
    text = of.sheets.text(said)
    half = "      - pipe: assumed 1.00 ft to 3.00 ft\n"
    plug = "      - opening: {0}-side plug\n        kind: house trap {0}-side plug\n        there: yes\n"
    trap = f"{plug.format('house')}      - trap: house trap\n{plug.format('street')}"
    assert f"{half}{trap}{half}        landmark: foundation wall\n" in text.replace('"', "")
    network = of.sheets.drain(said).network
    assert {"house-side plug", "street-side plug"} <= {each.name for each in network.openings()}
    # No head goes through the trap: from the house side nothing reaches the sewer.
    trap = next(key for key, piece in network.pieces.items() if piece.stopper == "house trap")
    chances = {
        each.route.opening.name: (each.chance, trap in {p.piece.id for p in each.route.passages})
        for each in of.study(said).outcomes
    }
    assert chances["street-side plug"][0] > 0
    assert chances["floor cleanout"] == (0, True)


@pytest.mark.parametrize("word", [DONT_KNOW, NO_OTHER])
def test_without_them_the_drawing_stays(word):
    said = begin(**CELLAR)
    told = session().sheets.text((*said, Answer("house-trap", "job", (word,))))
    assert told.replace("house trap: unknown\n", "") == session().sheets.text(said)


@pytest.mark.parametrize(
    ("question", "name", "kind", "ask"),
    [
        ("other-cleanout", "other cleanout", "floor cleanout", "indoor-opening-kind"),
        ("other-outdoors", "other yard cleanout", "yard cleanout", "yard-opening-kind"),
    ],
)
def test_a_cleanout_that_is_not_drawn_is_put_in_by_a_question_and_is_a_way_in(question, name, kind, ask):
    """That of a garage floor could be told only by writing YAML."""
    of = session()
    where = place("between bath branch", question)
    said = (*begin(), Answer(question, "job", (where,)))
    opening = next(each for each in of.sheets.drain(said).network.openings() if each.name == name)
    assert (opening.hole.kind, opening.hole.there, opening.line) == (kind, 1.0, "house drain")
    assert name in {route.opening.name for route in of.study(said).routes}
    about = f"house drain/opening:{name}"
    assert of.ask(said, ask, about) is not None, "which kind it is, whoever found it sees at once"
    assert question not in {a.question for a in walk(of, lambda _: (DONT_KNOW,))}, "it is told, not asked for"


# -- in a chamber: drains of a yard meet there (common practice); the terraced house of rules/archetypes --
