"""Held while it is drawn out: the nose trails, so that what holds it is not what holds it on the way in.

Common practice, no source: a shoulder behind the nose hangs behind a rim, the rod is drawn into a bend.
"""

from __future__ import annotations

import pytest

from advisor.push.held_now import held_now
from advisor.push.kinds import BACK, SIGHTING, STOPPED
from advisor.push.now import Now
from advisor.push.stuck import Stuck
from advisor.tables.where import number
from tests.cases.jobs import tables
from tests.terminal.test_now_shown import TEE_PLUG, pushed, tee

READ = (SIGHTING, 8.0, {"what": "nothing"})
ONLY_IN = set(tables().stuck.causes) - set(tables().stuck.causes_out)


def held(*told) -> Stuck:
    found = held_now(now(*told))
    assert found is not None
    return found


def now(*told) -> Now:
    return pushed(tee(), TEE_PLUG, *told)


def stopped(at: float, **signs: str):
    return STOPPED, at, signs


@pytest.mark.parametrize("back", [(), ((BACK, 6.0, {}),), ((BACK, 4.0, {}), stopped(4.0))])
@pytest.mark.parametrize("signs", [{}, {"feel": "will not come back"}, {"feel": "dead"}])
def test_what_holds_it_on_the_way_out_is_told(back, signs):
    found = held(READ, *back, stopped(4.0, **signs))
    assert found.told.name == "hangs behind a rim"
    assert not {cause.name for cause in found.causes} & ONLY_IN
    assert found.tries == ()
    assert "Free it first" in (found.stop or "")


@pytest.mark.parametrize("before", [(), (READ, (BACK, 2.0, {}))])
def test_pushed_in_it_is_held_by_what_holds_it_on_the_way_in(before):
    found = held(*before, stopped(4.0, sign="rim ahead", feel="dead"))
    assert found.told.name == "rim"
    assert found.tries


def test_that_it_does_not_come_back_is_no_sign_there_of_any_cause():
    without, told = (held(READ, stopped(4.0, **s)) for s in ({}, {"feel": "will not come back"}))
    assert {c.name: c.chance for c in told.causes} == pytest.approx(
        {c.name: c.chance for c in without.causes}
    )


def test_roots_that_are_seen_hold_it_on_the_way_out_too():
    found = held(READ, stopped(4.0, sign="blocked, roots", feel="soft"))
    assert found.told.name == "roots"
    assert any("no turning" in step for step in found.out.steps)


def test_at_which_place_it_is_told_by_where_it_stands_alone():
    """No hard place of the plan says what holds a head there that is drawn out."""
    at_tee = now(READ, stopped(2.0, feel="dead"))
    told, here = ({met.name: share for met, share in each} for each in (at_tee.spots_told, at_tee.spots_here))
    assert told == pytest.approx(here)


def test_each_share_of_the_table_is_one_and_each_trouble_known():
    """What is usual on the way out adds up to all of it."""
    rows = tables().stuck.causes_out.values()
    assert sum(number(row.usual) for row in rows) == pytest.approx(1)
