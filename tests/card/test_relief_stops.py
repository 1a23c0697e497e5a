"""Whoever clears a line comes to what held a head there: the card of a line that is full tells it too."""

from __future__ import annotations

from advisor.card.relief import relief_card
from advisor.result.build import plan_of
from tests.cases.jobs import tables
from tests.push.test_way_gone import study_of

HELD = "In from floor plug, upstream, a push was held at 5 m (roots) and came past."


def test_what_held_a_push_stands_on_it():
    plan = plan_of(study_of()).model_copy(update={"stopped": (HELD,)})
    assert HELD in relief_card(plan, tables().card, "2026-03-04").minds
