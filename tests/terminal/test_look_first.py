"""How it is seen that a line drains after a stop, before any fixture is run, and which key tells it.

From a trial, held in roots: "run nothing until the line is seen to drain" and "first see the line
drain: key w", and key w asked which fixture was run. Common practice, no source: the level is seen first;
where it has fallen a cup goes in by hand, then a jug, then a short run, and somebody watches the lowest
fixture and stops it as it rises. Only what ran away then gives leave for more.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import LOOKED, STOPPED
from advisor.push.now.seen import runs_of
from advisor.push.report.log_words import kind_words, told_words
from advisor.push.report.told import drained_words
from advisor.push.report.words import entry_words
from advisor.quantity import Units
from advisor.terminal.push.look_first import to_be_seen
from advisor.terminal.push.water import warn_before_any
from tests.cases.jobs import tables
from tests.push.test_drains import FLOOR_PLUG, ROOTS, walk
from tests.terminal.test_now_shown import pushed, shown
from tests.terminal.test_push_session import job, push
from tests.terminal.test_push_water import FREE, entry

__all__ = ["job", "push", "shown"]  # fixtures
HELD = "11ys\r\r" + "s26\r" + "9d0" + "20" + "m"  # in what blocks the pipe, of what kind is not told
LOOK = "none yet: first see whether the line drains"
UNTIL = "Run nothing until the line is seen to drain: it was stopped at 26 ft."


def test_key_w_says_in_which_order_it_is_seen_and_takes_what_came_of_it(job, push):
    job.site.write_text(FREE)
    said = push(HELD + "w4" + "y" + "w" + "bq")
    before, _, after = said.partition(f"> {LOOK}")
    assert UNTIL in before
    assert f"4 {LOOK}" in before
    order = [after.index(each) for each in ("Look into the lowest fixture", "One cup", "A jug", "short run")]
    assert order == sorted(order)
    assert "Somebody watches the lowest fixture" in after
    assert entry(job, LOOKED)["drains"] is True
    again = after.rpartition("> water")[2]
    assert "Which fixture?" in again
    assert UNTIL not in again
    assert LOOK not in again, "it was seen"


@pytest.mark.parametrize(("key", "says"), [("n", "Stop all water now."), ("d", "Nothing is noted.")])
def test_what_stands_or_was_not_looked_at_gives_no_leave(job, push, key, says):
    job.site.write_text(FREE)
    said = push(HELD + "w4" + key + "w" + "bq").partition(f"> {LOOK}")[2]
    assert says in said
    again = said.rpartition("> water")[2]
    assert LOOK in again, "it can be told once it has fallen"
    forbids = "No water may be run in this line now." if key == "n" else UNTIL
    assert forbids in again


def test_log_and_report_say_what_was_seen():
    now = pushed(walk(), FLOOR_PLUG, ROOTS, (LOOKED, 8.0, {"drains": True}), direction="downstream")
    told = now.entries[-1]
    table = tables().stuck
    assert (kind_words(told), told_words(told, Units.METRIC, table)) == (
        "looked whether it drains",
        "seen to run away",
    )
    assert "ran away" in entry_words(told, Units.METRIC, {}, table)
    (run,) = runs_of((now.push.began, *now.entries))
    assert any("was seen to drain" in line for line in drained_words([run]))


def test_it_counts_as_any_other_look_and_a_new_stop_asks_again():
    """As a fixture that was seen to run away does (tests/push/test_drains.py)."""
    looked = (LOOKED, 8.0, {"drains": True})
    seen = pushed(walk(), FLOOR_PLUG, ROOTS, looked)
    assert (seen.drains, seen.not_to_run, to_be_seen(seen)) == (True, frozenset(), False)
    again = pushed(walk(), FLOOR_PLUG, ROOTS, looked, (STOPPED, 9.5, ROOTS[2]))
    assert (again.drains, to_be_seen(again)) == (None, True)
    assert pushed(walk(), FLOOR_PLUG, ROOTS, (LOOKED, 8.0, {"drains": False})).water_allowed is False


def test_with_a_cleaner_in_the_line_nobody_pours_a_cup(shown):
    poured = pushed(walk("holding: no, chemicals: yes"), FLOOR_PLUG, ROOTS)
    assert not to_be_seen(poured)
    assert "How to see it drain" not in shown(warn_before_any, poured)
