"""Which openings there are, how they open and of which kind is asked before a plan lets no camera in.

The house is a technician's: a slab, a clay lateral full of roots, a cleanout in the yard that is there and
opens. That it is asked for whatever its answer alone is worth is the design's rule.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from advisor.archetype import typical
from advisor.interview.answers import NONE, Answer
from advisor.interview.ask import Ask
from advisor.interview.dialogue import Session
from advisor.interview.openings import AT_OPENINGS, next_at_openings
from advisor.interview.question import DONT_KNOW
from advisor.interview.sheets import Answers
from advisor.interview.subject import subjects
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables
from tests.interview.small_session import known, walk

CLEANOUT = "house drain/opening:yard cleanout"
CALM = dict.fromkeys(("gas-smell", "holding", "chemicals", "pumps", "roof", "deep", "septic"), "no")
SAID = {
    **{name: (word,) for name, word in CALM.items()},
    "backs-up": (NONE,),
    "slow": ("toilet", "bath", "laundry"),
    "history": ("roots came back",),
    "fine": ("kitchen sink",),
}
STIFF = """
kit: a large reel
heads:
  - {head: h, like: large reel, nose: round}
springs:
  - {spring: s, like: large reel}
rods:
  - {rod: r, like: large reel, diameter: 13 mm, core: 5.8 to 8.9 mm}
