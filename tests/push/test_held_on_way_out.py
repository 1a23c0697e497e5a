"""Held while it is drawn out: the nose trails, so that what holds it is not what holds it on the way in.

Common practice, no source: a shoulder behind the nose hangs behind a rim, the rod is drawn into a bend.
"""

from __future__ import annotations

import pytest

from advisor.push.held.stuck import Stuck
from advisor.push.held_now import held_now
from advisor.push.log.kinds import BACK, FIND, PASSED, SIGHTING, STOPPED, TRY
from advisor.push.now.now import Now
from advisor.tables.where import number
from advisor.terminal.push.plan_anew import show_plan_anew
from advisor.terminal.push.stuck import show_stuck
from tests.cases.jobs import tables
from tests.push.machines import cutter
from tests.terminal.test_now_shown import TEE_PLUG, pushed, shown, tee

__all__ = ["shown"]

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


# -- where it is held: from a trial, a lip logged at 24 ft held the head on its way back from 46 ft

LONG = """
site: street drain
region: north america
built: 1985
map: guess
lines:
  - line: drain
    kind: sewer
    size: 4 in
    pieces:
      - opening: yard plug
        kind: end cleanout
      - pipe: 4 to 18 m
      - bend: 1/8 bend
      - pipe: 2 to 5 m
      - end: public sewer
task: {look at: drain, complaint: {holding: no, chemicals: no}}
"""
RIM_IN = (stopped(7.4, sign="rim ahead", feel="dead"), (TRY, 7.4, {"technique": "guide", "outcome": PASSED}))
OUT_AT_RIM = stopped(7.5, sign="open pipe ahead", feel="will not come back")


def in_drain(*told) -> Now:
    return pushed(LONG, "yard plug", *told)


def far(at: float = 14.0):
    return SIGHTING, at, {"what": "nothing"}


def test_a_hold_on_the_way_back_moves_no_place():
    """The reading was placed on the way in; the rod that is out is all there is to lie anywhere."""
    read, held_there = in_drain(far(), far(6.0)), in_drain(far(), stopped(7.5), (BACK, 6.0, {}))
    assert held_there.fix.best.at == pytest.approx(read.fix.best.at, abs=0.3)
    assert not held_there.apart


def test_no_turn_is_named_flatly_because_the_head_is_held_on_the_way_back(shown):
    told = in_drain(*RIM_IN, far(), OUT_AT_RIM)
    assert told.held_at == (None, True)
    assert "HELD ON THE WAY BACK, WHERE IT WAS STOPPED AT 7.4 M" in shown(show_stuck, held_now(told), told)


def test_what_the_lens_showed_there_on_the_way_in_tells_what_holds_it():
    with_rim, without = (held_now(in_drain(*told, far(), OUT_AT_RIM)) for told in (RIM_IN, ()))
    assert with_rim is not None
    assert without is not None
    assert with_rim.told.name == "hangs behind a rim"
    assert with_rim.told.chance > without.told.chance
    assert any("push in a hand's breadth, turn" in step for step in with_rim.out.steps)
    assert not any("push in a hand's breadth" in step for step in without.out.steps)


def test_what_was_logged_there_is_told(shown):
    find = (FIND, 7.3, {"what": "joint pushed out of line"})
    told = in_drain(far(7.3), find, far(), OUT_AT_RIM)
    assert "Logged at 7.3 m: joint pushed out of line." in shown(show_stuck, held_now(told), told)


def test_roots_that_held_it_on_the_way_in_hold_it_on_the_way_back(shown):
    roots = (
        stopped(9.4, sign="blocked, roots", feel="soft"),
        (TRY, 9.4, {"technique": "x", "outcome": PASSED}),
    )
    told = in_drain(*roots, far(10.4), stopped(9.5, feel="will not come back"))
    found = held_now(told)
    assert found is not None
    assert [cause.name for cause in found.named] == ["roots"]
    assert not any("water run behind" in step.lower() for step in found.out.steps)  # it was not seen to drain
    said = shown(show_plan_anew, told, told.push.study, None)
    assert "only once the roots there are cut" in said
    assert "1. yard plug" not in said


def test_what_a_machine_was_run_past_since_is_no_sign_any_more():
    cut = cutter(12.0, "yard plug", "known")
    told = in_drain(
        stopped(9.4, sign="blocked, roots"), (BACK, 0.0, {}), cut, far(10.4), stopped(9.5, feel="dead")
    )
    assert "roots" not in told.signs
