"""Joined water stands level and runs out at the lowest open edge (as in test_too_high): what lies far above
such an edge cannot stand full from pipe below it, whether or not anybody has looked at that edge."""

from __future__ import annotations

import pytest

from advisor.archetype import read_archetype, typical
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.site.suspects import suspects
from advisor.tables.place import rules_dir
from tests.cases.hazards import FULL_UPSTAIRS, SMALL
from tests.cases.jobs import planned, tables

TOLD = "holding: yes, backs up: [gully, top toilet]"
LONE = FULL_UPSTAIRS.replace(TOLD, "backs up: [top toilet]")
BELOW = ("yard drain, from stack to public sewer",)


def found(text: str):
    sheet = site_of_text(text, "site", tables())
    return suspects(network_of(sheet, tables()), sheet.model.task.complaint, tables())


def share(text: str, *sections: str) -> float:
    return sum(each.share for each in found(text) if each.words in sections)


@pytest.mark.parametrize("told", ["", ", fine: [gully]"])
def test_a_toilet_upstairs_that_alone_backs_up_points_above_the_gully(told):
    """By hand: 3 m of drop, and the gully at most some 1.5 m over its drain. The stack holds 6.5 m with its
    bend, the drain below 9 m, 12 times less likely there (0.6 to 0.05): 6.5 x 12 to 9, and 3 m beside."""
    first, second, *_ = found(LONE.replace("[top toilet]", f"[top toilet]{told}"))
    assert first.line == "stack"
    assert first.share > 5 * second.share
    assert "runs out at gully first" in first.because[0]
    assert not [why for each in found(LONE) if each.words in BELOW for why in each.because]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("drop: 3 m", "drop: 1 m"),  # hardly higher than the grid may be
        ("drop: 3 m", "drop: 1 to 4 m"),  # nobody knows how high
        ("kind: gully", "kind: yard cleanout"),  # shut by a cap, it spills nothing
        ("kind: gully", "kind: gully, opens: no"),
        ("kind: gully}\n", "kind: gully}\n      - valve: backwater valve\n"),  # its flap
    ],
)
def test_where_nothing_lower_is_surely_open_the_line_below_leads(old, new):
    first, *_ = found(LONE.replace(old, new))
    assert first.words in BELOW
    assert first.because == ("top toilet backs up",)


def test_a_chamber_that_may_not_be_there_relieves_with_its_chance():
    def odds(there: str) -> float:
        return share(
            LONE.replace("kind: gully", f"kind: inspection chamber, depth: 500 mm, there: {there}"), *BELOW
        )

    assert odds("yes") < odds("60 %") < odds("no")


def test_slow_points_there_too_though_less_surely():
    """A gurgle comes from further off than water stands. By hand: 9 m at 0.20 below, 6.5 m at 0.50 above."""
    slow = LONE.replace("backs up", "slow")
    first = found(slow)[0]
    assert first.line == "stack"
    assert share(slow, *BELOW) / first.share == pytest.approx(9 * 0.20 / (6.5 * 0.50), rel=0.01)


@pytest.mark.parametrize(
    ("building", "alone", "lines"),
    [
        ("terraced-house", "toilet", {"soil stack", "toilet branch"}),
        ("two-storey-stack", "bath", {"main stack", "bath branch", "upper toilet branch"}),
        ("newer-detached", "upstairs toilet", {"main stack", "upstairs toilet branch"}),
        ("flat-above-shop", "flat's toilet", {"soil stack", "flat toilet branch"}),
        ("apartment-riser", "upper flat's toilet", {"riser", "upper toilet branch"}),
    ],
)
def test_in_a_typical_house_whatever_is_upstairs_points_to_its_own_stack(building, alone, lines):
    """Where a gully, a toilet below or the shop's would run over first: nobody sends a rod to the sewer."""
    made = read_archetype(rules_dir() / "archetypes" / f"{building}.yaml", tables())
    look = "  look at: suspect section"
    text = typical(made, None).replace(look, f'{look}\n  complaint: {{backs up: ["{alone}"]}}')
    assert {each.line for each in found(text)[:2]} <= lines


GULLY = FULL_UPSTAIRS.replace(TOLD, "slow: [top toilet], fine: [gully], tested with volume: [gully]")


def test_a_gully_that_swallows_a_bucketful_clears_the_drain_below_it():
    """By the trade: "fine" counts for what is low and tested with volume. Nothing lies lower than a gully."""
    assert share(GULLY, *BELOW) < share(GULLY.replace(", tested with volume: [gully]", ""), *BELOW) / 3


def test_a_bath_upstairs_that_runs_away_clears_nothing_below_the_gully():
    """An upper fixture running fine clears nothing (as above): the drain may be full to the gully's grid."""
    text = FULL_UPSTAIRS.replace("      - pipe: 500 mm\n", "      - pipe: 500 mm\n      - fixture: bath\n")
    text = text.replace(TOLD, "slow: [gully], fine: [bath], tested with volume: [bath]")
    untold = text.replace(", fine: [bath], tested with volume: [bath]", "")
    # Where the bath is told to run, only its own pipe is cleared, so what is left gains.
    assert share(text, *BELOW) >= share(untold, *BELOW)


def test_whoever_looks_whether_it_holds_looks_there_too():
    """By the trade "full here, dry there" is looked for at each opening: the lowest alone shows nothing of a
    stack that is full above it, and a door at its foot would be opened under all of that."""
    made = planned(LONE, SMALL, 50)
    assert "look into top toilet and the lowest fixture, loosen no plug" in made.first_step
    note = next(each for each in made.cautions if each.id == "full-from-upstairs")
    assert note.word == "warning"
    before = made.routes[0].before
    upper = next(i for i, step in enumerate(before) if step.startswith("Look into top toilet first"))
    assert before[upper + 1].startswith("Loosen no plug yet. Look into the lowest fixture")
    low = planned(LONE.replace("drop: 3 m", "drop: 1 m"), SMALL, 50)
    assert "look into the lowest fixture, loosen no plug" in low.first_step
    assert not [each for each in low.cautions if each.id == "full-from-upstairs"]
