"""A push is written up by the way that it went, not by the way that was told as it began.

Common practice, no source: what was passed is believed before what was seen from the rim; and nobody digs for
a head on one side of an opening while it may be on the other.
By the sheet of these tests the laundry line joins 4 m upstream of the floor plug, and the kitchen line 3 m
downstream, on the other side of the pipe; the entry of the plug is 0.4 m.
"""

from __future__ import annotations

from functools import cache

import pytest

from advisor.kit.loadouts import default_kit
from advisor.plan import work_through
from advisor.push.before.left_stops import left_stops
from advisor.push.before.shown_so_far import shown_by
from advisor.push.met_before import met_before
from advisor.push.now.seen import pushes_told
from advisor.push.now.way_gone import way_by_map
from advisor.push.report.build import report_of
from advisor.push.report.parts import Report
from advisor.result.out import left_words
from advisor.result.study import Study
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.tables.place import rules_dir
from tests.cases.jobs import rules, tables
from tests.push.machines import cutter
from tests.push.sites import WALK
from tests.push.test_report import Told, case, entries, section

TASK = "task: {look at: 'house drain, from floor plug to the bottom', complaint: {holding: no}}"
SHEET = WALK.replace("task: {look at: house drain, complaint: {holding: no}}", TASK)
BEGUN: Told = ("start", 0.0, {"opening": "floor plug", "direction": "downstream", "loadout": "large reel"})


def tie_in(at: float, clock: float) -> Told:
    return "sighting", at, {"what": "tie-in", "clock": clock}


LAUNDRY, CAP = tie_in(4.4, 3.0), ("sighting", 7.4, {"what": "end"})
KITCHEN, BATH = tie_in(3.4, 9.0), tie_in(7.4, 3.0)
CLEANED: Told = ("try", 5.0, {"technique": "clean first", "outcome": "passed", "outside": True})
ANEW: Told = ("counter reset", 4.4, {"now": 0.0})
HELD: Told = ("stopped", 2.0, {"feel": "will not come back"})
STAYS: Told = ("end", 2.0, {"reached": False, "out": False})


@cache
def study_of() -> Study:
    """The plan of the sheet; made once."""
    return work_through(case(SHEET), tables(), rules())


def made(*told: Told) -> Report:
    return report_of("a job", entries(*told), case(SHEET), tables(), rules(), rules_dir())


@pytest.mark.parametrize(
    ("passed", "way"),
    [
        ((), "downstream"),
        ((KITCHEN, BATH), "downstream"),
        ((LAUNDRY,), "upstream"),
        ((tie_in(4.4, 9.0), CAP), "unknown"),  # as far in as the laundry line, on the side of the kitchen's
    ],
)
def test_it_is_as_told_until_what_was_passed_shows_it_otherwise(passed, way):
    sheet = site_of_text(SHEET, "site", tables())
    (run,) = pushes_told(entries(BEGUN, *passed))
    assert way_by_map(run, network_of(sheet, tables()), tables())[0].way == way


@pytest.mark.parametrize(
    ("passed", "ports", "says"),
    [
        ((LAUNDRY, ANEW), ("down", "up"), "floor plug, told as downstream, most likely upstream by"),
        ((KITCHEN,), ("down",), "in from floor plug, about 2 m"),
    ],
)
def test_a_head_left_on_the_other_side_shuts_both_and_is_to_be_located_first(passed, ports, says):
    sheet = site_of_text(SHEET, "site", tables())
    told = (BEGUN, *passed, HELD, STAYS)
    shown = shown_by(entries(*told), default_kit(tables()), tables(), sheet)
    (left,) = shown.left_in
    assert left.ports == ports
    study = work_through(shown.known_to(case(SHEET)), tables(), rules())
    doubted = len(ports) > 1
    for words in (" ".join(left_words(study)), section(made(*told), "In short")):
        assert ("Locate it first: it may lie on either side of floor plug." in words) is doubted
        assert ("told as downstream, most likely upstream by what it passed" in words) is doubted
    assert says in " ".join(left_words(study))


def test_the_plan_tells_a_stop_on_the_side_on_which_it_was():
    (says,) = left_stops(study_of(), entries(BEGUN, LAUNDRY, ("stopped", 5.0, HELD[2])))
    assert says.startswith("In from floor plug, upstream, a push was stopped at 5 m")


def test_how_far_it_went_counts_over_a_counter_set_anew():
    """By hand: 4.4 m, and 2 m of a counter that began anew there."""
    pushes = section(made(BEGUN, LAUNDRY, ANEW, HELD, STAYS), "Pushes")
    assert "6.4 m in (counter 2 m, set anew on the way)" in pushes
    assert "told as downstream, most likely upstream by what it passed" in pushes


def test_no_target_was_reached_on_a_way_that_does_not_lead_there():
    reached: Told = ("end", 7.4, {"reached": True, "out": True})
    report = made(BEGUN, LAUNDRY, CAP, reached)
    assert "does not lead there" in section(report, "Pushes")
    assert "do not agree" not in section(report, "In short")
    assert "says that all was seen" not in section(report, "What was not seen")


@pytest.mark.parametrize(
    ("since", "says"),
    [
        ((("sighting", 9.0, {"what": "nothing"}),), "was held at 5 m (roots) and came past. Slowly there"),
        (
            (("try", 5.0, {"technique": "clean first", "outcome": "passed", "outside": True}),),
            "or it was cleaned",
        ),
        ((cutter(6.0, "floor plug", "downstream"),), "A machine was run past it since"),
    ],
)
def test_the_plan_still_knows_of_a_stop_that_was_passed_or_cleared(since, says):
    standing = entries(BEGUN, ("stopped", 5.0, {"sign": "roots"}), *since)
    (row,) = met_before(study_of(), standing)
    assert says in row.left
    assert not left_stops(study_of(), standing)  # once is enough
