"""Beside the opening: a trap ahead is told from afar, in a box when near, and nobody pushes at it."""

from __future__ import annotations

import pytest

from advisor.push.kinds import SIGHTING
from advisor.terminal.page import Page
from advisor.terminal.push.screens import show_now
from tests.terminal.test_now_shown import TEE_PLUG, pushed, tee, trapped


def shown(capsys, text: str, counter: float) -> str:
    show_now(pushed(text, TEE_PLUG, (SIGHTING, counter, {"what": "nothing"})), Page())
    return " ".join(capsys.readouterr().out.replace("┃", " ").replace("│", " ").split())


def test_a_trap_far_ahead_is_told_in_a_line_with_where_to_go_slowly(capsys):
    """By hand: the trap lies 2 m of branch and 3 m of drain past the plug."""
    said = shown(capsys, trapped(), 1.0)
    line = said.partition("Not past: house trap, counter ")[2]
    low, high = (float(line.split()[i]) for i in (0, 3))
    assert low < 5 < high + 0.2
    assert "It holds the head" in line
    assert "Slow from" in line


def test_near_it_stands_in_a_box_and_nobody_is_told_to_push_at_it(capsys):
    said = shown(capsys, trapped(), 5.0)
    box = said.partition("NOT PAST HERE")[2]
    assert "House trap" in box
    assert "Stop short of it." in box
    assert "gentle push" not in box
    assert "Use its two plugs" in box


@pytest.mark.parametrize(("counter", "told"), [(2.5, False), (11.0, True)])
def test_the_sewer_that_the_drain_ends_in_is_told_near_it(capsys, counter, told):
    said = shown(capsys, tee(), counter)
    assert ("NOT PAST HERE" in said) is told


def test_what_was_missed_may_be_the_trap_ahead(capsys):
    """A chamber of which nobody knows where it lies, and the trap just behind it."""
    text = trapped().replace(
        "- pipe: 3 m\n      - trap",
        "- pipe: assumed 2 to 4 m\n      - opening: front chamber\n"
        "        kind: inspection chamber\n      - trap",
    )
    said = shown(capsys, text, 2.6)
    assert "front chamber" in said.partition("Next:")[2][:80]
    missed = said.partition("without it:")[2]
    assert "Stop: ahead may be house trap." in missed[:200]


def test_a_trap_that_comes_next_is_never_called_missed(capsys):
    missed = shown(capsys, trapped(), 3.0).partition("Next: a trap")[2].partition("without it:")[2][:120]
    assert missed.startswith(" you may be in it unseen. Draw back.")
    assert "missed" not in missed
