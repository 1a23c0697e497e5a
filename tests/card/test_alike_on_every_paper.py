"""From a trial: at the end by the count letter said "Stop there. Nothing marks it.", half a sheet "Slow, no
force from here"; chance and what is left stood on one paper and were gone from another, unnamed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.card.build import card_of
from advisor.card.content import Card
from advisor.quantity import Units
from tests.card.cards import DATE, printer
from tests.card.test_end_by_the_count import made
from tests.cases.jobs import tables


def count_card() -> Card:
    plan = made("4 m below sink line")
    return card_of(plan, plan.routes[0], tables().card, Units.METRIC, DATE, True)


def test_at_the_end_by_the_count_half_a_sheet_stops_as_letter_does():
    (end,) = (row for row in count_card().short().sights if row.see.startswith("the end"))
    assert end.missed == "Stop there. Nothing marks it."
    assert end.behind == f"Not seen? {end.missed}"


def test_chance_and_what_is_left_are_named_where_they_find_no_room():
    whole = replace(count_card(), first="Seen.", first_left="Left: the rest.", gets_there=", even (54 %)")
    gone = whole.without(whole.parts())
    assert {"chance", "what is left"} <= set(gone.unsaid)
    assert not gone.gets_there
    assert not gone.first_left
    kept = whole.without(())
    assert not kept.unsaid


@pytest.mark.parametrize("paper", ["letter", "a4", "half"])
def test_each_paper_has_it_or_names_it(paper):
    whole = replace(count_card(), first="Seen.", first_left="Left: the rest.")
    fitted = printer().fitted(whole, paper)
    assert bool(fitted.gets_there) != ("chance" in fitted.unsaid)
    assert bool(fitted.first_left) != ("what is left" in fitted.unsaid)
