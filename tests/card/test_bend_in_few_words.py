"""From a trial: "Draw it, 39.3 ft along the pipe, and plan anew" stood on a pocket card, and took the room of
the rim that had held the push. What is done at a desk stands on the plan."""

from __future__ import annotations

import pytest

from advisor.card import worth
from advisor.card.build import card_of
from advisor.card.text import card_text
from advisor.quantity import Units
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.jobs import tables
from tests.push.test_bend_on_no_sheet import BEGUN, FIRST, OUT, SITE, planned


@pytest.fixture(scope="module")
def plan():
    return planned(SITE, BEGUN, FIRST, OUT)


@pytest.mark.parametrize("opening", ["front chamber", "side chamber"])
def test_a_card_has_no_desk_work(plan, opening):
    way = next(each for each in plan.routes if each.opening == opening)
    card = card_of(plan, way, tables().card, Units.METRIC, "", False)
    (row,) = (each for each in card.sights if "a bend, not on the sheet" in each.see)
    assert row.worth == worth.FOUND_MILD
    assert "turns head and rod" in row.do
    assert "plan anew" not in " ".join(card_text(card).split())


def test_the_plan_has_it(plan, capsys):
    show_plan(plan, Units.METRIC, Page())
    way = " ".join(capsys.readouterr().out.partition("THE WAY IN FROM")[2].split())
    assert "It turns head and rod as one that is drawn. Draw it, 4 m along the pipe from front chamber" in way
