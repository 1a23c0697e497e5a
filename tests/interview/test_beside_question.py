"""What can hurt on the way to a thing stands before the question that sends somebody to look at it."""

from __future__ import annotations

import pytest

from advisor.interview.answers import Answer
from advisor.interview.hazards import beside_question
from advisor.quantity import Units
from advisor.terminal import ask_screen
from advisor.terminal.page import Page
from tests.cases.jobs import tables
from tests.interview.small_session import HOUSE, known, session
from tests.terminal.test_ask import typed

SAFE = "  complaint: {gas smell: no, holding: no, chemicals: no}\nroof safe: yes\nseptic: no\n"
OVER_A_CRAWL_SPACE = (
    *(Answer("region", "job", ("north america",)), Answer("built", "job", ("1952",))),
    *(Answer("building", "job", ("crawl-space",)), Answer("gas-smell", "job", ("no",))),
    *(Answer("holding", "job", ("no",)), Answer("chemicals", "job", ("no",))),
)


def told(of, ask, answers=()):
    return " ".join(beside_question(ask, of.sheets.drain(answers), known(), Units.INCH))


def asked(of, question, about, answers=()):
    return next(a for a in of.open(answers) if a.question.id == question and about in a.subject.id)


def test_nobody_is_sent_into_a_crawl_space_without_a_word_of_it():
    """Look for its cleanout, turn its plug, pace out a pipe beside it, see what the pipe there is made of."""
    of, found = session(), Answer("opening-there", "house drain/opening:crawl space cleanout", ("yes",))
    there = (*OVER_A_CRAWL_SPACE, found)
    put = [
        (asked(of, "opening-there", "crawl space", OVER_A_CRAWL_SPACE), OVER_A_CRAWL_SPACE),
        (asked(of, "opening-opens", "crawl space", there), there),
        (asked(of, "opening-size", "crawl space", there), there),
        (asked(of, "pipe-material", "wall house drain", there), there),
        (asked(of, "run", "after crawl space cleanout", there), there),
        (asked(of, "run", "after laundry line", there), there),  # the same pipe, further on
    ]
    for ask, answers in put:
        words = told(of, ask, answers)
        assert "WARNING:" in words, ask.key
        for word in ("crawl", "never alone", "air tested", "power off"):
            assert word in words, (ask.key, word)
    assert "crawl" not in told(of, asked(of, "opening-there", "yard", OVER_A_CRAWL_SPACE), OVER_A_CRAWL_SPACE)


@pytest.mark.parametrize("there", ["yes", "no", "don't know"])
def test_whatever_becomes_of_its_cleanout_the_drain_hangs_in_the_crawl_space(there):
    """So do the lines that run into it, and the bends at the foot of their drops."""
    of = session(ask_all=True)
    said = (
        *OVER_A_CRAWL_SPACE,
        Answer("opening-there", "house drain/opening:crawl space cleanout", (there,)),
    )
    crawled = [
        *(("joining", "house drain/junction:toilet branch"), ("run", "toilet branch/after toilet/pipe 1")),
        *(("bend", "kitchen line/after kitchen sink/bend 1"), ("pipe-material", "wall kitchen line")),
    ]
    for question, about in crawled:
        ask = asked(of, question, about, said)
        assert "Bad air or a loose cable can kill" in told(of, ask, said), ask.key
        # The minutes at the place, and those of getting there (rules/tables/costs.yaml).
        assert ask.minutes == ask.question.minutes.likely + tables().costs["crawl"].likely
    for question, about in (("run", "after yard cleanout"), ("run", "kitchen sink/drop 1")):
        ask = asked(of, question, about, said)
        assert "crawl" not in told(of, ask, said)
        assert ask.minutes == ask.question.minutes.likely


def test_in_a_house_without_a_crawl_space_nobody_crawls():
    of = session(sheet=HOUSE + SAFE, ask_all=True)
    assert not any(ask.crawls for ask in of.open(()))


def test_what_can_hurt_at_a_plug_stands_where_hands_go_to_it_and_not_where_eyes_do():
    of, found = session(), Answer("opening-there", "house drain/opening:crawl space cleanout", ("yes",))
    there = (*OVER_A_CRAWL_SPACE, found)
    assert "can burst out" in told(of, asked(of, "opening-opens", "crawl space", there), there)
    assert "can burst out" not in told(of, asked(of, "opening-size", "crawl space", there), there)


