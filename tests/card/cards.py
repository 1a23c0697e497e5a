"""Plans to make cards of: the demo sites and plausible houses."""

from __future__ import annotations

from functools import cache

from advisor import demo
from advisor.card.build import card_of
from advisor.card.content import Card
from advisor.card.render import Printer
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import read_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.model import Plan
from advisor.site.sheet import read_site, site_of_text, usual_units
from tests.cases.jobs import rules, tables

DATE = "2026-11-25"
DEMOS = [path.stem for path in demo.ALL]


@cache
def printer() -> Printer:
    return Printer()


@cache
def made(text_or_stem: str) -> tuple[Plan, Units]:
    path = next((each for each in demo.ALL if each.stem == text_or_stem), None)
    sheet = read_site(path, tables()) if path else site_of_text(text_or_stem, "site", tables())
    units = usual_units(sheet.model)
    kit = kit_of(read_kit(demo.KIT), tables())
    return plan_of(plan(Case(sheet, kit, units, 200), tables(), rules())), units


def card(text_or_stem: str, log: bool = True, route: int = 0) -> Card:
    plan_, units = made(text_or_stem)
    return card_of(plan_, plan_.routes[route], tables().card, units, DATE, log)
