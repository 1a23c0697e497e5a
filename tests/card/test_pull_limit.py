"""The card says what its pull limit rests on: the least of spring, coupling, hand; how weakly it is known."""

from __future__ import annotations

import io

import pytest
from pypdf import PdfReader

from advisor.card.build import card_of
from advisor.card.text import card_text
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.site.sheet import site_of_text
from tests.card.cards import DATE, printer
from tests.cases.hazards import JOBS
from tests.cases.jobs import kit_text, rules, tables


@pytest.mark.parametrize(
    ("pull_limit", "shown", "rests"),
    [
        ("90 N", "90 N", "(by the spring)"),  # on the kit sheet: the owner of the reel says so
        ("900 N", "150 N", "(by the coupling, our judgement)"),  # 150 N by rules/tables/limits.yaml
    ],
)
def test_what_the_pull_limit_rests_on(pull_limit, shown, rests):
    text = kit_text(f"feel: soft, pull limit: {pull_limit}")
    kit = kit_of(kit_of_text(text, "kit"), tables())
    sheet = site_of_text(JOBS["plain britain"][0], "site", tables())
    made = plan_of(plan(Case(sheet, kit, Units.METRIC, 100), tables(), rules()))
    card = card_of(made, made.routes[0], tables().card, Units.METRIC, DATE, True)
    assert f"{shown}  never pull more\n    {rests}\n" in card_text(card)
    page = PdfReader(io.BytesIO(printer().printed(printer().fitted(card, "a4"), None, "a4", "pdf"))).pages[0]
    assert rests in " ".join(page.extract_text().split())
    assert printer().fitted(card, "half").pull_rests_on == "", "there is no room for it"
