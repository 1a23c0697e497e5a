"""A rim before the lens: no machine at it as long as no roots were seen, whatever the plan thinks of roots.

From a technician's day: old clay, "a rim or step before the lens" and dead hard, no roots told. The last
try on the screen was to have the roots cut there. A rule of the trade, by common practice: what turns in the
pipe bites on the standing edge of a displaced joint, so it goes there for roots alone, and who runs it is told.
"""

from __future__ import annotations

import pytest

from advisor.push.kinds import STOPPED
from advisor.terminal.page import Page
from advisor.terminal.push.stuck import show_stuck
from tests.push.test_which_spot import RIM, ROOTS, found, in_clay

CLEAN = "clean first"
DEAD = {**RIM, "feel": "dead"}
WITH_ROOTS = {"sign": "rim ahead, blocked, roots"}


@pytest.mark.parametrize(
    "told", [RIM, DEAD, {"sign": "rim ahead, blocked"}, {"sign": "rim ahead, blocked, scale or grease"}]
)
def test_no_machine_goes_at_a_rim_where_no_roots_were_seen(told, capsys):
    now = in_clay((STOPPED, 6.0, told))
    held = found(now)
    assert CLEAN not in [each.technique for each in held.tries]
    assert "no roots were seen" in dict(held.not_now)[CLEAN]
    show_stuck(held, now, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "Have the roots cut" not in said
    assert held.stop or "Not clean first: A rim or a displaced joint stands there" in said


def test_roots_seen_at_the_rim_are_cut_and_whoever_cuts_is_told_of_it():
    (cut,) = [each for each in found(in_clay((STOPPED, 6.0, WITH_ROOTS))).tries if each.technique == CLEAN]
    assert any("A joint out of line there? Tell who cuts" in step for step in cut.steps)


@pytest.mark.parametrize(("told", "cuts"), [(ROOTS, True), ({"sign": "blocked, scale or grease"}, False)])
def test_roots_are_cut_only_where_roots_likely_hold_it(told, cuts):
    """Scale that was told is taken off the wall: no cutter for roots, of which nothing was seen."""
    (cleaned,) = [each for each in found(in_clay((STOPPED, 6.0, told))).tries if each.technique == CLEAN]
    assert ("Have the roots cut" in " ".join(cleaned.steps)) is cuts
    assert cleaned.steps, "to look at the pipe's bottom first is its caution"


def test_felt_dead_alone_where_a_rim_is_drawn_no_machine_is_sent_at_it_either():
    """By the matrix, where no sign tells of the rim: a rim of the pipe stays, so to clean it is useless."""
    assert not in_clay().push.study.base.matrix.cells[CLEAN, "ledge"].allowed
