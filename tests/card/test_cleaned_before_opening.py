"""What a push saw that is cleaned before a camera goes in again stands where the steps of the card begin.

From a trial: the plan had a wad cleaned out first, and the card, which is what goes along to the
opening, began with "Open toilet". Common practice, no source: who has seen what holds the water has it
cleaned, sees the line drain, and looks again.
"""

from __future__ import annotations

import io

import pytest
from pypdf import PdfReader

from advisor.card.build import card_of
from advisor.card.content import Card
from advisor.card.text import card_text
from advisor.quantity import Units
from tests.card.cards import DATE, printer
from tests.cases.jobs import tables
from tests.push.test_cleaned_first import CLEANED, WAD, planned
from tests.terminal.test_now_shown import TEE_PLUG, Told

FEW = "wad of wipes and a toothbrush ..."
FIRST = f"First have cleaned out: {FEW}, 4.75 m in from {TEE_PLUG}. See the line drain."


def made(what: str, *more: Told) -> Card:
    plan = planned(what, *more)
    return card_of(plan, plan.routes[0], tables().card, Units.METRIC, DATE, log=True)


@pytest.fixture(scope="module")
def card() -> Card:
    return made(WAD)


def test_it_stands_before_the_opening(card):
    said = " ".join(card_text(card).split())
    assert f"{FIRST} Open " in said


def test_on_the_smallest_page_too(card):
    fitted = printer().fitted(card, "half")
    assert fitted.left_out > 0, "else nothing was to be lost"
    (page,) = PdfReader(io.BytesIO(printer().printed(fitted, None, "half", "pdf"))).pages
    said = " ".join(page.extract_text().split())
    assert f"{FIRST} Open " in said


def test_it_stays_when_all_else_that_may_go_has_gone(card):
    short = card.short()
    assert short.without(short.parts()).first == FIRST


@pytest.mark.parametrize("told", [(WAD, CLEANED), ("a few wipes",)])
def test_nothing_is_cleaned_first_where_it_was_or_little_hangs_there(told):
    assert "cleaned out" not in card_text(made(*told))
