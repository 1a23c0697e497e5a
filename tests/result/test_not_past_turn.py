"""How far not to go, told from what comes before it."""

from __future__ import annotations

import pytest

from advisor.card import worth
from advisor.card.build import card_of
from advisor.quantity import Dimension, Units, show, show_reading
from advisor.result.beyond import turn_before
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.hazards import run, site
from tests.cases.jobs import tables
from tests.result.test_not_past import TANK, TRAP, plan_text, planned

# By hand: 4 to 12 m to the bend, then 2 to 4 m to the sewer, so all in all from 6 m on.
FAR_BEND = site(
    run(
        "kind: end cleanout, opens: yes",
        "pipe: assumed 4 to 12 m",
        "bend: 1/8 bend",
        "pipe: assumed 2 to 4 m",
    ),
    "run",
)


def test_behind_a_turn_that_may_come_late_the_limit_is_told_from_the_turn(capsys):
    """A reading at which the bend may not have come yet is of no use to whoever has seen it later."""
    made = plan_text(FAR_BEND)
    route = made.routes[0]
    (bend,) = (each for each in route.sights if each.to_stop_m is not None)
    assert bend.at_high_m > route.not_past.at_low_m, "the bend may come behind the first reading of the sewer"
    assert bend.to_stop_m == pytest.approx(2), "the least of 2 to 4 m"
    rows = card_of(made, route, tables().card, Units.METRIC, "2026-11-26", False).sights
    (row,) = (each for each in rows if "NOT PAST HERE unless seen open: " in each.see)
    assert f"Past {bend.name}: at most {show(bend.to_stop_m, Dimension.LENGTH, Units.METRIC)} more" in row.see
    # Whoever is told to count from it must see it coming: its row goes after steps that the plan tells too.
    (seen,) = (each for each in rows if each.see == bend.name)
    assert not seen.hard
    assert seen.worth > worth.FIRST_STEP
    show_plan(made, Units.METRIC, Page())
    assert f"Once the {bend.name} was passed: at most" in " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize("told", [("4 to 12 m", "8 m"), ("2 to 4 m", "0.1 m")])
def test_a_turn_that_comes_before_it_for_sure_or_right_before_it_needs_no_word(told):
    route = plan_text(FAR_BEND.replace(*told)).routes[0]
    assert turn_before(route.sights, route.not_past.at_low_m) is None


# By hand: 5 to 15 m to the front chamber, 8 m on to the sewer at the least. Told from the opening it may
# begin at 13 m, where the chamber itself may not have come yet.
FAR_CHAMBER = """
site: invented
region: britain
built: 2005
map: guess
lines:
  - line: house drain
    size: 110 mm
    material: plastic
    pieces:
      - opening: side chamber
        kind: inspection chamber
      - pipe: assumed 5 to 15 m
      - opening: front chamber
        kind: inspection chamber
      - pipe: 8 to 10 m
      - end: public sewer
task:
  look at: "house drain, from side chamber to front chamber"
  complaint: {gas smell: no, holding: no, chemicals: no}
"""


def test_behind_a_chamber_that_may_come_late_it_is_told_from_the_chamber(capsys):
    made = plan_text(FAR_CHAMBER)
    route = next(each for each in made.routes if each.opening == "side chamber")
    (chamber,) = (each for each in route.sights if each.to_stop_m is not None)
    assert (chamber.name, chamber.sight) == ("front chamber", "end")
    assert chamber.to_stop_m == pytest.approx(8)
    rows = card_of(made, route, tables().card, Units.METRIC, "2026-11-26", False).sights
    (row,) = (each for each in rows if "NOT PAST HERE" in each.see)
    assert "Past front chamber: at most 8 m more" in row.see


@pytest.mark.parametrize("behind", [TRAP, TANK])
def test_the_limit_is_the_least_by_the_sheets_own_lengths(behind):
    """By hand: 5 m to the chamber at the least. What catches a head is dug out: no rare case is left out."""
    made = planned(behind)
    note = next(each for each in made.routes if each.opening == "yard chamber").not_past
    entry = 0.4  # the way from the rim of a chamber to its channel, at the most
    assert 5 <= note.at_low_m <= 5 + entry
    assert note.unless == "unless the lens shows open pipe ahead"


def test_a_limit_whose_place_is_known_is_passed_by_nobody():
    made = plan_text(FAR_BEND.replace("assumed 4 to 12 m", "4 m").replace("assumed 2 to 4 m", "3 m"))
    (route,) = made.routes
    assert route.not_past.unless == ""
    assert "unless" not in made.first_step
    card = card_of(made, route, tables().card, Units.METRIC, "2026-11-26", False)
    assert f"no further: {route.not_past.name}" in [what for _, what in card.keys]
    assert not [row for row in card.sights if "unless" in row.see]


# By hand: 4 to 16 m to the tight turn, then 2 to 4 m to the sewer, so that this may begin from 6 m on.
TURN_IN_IT = FAR_BEND.replace("4 to 12 m", "4 to 16 m").replace("1/8 bend", "1/4 bend")


TURN_BEFORE = TURN_IN_IT.replace("assumed 4 to 16 m", "4 m")


@pytest.mark.parametrize(("text", "may_be"), [(TURN_IN_IT, True), (TURN_BEFORE, False)])
def test_where_it_may_begin_no_try_at_a_hard_place_is_offered_plainly(text, may_be, capsys):
    made = plan_text(text)
    route = made.routes[0]
    (turn,) = route.passages
    only = f"No push here unless the lens shows open pipe ahead: it may be the {route.not_past.name}."
    assert turn.only_if.startswith(only) is may_be
    card = card_of(made, route, tables().card, Units.METRIC, "2026-11-26", False)
    (row,) = (each for each in card.sights if each.hard)
    assert (row.do.startswith(only), row.heed.startswith(only)) == (may_be, may_be)
    assert ("Seen open? Push gently" in row.do) is may_be
    rows = [each.see for each in card.sights]
    begin = next(n for n, see in enumerate(rows) if "NOT PAST HERE" in see)
    assert (begin < card.sights.index(row)) is may_be, "in the order in which they may be met"
    assert card.sights[begin].reading == show_reading(route.not_past.at_low_m, Units.METRIC)
    held = [block for block in card.stuck if any(only in line.text for line in block.lines[:1])]
    assert len(held) == may_be
    show_plan(made, Units.METRIC, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert (only in said.partition("1/4 bend, with the flow")[2].partition("Do:")[0]) is may_be