@pytest.mark.parametrize(
    ("question", "about", "words"),
    [
        ("opening-there", "yard pit", ["A car can hit you"]),  # a cover in a drive
        ("opening-opens", "roof vent", ["A fall from the roof can kill", "touches a wire can kill"]),
        ("pit-depth", "yard pit", ["Air in a pit will kill", "A car can hit you"]),
    ],
)
def test_each_place_has_its_own(question, about, words):
    kind = "kind: inspection chamber\n        there: 40 %"
    sheet = HOUSE.replace("depth: assumed 2 ft", "") + SAFE
    if question == "pit-depth":
        sheet = sheet.replace(kind, "kind: inspection chamber")
    of = session(sheet=sheet, ask_all=True)
    said = told(of, asked(of, question, about))
    for each in words:
        assert each in said


def test_nobody_is_told_of_the_roof_who_is_asked_what_stands_below_it():
    of = session(sheet=HOUSE + SAFE, ask_all=True)
    about = [a for a in of.open(()) if a.subject.line == "vent" and ":roof vent" not in a.subject.id]
    assert "run" in {ask.question.id for ask in about}
    for ask in about:
        assert "roof" not in told(of, ask), ask.key


def test_what_may_only_be_on_the_way_is_told_whole_once_in_a_sitting(capsys):
    """Nobody knows that the plug hangs in a crawl space. Before each question that sends there it still
    stands, by its first sentence."""
    of, page = session(sheet=HOUSE + SAFE), Page()
    found = (Answer("opening-there", "house drain/opening:floor cleanout", ("yes",)),)
    asks = [
        (asked(of, "opening-there", "floor cleanout"), ()),
        (asked(of, "opening-opens", "floor cleanout", found), found),
    ]
    first, hands_on = (beside_question(a, of.sheets.drain(s), known(), Units.INCH) for a, s in asks)
    (warned,) = [words for words in first if "crawl" in words]
    said = []
    for ask, answers in (asks[0], asks[0], asks[1]):
        with typed("d"):
            ask_screen.put(ask, of, answers, page)
        said.append(" ".join(capsys.readouterr().out.split()))
    assert warned in said[0]
    assert warned not in said[1]
    assert "WARNING: Bad air or a loose cable can kill." in said[1]
    assert warned in hands_on
    assert all(" ".join(words.split()) in said[2] for words in hands_on)


def test_it_stands_before_the_question(capsys):
    of = session()
    ask = asked(of, "opening-there", "crawl space", OVER_A_CRAWL_SPACE)
    with typed("wd"):
        ask_screen.put(ask, of, OVER_A_CRAWL_SPACE, Page())
    said = " ".join(capsys.readouterr().out.split())
    warned, looked = "never alone", "Look for the crawl space cleanout"
    assert said.count(warned) == said.count(looked) == 2  # asked again after the why
    assert said.index(warned) < said.index(looked)


def test_a_stretch_paced_to_a_pit_in_the_drive_tells_of_the_cars_and_one_indoors_does_not():
    """A length is paced from one end to the other, so what can hurt at the pit at its end can hurt then."""
    of = session(sheet=HOUSE + SAFE, ask_all=True)
    runs = [ask for ask in of.open(()) if ask.question.id == "run"]
    to_pit = [ask for ask in runs if any("yard pit" in end for end in ask.subject.beside)]
    assert to_pit
    for ask in runs:
        assert ("A car can hit you" in told(of, ask)) is (ask in to_pit), ask.key


def test_to_what_is_in_a_cellar_nobody_crawls():
    """Its kind alone would: a floor cleanout may be in a crawl space, where nobody said what house it is."""
    of = session()
    house = tuple(
        Answer(each.question, each.about, ("basement",)) if each.question == "building" else each
        for each in OVER_A_CRAWL_SPACE
    )
    asks = [ask for ask in of.open(house) if ask.question.id == "opening-there"]
    assert [ask for ask in asks if "floor cleanout" in ask.subject.id]
    assert not [ask.subject.id for ask in asks if "crawl" in told(of, ask, house)]
