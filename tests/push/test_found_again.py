"""What a push saw of a way is told in the next that goes there, and bars what it bars: a hole, a trap.

From a trial: a trap was seen at 8 m, "crack with a hole, soil comes in" at 5 m. Minutes later a
second head went in there, past both, without a word; the plan printed in between sent a jet in. Rules of the
trade: no rod, cutter or jet through a pipe that does not carry itself; what was seen is where it was read.
"""

from __future__ import annotations

import pytest

from advisor.push.before.found_before import found_before
from advisor.push.before.limit import limit_of
from advisor.push.before.shown_so_far import shown_by
from advisor.push.disagree import disagree
from advisor.push.held_now import held_now
from advisor.push.log.kinds import BACK, END, FIND, MACHINE, SIGHTING, START, STOPPED
from advisor.push.now.now import Now
from advisor.terminal.page import Page
from advisor.terminal.push.plan_anew import show_plan_anew
from tests.cases.jobs import tables
from tests.push.machines import cutter
from tests.push.test_earlier_stop import logged, numbered, said
from tests.terminal.test_now_shown import TEE_PLUG, Told, study_of, tee, trapped

BEGUN: Told = (START, 0.0, {"opening": TEE_PLUG, "direction": "downstream"})
OTHER: Told = (START, 0.0, {"opening": TEE_PLUG, "direction": "upstream"})
HOLE: Told = (FIND, 5.0, {"what": "crack with a hole, soil comes in"})
CRACK: Told = (FIND, 5.0, {"what": "crack all round"})
POOL: Told = (SIGHTING, 4.0, {"what": "standing water"})
TRAP: Told = (SIGHTING, 4.0, {"what": "trap"})
PIPE: Told = (SIGHTING, 5.0, {"what": "end"})  # the sheet has it 11 m in
OUT: Told = (END, 1.0, {"reached": False, "out": True})


def read(at: float) -> Told:
    return SIGHTING, at, {"what": "nothing"}


def again(*told: Told, text: str | None = None) -> Now:
    """The push that begins after one that told this."""
    return logged(*told, text=text or tee())


def test_a_hole_is_told_from_the_start_boxed_near_it_and_past_it_only_the_way_back_is_left(capsys):
    before = (BEGUN, read(6.0), HOLE, OUT, BEGUN)
    far = said(again(*before), capsys)
    assert "Ahead: at 5 m was seen: crack with a hole, soil comes in. Slow from 3." in far
    assert "no rod, no cutter and no jet through it" in far
    near = said(again(*before, read(4.6)), capsys).partition("NOT PAST HERE")[2]
    assert "Slow. At 5 m was seen: crack with a hole" in near
    past = said(again(*before, read(5.8)), capsys)
    assert "Next: only back." in past
    assert "the rod lies through it. No further, no turning." in past.partition("ONLY BACK")[2]
    assert "NOT PAST HERE" not in past


CUT: Told = cutter(7.0, TEE_PLUG, "downstream")
SHORT: Told = cutter(4.0, TEE_PLUG, "downstream")
ROOTS_SEEN: Told = (FIND, 5.0, {"what": "roots"})
STUBS = "run past it since, or it was cleaned: stubs and loose cuttings stay behind"


@pytest.mark.parametrize(
    ("find", "since", "cleared"),
    [(ROOTS_SEEN, CUT, True), (ROOTS_SEEN, SHORT, False), (CRACK, CUT, False)],
)
def test_what_was_cut_since_is_told_as_that_and_no_less_is_heeded(find, since, cleared, capsys):
    """As of a stop: a cutter takes roots away, not a crack. What it leaves behind still holds a head."""
    before = (BEGUN, read(6.0), find, since, OUT)
    told = said(again(*before, BEGUN), capsys)
    assert ("Look before it" in told, STUBS in told) == (True, cleared)
    study = study_of(tee())
    (note,) = found_before(study, numbered(*before))
    assert ("Look before it" in note.do, STUBS in note.do, STUBS in note.left) == (True, cleared, cleared)


def test_it_is_told_in_the_same_push_as_well(capsys):
    assert "the rod lies through it" in said(again(BEGUN, read(6.0), HOLE), capsys)


def test_a_plan_from_before_it_goes_no_further(capsys):
    now = again(BEGUN, read(6.0), HOLE, OUT, BEGUN, read(3.0))
    show_plan_anew(now, now.push.study, None, Page())
    assert "Not past 5 m: crack with a hole" in capsys.readouterr().out
    assert disagree(now) == ()


@pytest.mark.parametrize(
    ("told", "words"),
    [(POOL, "at 4 m was seen: standing water"), (CRACK, "at 5 m was seen: crack all round")],
)
def test_what_may_be_passed_is_told_on_the_way_there_and_no_more_behind_it(told, words, capsys):
    before = (BEGUN, read(6.0) if told is CRACK else read(3.0), told, OUT, BEGUN)
    first = said(again(*before), capsys)
    assert f"Ahead: {words}" in first
    assert "no blow" in first
    assert "was seen" not in said(again(*before, read(5.8)), capsys)


