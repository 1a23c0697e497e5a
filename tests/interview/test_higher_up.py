"""Another toilet or kitchen on a floor higher up: it comes down a stack, its own or one that is drawn.

By the trade: a toilet upstairs falls down a pipe of 3 in or more (100 mm) that goes on to the roof as its
vent and turns at the foot; that a stack which takes a toilet is not smaller than 3 in is read in a text
(upc-traps, rules/archetypes/two-storey-stack.yaml).
"""

from __future__ import annotations

import pytest

from advisor.interview.answers import Answer
from advisor.interview.branch import SOMEWHERE
from advisor.interview.store import values_of
from advisor.site.network import Network
from advisor.site.sheet import site_of_text
from advisor.terminal.ask_screen import put
from advisor.terminal.page import Page
from tests.cases.jobs import tables
from tests.interview.small_session import answered, known, session
from tests.terminal.test_choose import typed

CRAWL = {"region": "north america", "built": "1984", "building": "crawl-space"}
BEGIN = tuple(Answer(question, "job", (word,)) for question, word in CRAWL.items())
MIXED = [
    each for each in known().buildings if each.id in ("crawl-space", "apartment-riser", "terraced-house")
]


def way_down(network: Network, opening: str) -> list[tuple[str, str, bool]]:
    start = next(key for key, piece in network.pieces.items() if piece.name == opening)
    pieces = (network.pieces[key] for key in network.downstream(start))
    return [(p.kind, p.line, p.vertical) for p in pieces if p.kind in ("bend", "junction", "drop")]


def test_the_floor_is_asked_where_it_joins_pipe_that_lies_and_upstairs_it_has_stack_drop_and_foot(capsys):
    of = session()
    ask = of.ask(BEGIN, "other-toilet")
    assert "between laundry line and bathroom stack" in ask.options[4].words
    found = {}
    for keys in ("51", "52", "5d", "5b1"):
        with typed(keys):
            found[keys] = put(ask, of, BEGIN, Page()).values
    assert "On which floor is it?" in " ".join(capsys.readouterr().out.split())
    assert found["51"] == found["5d"] == (ask.options[4].value,)
    assert found["5b1"] == (ask.options[0].value,), "back: to where it joins"
    below, above = (
        way_down(of.sheets.drain((*BEGIN, answered(ask, *found[keys]))).network, "other toilet")
        for keys in ("51", "52")
    )
    assert below[:2] == [("bend", "other bathroom", False), ("junction", "house drain", False)]
    assert [each[:2] for each in above[:5]] == [
        ("bend", "other bathroom"),
        ("junction", "other stack"),
        ("drop", "other stack"),
        ("bend", "other stack"),
        ("junction", "house drain"),
    ]
    words = ask.words_of(found["52"][0])
    assert "higher up" in words
    assert values_of(ask, (words,)) == (found["52"], None), "in a file of answers too"


def test_it_joins_a_stack_of_which_nobody_has_seen_the_size_and_that_is_as_wide_then():
    """The bathroom stack over a crawl space is drawn as 2 in for its basin and bath alone."""
    of = session()
    ask = of.ask(BEGIN, "other-toilet")
    (upstairs,) = [o for o in ask.options if "bathroom stack, between roof vent and basin" in o.words]
    assert upstairs.higher_up is None, "it stands: no floor is left to ask"
    network = of.sheets.drain((*BEGIN, answered(ask, upstairs.value))).network
    assert ("bend", "bathroom stack") in [w[:2] for w in way_down(network, "other toilet")], (
        "the foot of that stack"
    )
    (junction,) = [piece for piece in network.pieces.values() if piece.branch == "other bathroom"]
    assert junction.wall.nominal.value == pytest.approx(3 * 0.0254)
    told = of.sheets.text(BEGIN).replace("size: assumed 2 in", "size: 2 in")
    places = [option.words for option in session(sheet=told).ask((), "other-toilet").options]
    assert not [words for words in places if "the bathroom stack, " in words], "that size was seen"


@pytest.mark.parametrize("building", MIXED, ids=lambda each: each.id)
@pytest.mark.parametrize("question", ["other-toilet", "other-kitchen"])
def test_from_higher_up_the_sheet_is_whole_in_every_region(building, question):
    of = session()
    house = {"region": building.region, "building": building.id}
    said = tuple(Answer(key, "job", (word,)) for key, word in house.items())
    ask = of.ask(said, question)
    (up,) = [o.higher_up for o in ask.options if o.value == SOMEWHERE]
    now = (*said, answered(ask, up.value))
    lines = [each.line for each in ask.question.branch[building.region].higher_up]
    network = of.sheets.drain(now).network
    (junction,) = [piece for piece in network.pieces.values() if piece.branch == lines[0]]
    assert not junction.vertical
    assert network.lines.keys() >= set(lines)
    site_of_text(of.sheets.text(now), "site", tables())
