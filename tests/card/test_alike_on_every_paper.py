"""From a trial: at the end by the count letter said "Stop there. Nothing marks it.", half a sheet "Slow, no
force from here"; chance and what is left stood on one paper and were gone from another, unnamed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.card.build import card_of
from advisor.card.content import Card
from advisor.quantity import Units
from tests.card.cards import DATE, DEMOS, card, printer
from tests.card.test_end_by_the_count import made
from tests.cases.jobs import tables


def count_card() -> Card:
    plan = made("4 m below sink line")
    return card_of(plan, plan.routes[0], tables().card, Units.METRIC, DATE, True)


def test_at_the_end_by_the_count_half_a_sheet_stops_as_letter_does():
    (end,) = (row for row in count_card().short().sights if row.see.startswith("the end"))
    assert end.missed == "Stop there. Nothing marks it."
    assert end.behind == f"Not seen? {end.missed}"


@pytest.mark.parametrize("stem", DEMOS)
def test_an_end_that_nobody_goes_past_says_so_on_half_a_sheet(stem):
    for row in card(stem).sights:
        if row.see.startswith("the end") and not row.missed.startswith("Go on"):
            assert row.behind == f"Not seen? {row.missed}"


def test_chance_and_what_is_left_are_named_where_they_find_no_room():
    whole = replace(count_card(), first="Seen.", first_left="Left: the rest.", gets_there=", even (54 %)")
    gone = whole.without(whole.parts())
    assert {"the chance", "what is left to see"} <= set(gone.untold)
    assert not gone.gets_there
    assert not gone.first_left
    kept = whole.without(())
    assert not kept.untold


@pytest.mark.parametrize("paper", ["letter", "a4", "half"])
def test_each_paper_has_it_or_names_it(paper):
    whole = replace(count_card(), first="Seen.", first_left="Left: the rest.")
    fitted = printer().fitted(whole, paper)
    assert bool(fitted.gets_there) != ("the chance" in fitted.untold)
    assert bool(fitted.first_left) != ("what is left to see" in fitted.untold)
