"""An opening that may well not open: what to do then is told beside it, as a plan made then would have it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor import demo
from advisor.card.build import card_of
from advisor.card.text import card_text
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import read_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.way_model import ShutNote
from advisor.site.sheet import read_site
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.jobs import rules, tables
from tests.result.test_not_past import planned

LEAST = 0.15  # limits, notable_share: a hazard is told from this share of cases on


def case(place: int) -> Case:
    kit = kit_of(read_kit(demo.KIT), tables())
    return Case(read_site(demo.ALL[place], tables()), kit, Units.INCH, 1000)


@pytest.mark.parametrize("place", range(len(demo.ALL)))
def test_a_plan_made_once_it_is_known_to_be_shut_says_the_same(place):
    study = plan(case(place), tables(), rules())
    made = plan_of(study)
    for step in made.attempts[:1]:
        (end,) = [e.share for e in made.routes[0].ends if "opening may not" in e.why] or [0.0]
        assert (step.shut is not None) == (end >= LEAST)
        if step.shut is None:
            continue
        assert step.shut.chance == pytest.approx(end)
        then = plan_of(plan(replace(case(place), shut=(step.opening,)), tables(), rules()))
        assert step.shut.onward == (then.attempts[0].opening if then.attempts else None)
        if step.shut.onward:
            # Other cases are drawn: a thousand of them give a share to within 0.05 but once in a thousand.
            assert step.shut.onward_chance == pytest.approx(then.attempts[0].chance, abs=0.05)


def test_it_is_told_on_the_screen_and_on_the_card(capsys):
    made = plan_of(plan(case(0), tables(), rules()))
    shut = made.attempts[0].shut
    assert shut is not None
    assert shut.onward
    show_plan(made, Units.INCH, Page())
    said = " ".join(capsys.readouterr().out.split())
    told = f"Do not force it. Go to the {shut.onward}"
    assert f"does not open ({100 * shut.chance:.0f} %)? {told}" in said
    card = card_text(card_of(made, made.routes[0], tables().card, Units.INCH, "2026-11-26", False))
    assert told in " ".join(card.split())


def test_where_no_other_opening_is_worth_it_one_stops():
    """A chamber that nobody has looked for, and no other way in with a chance."""
    made = planned("- pipe: 3 m")
    shut = ShutNote(chance=0.35, there=False, onward=None, onward_chance=0.0)
    plan_ = made.model_copy(update={"attempts": (made.attempts[0].model_copy(update={"shut": shut}),)})
    card = card_text(card_of(plan_, plan_.routes[0], tables().card, Units.METRIC, "2026-11-26", False))
    assert "Do not force it. Stop: no other opening" in " ".join(card.split())


@pytest.mark.parametrize(
    ("there", "told"), [(False, "Not there, or it does not open"), (True, "It does not open")]
)
def test_what_is_there_is_told_as_no_more_than_shut(there, told, capsys):
    made = planned("- pipe: 3 m")
    shut = ShutNote(chance=0.35, there=there, onward=None, onward_chance=0.0)
    plan_ = made.model_copy(update={"attempts": (made.attempts[0].model_copy(update={"shut": shut}),)})
    card = card_text(card_of(plan_, plan_.routes[0], tables().card, Units.METRIC, "2026-11-26", False))
    show_plan(plan_, Units.METRIC, Page())
    for text in (card, capsys.readouterr().out):
        assert told.lower() in " ".join(text.split()).lower()
        assert ("not there, or" in " ".join(text.split()).lower()) is not there
