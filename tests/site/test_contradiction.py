"""Told to drain and told to back up: by the trade water that comes up stands in the line, and counts as full
until somebody has looked. Nothing that was a caution before is one no more."""

from __future__ import annotations

import pytest

from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.site.suspects import contradiction, is_holding
from tests.cases.hazards import SMALL, run, site
from tests.cases.jobs import planned, tables

UP, STANDS = "backs up: [way in]", "water: standing"


def made(holding: str, up: bool, stands: bool):
    opening = f"kind: toilet flange{', ' + STANDS if stands else ''}"
    text = site(run(opening), "run", complaint=f"holding: {holding}{', ' + UP if up else ''}")
    sheet = site_of_text(text, "site", tables())
    return text, network_of(sheet, tables()), sheet.model.task.complaint


@pytest.mark.parametrize("up", [True, False])
@pytest.mark.parametrize("stands", [True, False])
def test_told_to_drain_it_is_still_to_be_seen_where_something_comes_up(up, stands):
    _, network, complaint = made("no", up, stands)
    assert is_holding(network, complaint) is (None if up or stands else False)
    assert bool(contradiction(network, complaint)) is (up or stands)


@pytest.mark.parametrize("holding", ["yes", "unknown"])
def test_nothing_contradicts_what_was_told_to_hold_or_not_told(holding):
    _, network, complaint = made(holding, up=True, stands=True)
    assert is_holding(network, complaint) is True
    assert contradiction(network, complaint) == ""


def test_the_plan_says_so_and_looks_first():
    text, _, _ = made("no", up=True, stands=False)
    plan_ = planned(text, SMALL, worlds=100)
    assert plan_.doubt is not None
    assert "Take every plug for full until you have looked." in plan_.doubt
    assert plan_.first_step.startswith("First ")
    assert "see that the line is not holding" in plan_.first_step
    # What the line is told to hold or drain changes no word of the warning at the plugs.
    assert {note.id: note.word for note in plan_.cautions}["plug-under-head"] == "warning"
    assert planned(made("no", up=False, stands=False)[0], SMALL, worlds=100).doubt is None
