"""What held a head and was passed or cut since has a row at its reading on plan and card. Rule of the trade:
stubs and what is left of a clog hold the next head at the same place."""

from __future__ import annotations

import pytest

from advisor.plan import plan
from advisor.push.before.left_stops import left_stops
from advisor.push.met_before import met_before
from tests.cases.jobs import rules, tables
from tests.push.machines import cutter
from tests.push.test_looked_at import SLOW, START
from tests.push.test_report import case, entries

STUDY = plan(case(SLOW), tables(), rules())
ROOTS = ("stopped", 5.0, {"sign": "roots"})
PAST = ("sighting", 6.5, {"what": "nothing"})
CUT = cutter(8.0, "floor plug", "downstream")


@pytest.mark.parametrize(("since", "do"), [(PAST, "Gently again"), (CUT, "stubs and loose cuttings")])
def test_what_held_and_may_lie_there_still_is_a_row_and_no_sentence_besides(since, do):
    standing = entries(START, ROOTS, since)
    (row,) = met_before(STUDY, standing)
    assert (row.at_m, row.not_past) == (5.0, False)
    assert "roots" in row.see
    assert do in row.do
    assert "held at 5 m" in row.left  # told of it where a plan goes in elsewhere
    assert not left_stops(STUDY, standing)


def test_a_wall_that_was_passed_is_told_in_a_sentence_and_has_no_row():
    standing = entries(START, ("stopped", 5.0, {"sign": "wall ahead"}), PAST)
    assert all(row.counted for row in met_before(STUDY, standing)), "only told where a chance counts it"
    assert any("and came past" in words for words in left_stops(STUDY, standing))


@pytest.mark.parametrize(("since", "ends"), [((PAST,), True), ((PAST, CUT), False)])
def test_what_held_it_both_ways_ends_the_way_till_it_is_cut_though_it_came_past(since, ends):
    """From a trial: roots wedged the head, more was read, and the plan went in there again."""
    standing = entries(START, ("stopped", 5.0, {"sign": "roots", "feel": "will not come back"}), *since)
    assert [row.not_past for row in met_before(STUDY, standing)] == [ends]
    said = any("came neither way at 5 m" in words for words in left_stops(STUDY, standing))
    assert said is ends


def test_what_nobody_came_past_ends_the_way_as_before():
    standing = entries(START, ROOTS)
    assert [row.not_past for row in met_before(STUDY, standing)] == [True]
    assert any("never came past" in words for words in left_stops(STUDY, standing))