"""


def slab() -> str:
    return typical(next(b for b in known().buildings if b.id == "slab-one-storey"), 1952)


@cache
def stiff(ask_all: bool = False) -> Session:
    kit = kit_of(kit_of_text(STIFF, "kit"), tables())
    return Session(replace(known(), sheet=slab(), kit=kit, worlds=300, ask_all=ask_all))


def say(found: dict[str, str]):
    def answer(ask: Ask) -> tuple[str, ...]:
        if ask.subject.id == CLEANOUT and ask.question.id in found:
            return (found[ask.question.id],)
        return SAID.get(ask.question.id, (DONT_KNOW,))

    return answer


def before_the_drain(of: Session) -> Answers:
    answers: Answers = ()
    while (ask := of.next(answers)) is not None and ask.question.block != "find out":
        answers = (*answers, Answer(*ask.key, SAID.get(ask.question.id, (DONT_KNOW,))))
    return answers


def test_a_cleanout_is_looked_for_before_no_camera_goes_in():
    of = stiff()
    begin = before_the_drain(of)
    assert of.standing(begin).nowhere, "else this house tells nothing"
    first = of.next(begin)
    assert (first.question.id, first.subject.id) == ("opening-there", CLEANOUT)
    answers = walk(of, say({}))
    assert of.standing(answers).nowhere
    asked = {(a.question, a.about) for a in answers}
    doubted = [s for s in of.sheets.drain(answers).subjects if s.about == "doubted opening"]
    assert len(doubted) == 2  # the cleanouts in the yard and under the kitchen sink
    assert {("opening-there", s.id) for s in doubted} <= asked


def test_what_opens_soonest_is_asked_about_first_whatever_the_plan_ranks_first():
    """Nobody asks whether a toilet comes off before he has looked for a cover."""
    of = stiff()
    begin = before_the_drain(of)
    study = of.study(begin)
    asks = [ask for ask in of.open(begin) if ask.subject.about in AT_OPENINGS]
    for settled in (study.settled, replace(study.settled, ranked=study.ranked[::-1])):
        assert next_at_openings(asks, replace(study, settled=settled)).to_open == min(a.to_open for a in asks)


def test_of_one_that_is_found_the_kind_is_asked_next_and_whether_it_opens_and_how_large_and_far_it_is():
    of = stiff()
    found = {"opening-there": "yes", "yard-opening-kind": "two-way cleanout", "opening-opens": "yes"}
    asked = [(a.question, a.about) for a in walk(of, say(found))]
    at = asked.index(("opening-there", CLEANOUT))
    assert asked[at + 1] == ("yard-opening-kind", CLEANOUT)
    assert {("opening-opens", CLEANOUT), ("opening-size", CLEANOUT)} <= set(asked)
    assert ("run", "house drain/after edge of the slab/pipe 1") in asked


def test_of_one_that_does_not_open_nobody_paces_how_far_it_is():
    found = {"opening-there": "yes", "yard-opening-kind": "two-way cleanout", "opening-opens": "no"}
    asked = [(a.question, a.about) for a in walk(stiff(), say(found))]
    assert ("opening-opens", CLEANOUT) in asked
    assert ("run", "house drain/after edge of the slab/pipe 1") not in asked


def test_two_answers_together_change_what_neither_changes_alone():
    """The rod that a square throat stops gets round a swept one."""
    of = stiff()
    begin = before_the_drain(of)
    there = Answer("opening-there", CLEANOUT, ("yes",))
    kind = Answer("yard-opening-kind", CLEANOUT, ("yard cleanout",))
    assert of.standing((*begin, there)).nowhere
    both = of.standing((*begin, there, kind))
    assert not both.nowhere
    assert "yard cleanout" in both.words()


@pytest.mark.parametrize(("kind", "asked"), [("assumed two-way cleanout", True), ("two-way cleanout", False)])
def test_a_kind_is_asked_where_it_is_assumed_and_the_opening_is_there(kind, asked):
    def about(there: str) -> set[str]:
        text = slab().replace("kind: assumed two-way cleanout", f"kind: {kind}").replace("65 %", there)
        sheet = site_of_text(text, "site", tables())
        network = network_of(sheet, tables())
        return {s.about for s in subjects(network, sheet.model, tables()) if s.id == CLEANOUT and not s.idle}

    assert ("assumed opening" in about("yes")) is asked
    assert "assumed opening" not in about("65 %")
    assert "assumed opening" not in about("no")


def test_all_asks_the_kind_and_the_size_of_a_cleanout_that_is_there():
    of = stiff(ask_all=True)
    asked = [(a.question, a.about) for a in walk(of, say({"opening-there": "yes"}), most=300)]
    assert ("yard-opening-kind", CLEANOUT) in asked
    assert ("opening-size", CLEANOUT) in asked


# -- a bend that was only assumed --------------------------------------------------------------------


def test_a_bend_that_is_not_there_is_plain_pipe_and_the_bends_behind_keep_their_ids():
    text = slab().replace(
        "- bend: assumed closet bend", "- bend: assumed closet bend\n      - bend: 1/8 bend"
    )
    of = Session(replace(known(), sheet=text))
    first, second = "house drain/after toilet/bend 1", "house drain/after toilet/bend 2"
    (asked,) = (a for a in of.open(()) if a.subject.id == first)
    assert "there is none" in [option.words for option in asked.options]
    said = (Answer("bend", first, ("no",)),)
    network = of.sheets.drain(said).network
    assert network.pieces[first].kind == "mark"
    assert network.pieces[second].kind == "bend"
    assert network.pieces[second].fitting.likeliest == "1/8 bend"
    assert first not in {a.subject.id for a in of.open(said)}
    route = next(r for r in of.study(said).routes if r.opening.name == "toilet")
    bends = [passage.piece.id for passage in route.passages if passage.shape == "bend"]
    assert first not in bends
    assert second in bends


# -- how high a pipe stands --------------------------------------------------------------------------


def test_nobody_counts_storeys_in_a_house_of_one():
    """Up to 13 ft of stack is less than two storeys of 8.9 ft (17.7 ft); 20 ft may be more."""

    def asked(drop: str) -> str:
        text = slab().replace("drop: assumed 8 to 13 ft", f"drop: assumed {drop}")
        of = Session(replace(known(), sheet=text, ask_all=True))
        return next(a.text for a in of.open(()) if a.subject.id == "bathroom stack/after roof vent/drop 1")

    assert "storey" not in asked("8 to 13 ft")
    assert "No ladder" in asked("8 to 13 ft")
    assert "Count storeys" in asked("16 to 20 ft")
