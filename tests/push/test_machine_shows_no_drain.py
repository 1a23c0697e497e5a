"""That a machine came past what holds water does not show that the line drains.

From a trial: a wad was told, then that a cutter went past it, and plan, card and push no longer had the line
seen to drain: nobody had run water. Common practice, no source: what is cut may hold further down; only water
that was run and ran away after it shows otherwise.
"""

from __future__ import annotations

import pytest

from advisor.card.build import card_of
from advisor.card.text import card_text
from advisor.push.log.kinds import START
from advisor.push.now.known_drains import Known
from advisor.push.onward import onward
from advisor.quantity import Units
from advisor.terminal.push.plan_anew import show_plan_anew
from tests.card.cards import DATE
from tests.cases.jobs import tables
from tests.push.machines import cutter
from tests.push.test_cleaned_first import CLEANED, WAD, planned
from tests.push.test_drains import FLOOR_PLUG, ran
from tests.push.test_found_again import BEGUN
from tests.push.test_water_held_before import DOWN, LOOKED_AT, OUT, SEEN, UP, YARD, after, read
from tests.terminal.test_now_shown import Told, shown

__all__ = ["shown"]  # fixture
CUT = cutter(11.0, FLOOR_PLUG, "downstream")
FIRST_DRAIN = "First see the line drain"
STILL: Told = (START, 0.0, {**YARD[2], "drains": True})  # seen to stand low as it began, nobody running any


@pytest.mark.parametrize(
    ("since", "settled"),
    [
        ((CUT, OUT, YARD), False),
        ((CUT, OUT, STILL), False),
        ((CUT, OUT, YARD, read(1.0), LOOKED_AT), True),
        ((CUT, LOOKED_AT, OUT, YARD), True),
        ((LOOKED_AT, CUT, OUT, YARD), False),
        ((CUT, ran("bath", True), OUT, YARD), True),
        ((OUT, STILL), False),
    ],
)
def test_only_water_that_ran_away_after_it_does(since, settled):
    now = after(DOWN, read(8.0), SEEN, *since)
    assert (now.not_to_run == frozenset()) is settled
    assert settled or now.line.known < Known.RAN


def test_water_of_a_fixture_below_it_does_not():
    """The laundry joins above the place, the bath below it."""
    there: Told = (SEEN[0], 2.5, SEEN[2])
    past = cutter(4.0, FLOOR_PLUG, "upstream")
    told = (UP, read(2.5), there, past)
    assert after(*told, ran("bath", True, 1.0), OUT, DOWN).not_to_run == {"laundry tub"}
    assert not after(*told, ran("laundry tub", True, 1.0), OUT, DOWN).not_to_run


@pytest.mark.parametrize(
    ("more", "first"),
    [
        ((), False),  # there it is first cleaned out, and the line seen to drain with that
        ((CLEANED,), True),
        ((CLEANED, BEGUN, ran("kitchen sink", True, 1.0)), False),
        ((BEGUN, ran("kitchen sink", True, 1.0), CLEANED), True),
    ],
)
def test_plan_and_card_have_it_seen_first(more, first):
    plan = planned(WAD, *more)
    card = " ".join(
        card_text(card_of(plan, plan.routes[0], tables().card, Units.METRIC, DATE, log=True)).split()
    )
    assert ("see the line drain: no water was seen to run away since" in plan.first_step) is first
    assert ("shows no drain: wad of wipes" in card) is first
    assert ("cleaned out" in plan.first_step) is (not more)


def test_so_does_the_plan_made_anew_in_a_push(shown):
    def said(*since: Told) -> str:
        now = after(DOWN, read(8.0), SEEN, *since)
        return " ".join(shown(show_plan_anew, now, now.push.study, onward(now.push.study, now)).split())

    assert f"{FIRST_DRAIN}: key w." in said(CUT, OUT, DOWN, read(1.0))
    assert f"{FIRST_DRAIN}: key w." not in said(CUT, OUT, DOWN, read(1.0), LOOKED_AT)
