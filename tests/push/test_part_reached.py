"""A push for a part that was told as having reached its target reached the end of that part: neither doubted
for what lies beyond it, nor taken for the whole. Lengths by hand.

From a trial: sent for 16 ft, 17.5 ft in, and "reached" was met with "it lies 30 ft further in".
The sink line joins 3 m in, the trap that ends what is to be seen is 9 m in; the part ends at 7 m.
"""

from __future__ import annotations

from functools import cache

import pytest

from advisor.plan import plan
from advisor.push.before.end_reached import as_reached, last_hardly_reached
from advisor.push.before.tasks import shown
from advisor.push.now.counted import at_farthest
from advisor.push.now.seen import runs_of
from advisor.site.build import network_of
from advisor.site.target import target_in
from tests.cases.jobs import rules, tables
from tests.push.test_report import Told, entries, report, section
from tests.push.test_seen_whole import MET, SITE
from tests.terminal.test_now_shown import case_of

PART = "drain, from sink line to 4 m below sink line"
WHOLE = "drain, from sink line to house trap"


@cache
def study():
    return plan(case_of(SITE), tables(), rules())


def told(target: str, at: float, *met: Told):
    start: Told = ("start", 0.0, {"opening": "floor plug", "direction": "downstream", "target": target})
    return (start, *MET[:1], *met, ("sighting", at, {"what": "nothing"}), ("end", at, {"reached": True}))


@pytest.mark.parametrize(
    ("target", "at", "believed"),
    [
        (PART, 7.5, True),
        (PART, 4.0, False),  # 3 m short of it
        (WHOLE, 7.5, False),  # and a metre and a half short of the trap
    ],
)
def test_the_word_is_set_against_the_end_of_what_it_went_for(target, at, believed):
    standing = entries(*told(target, at))
    (run,) = runs_of(standing)
    now = at_farthest(run, study())
    assert now is not None
    assert (last_hardly_reached(now, standing) is None) == believed


def test_the_whole_is_not_taken_for_reached_by_it():
    held: Told = ("stopped", 7.5, {"sign": "roots"})
    runs = as_reached(runs_of(entries(*told(PART, 7.5, held))), study())
    assert [run.reached for run in runs] == [False]
    assert shown(runs, study()).stops, "what held the head lies on the way to the rest"


def test_the_report_names_what_was_reached_and_tells_nothing_of_all():
    made = report(*told(PART, 7.5), text=SITE)
    assert f"target reached ({PART})" in section(made, "Pushes")
    assert "The operator says that all was seen" not in section(made, "In short")


def test_two_marks_in_one_pipe_are_two_places():
    """The parts of two plans end in the same pipe: 4 m and 5 m below the sink line, 7 m and 8 m down."""
    network, _ = target_in(
        "drain, from sink line to 5 m below sink line", network_of(case_of(SITE).sheet, tables())
    )
    network, _ = target_in(PART, network)
    tops = network.positions("drain")
    marks = [tops[key] for key in network.lines["drain"] if network.pieces[key].kind == "mark"]
    assert marks == pytest.approx([7.0, 8.0])
    assert sum(network.pieces[key].along for key in network.lines["drain"]) == pytest.approx(21.0)
