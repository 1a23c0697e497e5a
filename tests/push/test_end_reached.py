"""An end that is told as reached against counter and sheet holds nothing: lengths by hand.

The house drain of the sheet is 26 m, the yard cleanout stands half a metre above its upper end.
"""

from __future__ import annotations

import pytest

from advisor.plan import work_through
from advisor.push.before.end_reached import last_hardly_reached
from advisor.push.now.counted import at_farthest
from advisor.push.now.seen import runs_of
from tests.cases.jobs import rules, tables
from tests.push.sites import WALK
from tests.push.test_report import START, Told, case, entries, report, section
from tests.push.test_report_never_passed import BACK_UP, BOTH, DOWN, HELD, OUT


def read(counter: float, what: str = "nothing") -> Told:
    return ("sighting", counter, {"what": what})


def ended(counter: float) -> Told:
    return ("end", counter, {"reached": True})


@pytest.mark.parametrize(
    ("told", "believed"),
    [
        ([START, read(14.0)], False),
        ([START, read(23.0)], False),
        ([START, read(23.0, "chamber")], True),  # seen to end there: it is the sheet that is off
        ([START, read(24.5)], True),  # no further short than counter and sheet may part
        ([START, read(26.5), ("pulled back", 5.0, {})], True),
        # What an earlier push has seen need not be seen again: up from the street 6.5 m were left.
        ([DOWN, read(20.0), OUT, BACK_UP, read(8.0)], True),
        ([DOWN, read(20.0), OUT, BACK_UP, read(3.0)], False),
        # All of it was seen before: this one came a third of the way all the same.
        ([DOWN, read(27.0, "chamber"), OUT, BACK_UP, read(8.0)], False),
    ],
)
def test_the_word_that_the_end_was_reached_is_set_against_counter_and_sheet(told, believed):
    made = report(*told, ended(told[-1][1]), text=BOTH)
    row = section(made, "Pushes")
    assert ("told as target reached, by counter and sheet unlikely (" not in row) == believed, row
    assert "target reached" in row


def test_such_a_word_takes_no_stop_back():
    """Held 19.5 m down the line, and 3 m up from its lower end: what lies between nobody saw."""
    from_below: Told = ("stopped", 3.0, {"sign": "object"})
    told = section(report(DOWN, HELD, OUT, BACK_UP, from_below, ended(3.0), text=BOTH), "In short")
    assert "what lies between where the head was stopped from either side" in told


def test_a_head_held_where_the_end_is_told_against_counter_and_sheet_is_told_as_held():
    made = report(START, ("stopped", 14.0, {"sign": "wall ahead"}), ended(14.0))
    assert "Stopped at 14 m by the counter: new opening here" in section(made, "Recommended")


@pytest.mark.parametrize(
    ("met", "further"),
    [
        # Up the drain: the laundry joins 4 m up it and its end is capped 3 m on.
        ([("sighting", 4.4, {"what": "tie-in"}), ("sighting", 7.4, {"what": "end"})], None),
        # Down it past two lines: 22.5 m of drain and 0.4 m of riser to the sewer, less the 7.4 m.
        ([("sighting", at, {"what": "tie-in"}) for at in (3.4, 7.4)], 15.5),
    ],
)
def test_what_the_head_leaves_behind_it_does_not_lie_further_in(met, further):
    """Told as reached, by a head that went the other way: it gets there only once it is drawn out."""
    down = WALK.replace("look at: house drain", 'look at: "house drain, from floor plug to public sewer"')
    started: Told = ("start", 0.0, {"opening": "floor plug", "direction": "unknown"})
    told = entries(started, *met, ended(7.4))
    study = work_through(case(down), tables(), rules())
    now = at_farthest(runs_of(told)[0], study)
    assert now is not None
    hardly = last_hardly_reached(now, told)
    assert hardly is not None
    assert hardly.short == (None if further is None else pytest.approx(further, abs=0.7))
