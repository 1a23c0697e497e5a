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


# A cellar of an invented house: the tub's edge is 0.8 m over the floor that the grid lies in.
CELLAR = """
site: tub and grid
region: north america
lines:
  - line: house drain
    kind: drain
    size: 4 in
    pieces:
      - opening: stack foot cleanout
        kind: stack-base cleanout
        cellar: yes
      - pipe: 6 ft
      - joined by: laundry line
      - pipe: 6 ft
      - joined by: floor drain line
      - pipe: 40 ft
      - end: public sewer
  - line: laundry line
    size: 2 in
    pieces:
      - fixture: laundry tub
      - drop: 2 to 3 ft
      - pipe: 10 ft
  - line: floor drain line
    kind: drain
    size: 3 in
    pieces:
      - fixture: floor drain
      - pipe: 5 ft
task:
  look at: suspect section
  complaint: {holding: no, backs up: [laundry tub]}
"""
TUB_ONLY = "backs up: [laundry tub]"


def leading(text: str) -> str:
    network, complaint, found = made(text)
    assert found == (), "of a tub so little above nothing is said to be wrong"
    return suspects(network, complaint, tables())[0].line


def test_a_tub_that_backs_up_beside_a_quiet_grid_in_its_floor_has_a_line_of_its_own_to_blame():
    """By hand: held below the grid water comes out at the floor, 0.8 m before the tub's edge; the house drain
    was blamed, which has the most pipe."""
    assert leading(CELLAR) == "laundry line"
    why = suspects(*made(CELLAR)[:2], tables())[0].because
    assert any("runs out at floor drain first" in each for each in why)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (TUB_ONLY, "backs up: [laundry tub, floor drain]"),
        (TUB_ONLY, f"{TUB_ONLY}, slow: [floor drain]"),
        (TUB_ONLY, f"{TUB_ONLY}, wet cellar: comes up"),
        ("- pipe: 5 ft", "- drop: 5 ft"),  # it lies in a higher floor
        ("- pipe: 5 ft", "- valve: backwater valve\n      - pipe: 5 ft"),  # its flap
    ],
)
def test_where_the_grid_is_not_quiet_or_not_lower_the_drain_that_both_share_leads(old, new):
    assert old in CELLAR
    assert leading(CELLAR.replace(old, new)) == "house drain"
