"""Held in a run with roots: one chance of roots, not one of the place and another of the cause."""

from __future__ import annotations

from dataclasses import replace

import tests.terminal.test_now_shown as beside
from advisor.push.held_now import held_now
from advisor.push.log.kinds import SIGHTING, STOPPED
from advisor.push.now.here import Here
from advisor.tables.conditions import ROOTS
from advisor.terminal.push import stuck as stuck_screen
from advisor.terminal.push.stuck import show_stuck
from tests.terminal.test_held_here import SEWER
from tests.terminal.test_now_shown import pushed

shown = beside.shown  # fixture
RIM = {"sign": "rim ahead", "feel": "dead"}


def test_at_a_rim_in_the_run_roots_have_no_chance_beside_that_of_the_cause(shown, monkeypatch):
    now = pushed(SEWER, "yard cleanout", (SIGHTING, 10.0, {"what": "nothing"}), (STOPPED, 12.0, RIM))
    found = held_now(now)
    assert found is not None
    assert not found.spot
    here = Here((), 0.0, 0.0, (("roots in sewer", 0.18), ("wye", 0.2)))
    monkeypatch.setattr(stuck_screen, "likely_here", lambda now: here)
    told = shown(show_stuck, found, now)
    assert "It may be held at the wye (20%)." in told
    assert "IN THE RUN MARKED FOR ROOTS" in told
    assert "It may be held at the roots" not in told
    likelier = [replace(each, chance=0.2) if each.name == ROOTS else each for each in found.causes]
    told = shown(show_stuck, replace(found, causes=tuple(likelier)), now)
    assert "Or roots at a joint hold the head (20%)." in told
