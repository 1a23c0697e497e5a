"""The plan after a push that saw a run as far as a trap: what it says of that run, and of what lies beyond.

From a trial: the table named a hardest spot in the run that the push had just seen whole, roots
were told to run on past the trap, and the plan for what lies beyond told no way to come at it. In at the
floor plug the trap is drawn at about 9.4 m; the push saw it at 9 m. Common practice, no source: a running
trap is gone round by its own two plugs.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from advisor.plan import plan
from advisor.push.before.looked_at import as_pushes_show
from advisor.push.met_before import met_before
from advisor.push.seen_whole import seen_whole
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.model import Plan
from advisor.result.told import found_on
from advisor.tables.conditions import ROOTS
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.jobs import rules, tables
from tests.push.test_report import Told, entries
from tests.push.test_seen_whole import MET, SITE, START, end
from tests.terminal.test_now_shown import case_of

ROOTED = SITE.replace("material: plastic", "material: clay\n    condition: roots")
PLANNED = "small head on small reel"  # the gear of the way that is planned first
BEYOND = SITE.replace("look at: suspect section", "look at: drain, from house trap to public sewer")


@cache
def planned(text: str, reached: bool = True, gear: str | None = None, found: str | None = None) -> Plan:
    start: Told = (START[0], START[1], {**START[2], "loadout": gear})
    finds: tuple[Told, ...] = (("find", 3.0, {"what": found}),) if found else ()
    standing = entries(start, MET[0], *finds, *end(9.0, "trap", reached))
    case = replace(case_of(text), worlds=100)
    study = plan(as_pushes_show(case, standing, tables(), rules()), tables(), rules())
    made = plan_of(study, met_before(study, standing))
    return made.model_copy(update={"seen": seen_whole(study, standing)})


def row_of(made: Plan, capsys: pytest.CaptureFixture[str]) -> str:
    show_plan(made, Units.METRIC, Page())
    table = capsys.readouterr().out.partition("BEST FIRST")[2]
    return " ".join(table.partition(" 2 kitchen sink")[0].split())


@pytest.mark.parametrize("gear", [None, PLANNED])
def test_of_a_run_that_was_seen_whole_no_hardest_spot_is_told(capsys, gear):
    row = row_of(planned(ROOTED, gear=gear), capsys)
    assert "seen whole" in row
    assert ROOTS not in row


def test_other_gear_has_not_been_through_it(capsys):
    made = planned(ROOTED, gear="large reel")
    assert made.routes[0].loadout.name == PLANNED
    assert "seen whole" not in row_of(made, capsys)


def test_what_may_not_all_have_been_seen_keeps_its_hardest_spot(capsys):
    row = row_of(planned(ROOTED, reached=False), capsys)
    assert "seen whole" not in row


def test_roots_run_no_further_than_the_trap_that_was_seen():
    way = planned(ROOTED).routes[0]
    runs = [each for each in way.passages if each.somewhere]
    assert runs
    rows = [each for each in way.sights if each.sight == ROOTS]
    assert rows
    assert max(each.at_high_m for each in (*runs, *rows)) == pytest.approx(9.0)


def test_the_trap_is_told_with_the_span_whose_beginning_is_the_limit(capsys):
    """`not past 8.6 m` beside `9 m: a trap`: one span says both."""
    show_plan(planned(ROOTED), Units.METRIC, Page())
    told = " ".join(capsys.readouterr().out.split())
    assert "9 m (8.6 m to 9.4 m): seen before: a trap" in told


def test_a_plan_for_what_lies_beyond_a_trap_tells_how_that_is_come_at():
    made = planned(BEYOND)
    assert not made.camera_now
    assert made.how[0].startswith("Use its two plugs: street side for the line beyond")
    assert "WARNING: sewage and gas may stand behind a plug" in made.how[0]


def test_where_its_plugs_are_told_shut_nobody_is_sent_to_them():
    shut = BEYOND.replace(
        "      - trap: house trap\n",
        "      - {opening: house side, kind: house trap house-side plug, opens: no}\n"
        "      - trap: house trap\n"
        "      - {opening: street side, kind: house trap street-side plug, opens: no}\n",
    )
    told = planned(shut).how
    assert not any("two plugs" in step for step in told)
    assert any("look for an opening beyond it" in step for step in told)


def test_what_was_found_well_before_the_trap_is_no_reason_to_stop_where_it_does_not_come():
    """At 3 m on a way that ends at 9 m: whoever does not see it again goes on, slowly."""
    made = planned(SITE, found="chipped joint")
    chipped, *_, trap = found_on(made, made.routes[0])
    assert (chipped.what, chipped.not_past, trap.not_past) == ("chipped joint", False, True)
    assert chipped.missed == "Slowly on."
    assert trap.missed != chipped.missed