def test_the_other_way_it_is_not_ahead(capsys):
    assert "was seen" not in said(again(BEGUN, read(6.0), HOLE, OUT, OTHER), capsys)


def test_a_trap_that_was_seen_stands_where_it_was_read_and_not_where_the_sheet_has_it(capsys):
    """The sheet has the trap 5 m in; it was seen at 4 m."""
    unseen = limit_of(again(BEGUN, text=trapped())).stop
    stop = limit_of(again(BEGUN, TRAP, OUT, BEGUN, text=trapped())).stop
    assert unseen is not None
    assert stop is not None
    assert unseen.likely == pytest.approx(5.0, abs=0.3)
    assert stop.likely == pytest.approx(4.0)
    assert 3.0 < stop.low < 4.0 < stop.high < 5.0
    assert "Not past: house trap, counter 3." in said(again(BEGUN, TRAP, OUT, BEGUN, text=trapped()), capsys)


def test_drawn_back_and_pushed_on_it_stands_there_too():
    stop = limit_of(again(BEGUN, TRAP, (BACK, 1.0, {}), text=trapped())).stop
    assert stop is not None
    assert stop.likely == pytest.approx(4.0)


def test_a_trap_that_no_sheet_has_is_told_all_the_same(capsys):
    told = said(again(BEGUN, TRAP, OUT, BEGUN), capsys)
    assert "Ahead: at 4 m was seen: a trap: the pipe dips under water." in told
    assert "Not past it: it holds the head." in told


def test_an_end_that_was_seen_stops_the_push_there_wherever_the_sheet_has_it(capsys):
    """A head that drops into an open sewer does not come back. Going on after it is told as that."""
    seen = said(again(BEGUN, PIPE), capsys)
    assert "Next: only back." in seen
    assert "It is before the lens. Stop here" in seen.partition("NOT PAST HERE")[2]
    assert "does not come back" in seen
    assert "ublic sewer" not in seen, "not at another reading in the same breath"
    on = said(again(BEGUN, PIPE, (SIGHTING, 7.0, {"what": "standing water"})), capsys)
    assert "Next: only back." in on
    assert "At 5 m was seen: the end of the pipe" in on.partition("ONLY BACK")[2]
    assert "No further, no turning. Draw back" in on
    assert "only through a short pool" not in on


def test_the_next_push_knows_an_end_that_was_seen_as_it_knows_a_trap(capsys):
    far = said(again(BEGUN, PIPE, OUT, BEGUN), capsys)
    assert "Ahead: at 5 m was seen: the end of the pipe" in far
    held = held_now(again(BEGUN, PIPE, OUT, BEGUN, (STOPPED, 4.8, {"sign": "wall ahead"})))
    assert held is not None
    assert held.tries == ()
    assert "No push and no try so near" in held.stop


# -- plan and card ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("told", "broken"),
    [
        (HOLE, True),
        (CRACK, True),
        ((FIND, 5.0, {"what": "no crack"}), False),
        ((FIND, 5.0, {"what": "grease"}), False),
        ((MACHINE, None, {"what": "cutter", "brought": "soil or pipe"}), True),
        ((MACHINE, None, {"what": "cutter", "brought": "roots"}), False),
    ],
)
def test_what_tells_that_the_pipe_may_be_broken(told, broken):
    assert shown_by(numbered(BEGUN, told), study_of(tee()).kit, tables()).broken is broken


def test_at_a_hard_place_near_it_nobody_is_told_to_push(capsys):
    """The tee stands 2 m in, what was seen at 2.4 m."""
    hole: Told = (FIND, 2.4, HOLE[2])
    near = said(again(BEGUN, read(2.5), hole, OUT, BEGUN, read(1.7)), capsys)
    assert "First a gentle push" in said(again(BEGUN, read(2.5), OUT, BEGUN, read(1.7)), capsys)
    assert "HARD PLACE" in near
    assert "No push and no try here" in near
    assert "First a gentle push" not in near


@pytest.mark.parametrize(("at", "held"), [(3.0, False), (4.6, True), (6.0, True)])
def test_held_near_it_or_past_it_nothing_is_tried(at, held):
    now = again(BEGUN, read(6.0), HOLE, OUT, BEGUN, (STOPPED, at, {"sign": "open pipe ahead"}))
    found = held_now(now)
    assert found is not None
    assert (found.stop is not None and found.stop.startswith("No push and no try so near")) is held
    assert bool(found.tries) is not held


def test_a_trap_that_was_seen_before_it_hides_no_hole(capsys):
    assert "crack with a hole" in said(again(BEGUN, TRAP, read(6.0), HOLE, OUT, BEGUN, read(5.8)), capsys)
