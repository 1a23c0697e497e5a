"""Water told full upstairs and far below: joined water stands level, runs out at the lowest edge first."""

from __future__ import annotations

import pytest

from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.site.suspects import backing_up, is_holding, suspects
from advisor.site.too_high import TooHigh, too_high
from tests.cases.hazards import FULL_UPSTAIRS
from tests.cases.jobs import tables

BOTH = "backs up: [gully, top toilet]"


def made(text: str):
    sheet = site_of_text(text, "site", tables())
    network, complaint = network_of(sheet, tables()), sheet.model.task.complaint
    return network, complaint, too_high(network, backing_up(network, complaint), tables())


def test_the_upper_one_is_told_and_counts_for_nothing_on_the_line_below():
    """By hand: the pan lies a drop of 3 m over the yard drain, the gully at most some 1.5 m."""
    network, complaint, found = made(FULL_UPSTAIRS)
    assert found == (TooHigh("top toilet", "gully"),)
    alone = made(FULL_UPSTAIRS.replace(BOTH, "backs up: [gully]"))[1]
    assert suspects(network, complaint, tables()) == suspects(network, alone, tables())
    assert is_holding(network, complaint) is True, "the line is full all the same"


def test_water_seen_to_stand_there_counts_for_nothing_either():
    alone = FULL_UPSTAIRS.replace(BOTH, "backs up: [gully]")
    seen = alone.replace("P-outlet toilet}", "P-outlet toilet, water: standing}")
    network, complaint, found = made(seen)
    assert found == (TooHigh("top toilet", "gully"),)
    assert not [
        why for each in suspects(network, complaint, tables()) for why in each.because if "top" in why
    ]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (BOTH, "backs up: [top toilet]"),  # nothing below is told full
        ("drop: 3 m", "drop: 1 m"),  # hardly higher than a gully's grid may be
        ("drop: 3 m", "drop: 1 to 4 m"),  # nobody knows how high
        ("kind: gully", "kind: yard cleanout"),  # shut by a cap, it spills nothing
        ("kind: gully", "kind: inspection chamber"),  # nobody knows how deep
        (
            "      - pipe: 3 m\n",
            "      - pipe: 3 m\n      - valve: backwater valve\n",
        ),  # its flap
    ],
)
def test_where_it_may_be_the_same_water_nothing_is_said(old, new):
    network, complaint, found = made(FULL_UPSTAIRS.replace(old, new))
    assert found == ()
    assert any("top toilet" in why for each in suspects(network, complaint, tables()) for why in each.because)


@pytest.mark.parametrize(("depth", "told"), [("600 mm", True), ("2 m", False)])
def test_a_chamber_runs_over_at_its_rim(depth, told):
    chamber = FULL_UPSTAIRS.replace("kind: gully", f"kind: inspection chamber, depth: {depth}")
    assert bool(made(chamber)[2]) is told
