"""A trap that a push saw is the trap of the sheet, where it was read: one row, and no stop before it.

From a trial: the lens came to a trap at 10.4 m. The card after it: "7.3 m, 7.3 to 11.9 m: NOT PAST
HERE unless seen open: interceptor trap", and under it "10.4 m seen before: a trap". All before was seen open.
"""

from __future__ import annotations

import pytest

from advisor.card.build import card_of
from advisor.push.before.limit import limit_of
from advisor.push.log.kinds import END, SIGHTING, START
from advisor.push.met_before import met_before
from advisor.quantity import Units
from advisor.result.beyond import NOT_PAST
from advisor.result.build import plan_of
from advisor.result.model import Plan
from tests.cases.jobs import tables
from tests.push.test_earlier_stop import logged, numbered
from tests.terminal.test_now_shown import TEE_PLUG, Told, study_of, tee

BEGUN: Told = (START, 0.0, {"opening": TEE_PLUG, "direction": "downstream"})
OUT: Told = (END, 1.0, {"reached": False, "out": True})


def site(pipe: str) -> str:
    """The tee 2 m in, and a house trap that pipe on, where the part to be seen ends."""
    return tee().replace("- pipe: 9 m", f"- pipe: {pipe}\n      - trap: house trap\n      - pipe: 6 m")


def trap(at: float) -> Told:
    return SIGHTING, at, {"what": "trap"}


def planned(pipe: str, *told: Told) -> Plan:
    whole = study_of(site(pipe))
    return plan_of(whole, met_before(whole, numbered(BEGUN, *told, OUT)))


@pytest.mark.parametrize(("pipe", "at"), [("3 to 8 m", 8.0), ("3 m", 5.2)])
def test_the_trap_of_the_sheet_has_no_row_beside_the_one_that_was_seen(pipe, at):
    before, after = planned(pipe), planned(pipe, trap(at))
    assert [each.sight for each in before.routes[0].sights if each.sight in NOT_PAST]
    assert not [each.sight for each in after.routes[0].sights if each.sight in NOT_PAST]
    rows = card_of(after, after.routes[0], tables().card, Units.METRIC, "", False).sights
    assert [row.reading for row in rows if "trap" in row.see] == [f"{at:g} m"]
    assert after.routes[0].ended.at_m == pytest.approx(at)


def test_the_next_push_is_stopped_only_where_the_trap_was_read():
    """Of 3 to 8 m nothing was seen; then all of it up to the trap was seen open."""
    unseen = limit_of(logged(BEGUN, text=site("3 to 8 m"))).stop
    seen = limit_of(logged(BEGUN, trap(8.0), OUT, BEGUN, text=site("3 to 8 m"))).stop
    assert unseen.low < 5.5
    assert 7.0 < seen.low < 8.0
    assert seen.slow_from > unseen.slow_from


def test_a_trap_that_the_sheet_surely_has_nearer_is_another():
    """4 m nearer than the one that was seen, and the sheet leaves it no room: nobody is sent past it."""
    way = planned("3 m", trap(9.0)).routes[0]
    assert way.ended is None or way.ended.at_low_m < 5.5
    assert [each.at_low_m for each in way.sights if each.sight in NOT_PAST]
