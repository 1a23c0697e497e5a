"""Over an open channel the head is laid by hand into the pipe that is wanted: common practice, no source.

Only into what joins in that chamber: drawn right beside it, and not told to be a branch of a closed pipe.
"""

from __future__ import annotations

import pytest

from advisor.outcome.facts import route_facts
from advisor.outcome.memory import Memory
from advisor.result.sights import sight_notes
from advisor.routes.enumerate import routes_to
from advisor.routes.passage import Passage
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.site.target import target_of
from tests.cases.jobs import kit_text, studied, tables

CHAMBER = "opening: chamber, kind: inspection chamber, depth: 600 mm, there: yes"
SIDE = "joined by: side, fitting: chamber branch"
STACK = "joined by: stack, fitting: chamber branch"
PIPE = "pipe: 500 mm"
IN_IT = (CHAMBER, SIDE)


def sheet(*pieces: str, fitting: str = "chamber branch") -> str:
    rows = "".join(f"      - {{{piece}}}\n" for piece in pieces).replace("chamber branch}", fitting + "}", 1)
    ends = "    size: 100 mm\n    pieces:\n      - {opening: %s, kind: rodding eye}\n      - pipe: 4 m\n"
    stack = "  - line: stack\n" + ends % "eye" if STACK in pieces else ""
    return (
        "site: a\nregion: britain\nbuilt: 1934\nlines:\n  - line: drain\n    size: 100 mm\n    pieces:\n"
        f"      - {{opening: top, kind: rodding eye}}\n      - pipe: 3 m\n{rows}"
        "      - pipe: 3 m\n      - {opening: low, kind: inspection chamber}\n      - pipe: 2 m\n"
        f"      - end: public sewer\n  - line: side\n{ends % 'toilet'}{stack}"
        "task: {look at: side, complaint: {holding: no}}\n"
    )


def into_side(text: str) -> dict[str, Passage]:
    """How the head comes into the side line, by the opening that it went in at."""
    made = site_of_text(text, "s", tables())
    network, target = target_of(made, network_of(made, tables()))
    assert target is not None
    routes, _ = routes_to(network, target, tables())
    return {r.opening.name: p for r in routes for p in r.passages if p.leaves == "branch"}


@pytest.mark.parametrize(
    ("pieces", "fitting", "laid"),
    [
        (IN_IT, "chamber branch", True),
        ((SIDE, CHAMBER), "chamber branch", True),  # it may be drawn above the opening as well
        ((CHAMBER, SIDE, STACK), "chamber branch", True),
        ((CHAMBER, STACK, SIDE), "chamber branch", True),  # past another mouth in the same channel
        (IN_IT, "unknown", False),  # it may be a branch of a closed pipe: nobody is promised a mouth
        ((CHAMBER.replace("600 mm", "610 mm"), SIDE), "chamber branch", False),  # deeper than an arm reaches
        (IN_IT, "45 degree branch", False),  # told to be one of a closed pipe
        ((CHAMBER, PIPE, SIDE), "chamber branch", False),
    ],
)
def test_only_what_joins_in_the_chamber_itself_is_laid_into(pieces, fitting, laid):
    found = into_side(sheet(*pieces, fitting=fitting))
    assert found["chamber"].by_hand is laid
    assert not found["top"].by_hand, "who pushes from elsewhere has no hand there"
    assert not found["low"].by_hand


def test_it_is_another_passage_than_that_of_a_head_which_comes_down_the_main():
    found = into_side(sheet(*IN_IT))
    one, other = found["chamber"], found["top"]
    assert (one.piece, one.enters, one.leaves) == (other.piece, other.enters, other.leaves)
    assert one.id != other.id
    assert Memory().passage_key(one) != Memory().passage_key(other)


def test_the_head_turns_nowhere_and_nothing_has_to_steer_it():
    study = studied(sheet(*IN_IT), kit_text(), 60)
    ways = {o.route.opening.name: o for o in study.outcomes}
    by_hand, main = ways["chamber"], ways["top"]
    assert not [shape for shape in by_hand.geometries if shape.turn.way != "none"]
    assert not by_hand.spots
    assert main.spots
    assert by_hand.route.direction == "against", "the side line falls to the chamber"
    facts = {
        name: route_facts(o.route, o.march, study.drawn, o.loadout)["route.laid_into"]
        for name, o in ways.items()
    }
    assert facts["chamber"] == "side"
    assert facts["top"] is None
    assert next((note.sight, note.name) for note in sight_notes(by_hand, study)) == ("own mouth", "side")
