"""Whoever misses the end of the way goes on: the card names what may hold or hurt first, and where."""

from __future__ import annotations

import io
from functools import cache

import pytest
from pypdf import PdfReader

from advisor.card.build import card_of
from advisor.quantity import Units
from advisor.result.build import plan_of
from tests.card.cards import DATE, printer
from tests.cases.jobs import kit_text, studied, tables

# A branch is looked for from its top; behind it the drain leaves an invented house. The lengths are ranges,
# so that the least of each adds up to another number than the likely ones.
HOUSE = """
site: an invented house on a hill
region: britain
map: guess
septic: no
lines:
  - line: drain
    kind: drain
    size: 75 mm
    material: pvc
    condition: sound
    pieces:
      - opening: cellar plug
        kind: end cleanout
      - pipe: assumed 2 to 4 m
      - joined by: sink line
        drawn: no
      - pipe: assumed 3 to 5 m
        landmark: foundation wall
      BEHIND
      - pipe: assumed 4 to 9 m
      - end: END
task:
  look at: drain, from cellar plug to sink line
  complaint: {holding: no, chemicals: no, gas smell: no}
"""
CLAY = "- change: {size: 100 mm, material: clay, condition: roots}"
SOUND = "- change: {size: 100 mm, material: clay, condition: sound}"


@cache
def made(behind, end="public sewer"):
    text = HOUSE.replace("BEHIND", behind).replace("END", end)
    return plan_of(studied(text, kit_text(), 50))


def row(behind, end="public sewer"):
    plan = made(behind, end)
    card = card_of(plan, plan.routes[0], tables().card, Units.METRIC, DATE, True)
    return next(sight for sight in card.sights if sight.see.startswith("the end")), card


@pytest.mark.parametrize(
    ("behind", "end", "told"),
    [
        # The least lengths: 2 m to the branch, 3 m to the wall, and so on.
        (
            CLAY,
            "public sewer",
            [(5, ("foundation wall", "change of size", "roots"))],
        ),
        (SOUND, "public sewer", [(5, ("foundation wall", "change of size"))]),
        (
            "- bend: 45 degree bend\n      - pipe: 1 m\n      " + CLAY,
            "septic tank",
            [(5, ("foundation wall", "45° bend")), (6, ("change of size", "roots"))],
        ),
        ("- pipe: 1 m", "public sewer", [(10, ("public sewer",))]),
        ("- pipe: 1 m", "septic tank", [(10, ("septic tank",))]),
    ],
)
def test_what_comes_first_behind_the_end_is_known_with_its_least_reading(behind, end, told):
    found = made(behind, end).routes[0].behind_end
    assert [each.names for each in found] == [names for _, names in told]
    assert [each.at_low_m for each in found] == pytest.approx([at for at, _ in told], rel=0.15)


def test_the_row_of_the_end_names_it_before_the_tank():
    sight, _ = row(CLAY, "septic tank")
    assert sight.missed.startswith("Go on, slow from 5")
    assert "(foundation wall, change of size, roots), to " in sight.missed
    assert sight.missed.endswith(" at most: septic tank.")
    assert sight.behind.startswith("Not seen? Slow, no force from 5")


def test_where_only_the_tank_comes_it_is_the_limit_alone():
    sight, card = row("- pipe: 1 m", "septic tank")
    assert (sight.missed[:9], sight.behind) == ("Go on, to", "")
    assert any("NOT PAST HERE" in each.see and "septic tank" in each.see for each in card.sights)


@pytest.mark.parametrize("end", ["public sewer", "septic tank"])
def test_half_a_sheet_has_the_roots_with_their_reading(end):
    sight, card = row(CLAY, end)
    pdf = printer().printed(printer().fitted(card, "half"), None, "half", "pdf")
    front = " ".join(PdfReader(io.BytesIO(pdf)).pages[0].extract_text().split())
    assert sight.behind.endswith("(foundation wall, change of size, roots).")
    assert sight.behind in front
