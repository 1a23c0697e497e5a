"""Without an opening that is not there the stretches are others: what was told of a shut one may not hold.

In the trade nobody leaves because the first cleanout was not found (common practice, no source).
"""

from __future__ import annotations

import pytest

from advisor.card.build import card_of
from advisor.card.text import card_text
from advisor.quantity import Units
from advisor.result.attempts import shut_words
from advisor.result.model import Plan
from advisor.result.way_model import ShutNote
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.jobs import tables
from tests.result.test_not_past import planned

AGAIN = "Not there? Say so on the sheet and plan again"
STOP = "Do not force it. Stop: no other opening is worth the minutes."


def with_shut(onward: str | None, there: bool) -> Plan:
    made = planned("- pipe: 3 m")
    shut = ShutNote(chance=0.35, there=there, onward=onward, onward_chance=0.2)
    return made.model_copy(update={"attempts": (made.attempts[0].model_copy(update={"shut": shut}),)})


@pytest.mark.parametrize(
    ("onward", "there", "again"),
    [(None, False, True), (None, True, False), ("cellar drain", False, False)],
)
def test_who_does_not_find_it_plans_again_before_leaving(onward, there, again):
    plan = with_shut(onward, there)
    told = shut_words(plan, plan.attempts[0].shut)
    assert (AGAIN in told) is again
    assert (STOP in told) is (onward is None)
    if again:  # who has not found it has read the word before he reads that he may stop
        assert told.index(AGAIN) < told.index(STOP)


def test_it_stands_on_the_screen_and_on_the_card(capsys):
    plan = with_shut(None, False)
    show_plan(plan, Units.METRIC, Page())
    card = card_text(card_of(plan, plan.routes[0], tables().card, Units.METRIC, "2026-11-27", False))
    for text in (card, capsys.readouterr().out):
        assert AGAIN in " ".join(text.split())
