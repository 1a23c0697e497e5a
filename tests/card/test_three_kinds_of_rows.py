"""Of what pushes met, what bars stays on every paper, what held a head goes after the steps before a push,
and what asks for care alone goes long before both.

From a trial: rows of standing water and of bends to be drawn at a desk stood on the page, and "See the line
drain", "Hold off all water users", a towel that no head is pushed into and the rim that had held the push
were gone; the row of a stop told neither what was felt there nor what came past it.
The order is common practice, no source: who is hurt cannot be made good, a head that is held mostly can.
"""

from __future__ import annotations

import pytest

from advisor.card import worth
from advisor.card.build import card_of
from advisor.card.content import KEPT, Card, Sight
from advisor.plan import plan
from advisor.push.log.kinds import END, FIND, SIGHTING
from advisor.push.met_before import met_before, told_of_pushes
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.model import Plan
from advisor.result.told import found_on
from advisor.tables.open_past import LITTLE
from tests.cases.jobs import rules, tables
from tests.push import test_stop_in_chance as held
from tests.push.test_earlier_stop import numbered
from tests.push.test_found_again import BEGUN
from tests.terminal.test_now_shown import Told, study_of, tee

OUT: Told = (END, 1.0, {"reached": False, "out": True})
POOL: Told = (FIND, 4.5, {"what": "standing water"})
WATER: Told = (SIGHTING, 4.8, {"what": "standing water"})
STEP: Told = (FIND, 5.2, {"what": "step at a joint"})
TOWEL: Told = (FIND, 6.0, {"what": "towel", "open": LITTLE})


def job(*told: Told) -> tuple[Plan, Card]:
    study, entries = study_of(tee()), numbered(BEGUN, *told, OUT)
    plan = plan_of(study, met_before(study, entries))
    plan = plan.model_copy(update={"stopped": told_of_pushes(study, entries)})
    return plan, card_of(plan, plan.routes[0], tables().card, Units.METRIC, "", True)


@pytest.fixture(scope="module")
def whole() -> tuple[Plan, Card]:
    return job(POOL, WATER, STEP, TOWEL)


def row(card: Card, reading: str) -> Sight:
    return next(each for each in card.sights if each.reading == reading)


def test_the_three_kinds_go_in_that_order(whole):
    _, card = whole
    assert row(card, "6 m").worth == KEPT, "not into it, though no plug or wad"
    assert "not into it" in row(card, "6 m").do
    may_hold = row(card, "5.2 m").worth
    before = next(line for b in card.blocks for line in b.lines if line.text.startswith("See the line drain"))
    mild = {row(card, at).worth for at in ("4.5 m", "4.8 m")}
    assert max(mild) < may_hold < before.worth < KEPT
    assert max(mild) < worth.HARD_ROW


def test_the_same_on_half_a_sheet(whole):
    _, card = whole
    half = card.short()
    assert row(half, "6 m").worth == KEPT
    assert row(half, "4.5 m").worth < worth.HARD_ROW < row(half, "5.2 m").worth


@pytest.fixture(scope="module")
def stopped() -> Plan:
    """After a push that a wall held, until a quick push came past it."""
    wall: Told = ("stopped", held.AT, {"sign": "wall ahead, springs back"})
    told = (held.begun(held.SLIM), wall, held.tried("quick push", "passed"), held.ON, held.END)
    study = plan(held.shown(*told).known_to(held.case()), tables(), rules())
    made = plan_of(study, met_before(study, held.entries(*told)))
    return made.model_copy(update={"stopped": told_of_pushes(study, held.entries(*told))})


def test_the_row_of_a_stop_tells_what_was_felt_and_what_came_past_it(stopped):
    way = next(each for each in stopped.routes if each.loadout.name == held.SLIM)
    card = card_of(stopped, way, tables().card, Units.METRIC, "", True)
    told = row(card, "3.7 m")
    assert told.see == "stopped before: a wall across the picture; the rod springs back at the hand"
    for words in ("look before it", "came past it afterwards", "quick push", "never if it drags", "likely ("):
        assert words in told.do
    assert sum(each.see.startswith("stopped before") for each in card.sights) == 1
    assert not any("held at 3.7 m" in each for each in card.minds), "the row tells it whole"


def test_what_held_a_push_on_another_way_is_named_where_it_finds_no_room(stopped):
    note = next(each for each in stopped.found if each.counted)
    other = note.model_copy(
        update={"opening": "back plug", "left": "In from back plug a push was held.", "counted": False}
    )
    made = stopped.model_copy(update={"found": (other,)})
    card = card_of(made, made.routes[0], tables().card, Units.METRIC, "", True)
    (line,) = (each for block in card.blocks for each in block.lines if each.text == other.left)
    assert line.worth == worth.FOUND_ROW
    assert "an earlier stop, in from back plug" in card.without(card.parts()).untold


def test_a_stop_of_which_no_chance_knows_is_told_all_the_same(stopped):
    way = stopped.routes[0].model_copy(update={"stops": ()})
    card = card_of(stopped, way, tables().card, Units.METRIC, "", True)
    assert any("held at 3.7 m" in line.text for block in card.blocks for line in block.lines)
    assert not any(each.counted for each in found_on(stopped, way))
