"""Before a trap or the end the next landmark is not all that counts: what stands behind it is told."""

from __future__ import annotations

import pytest

from advisor.push.kinds import SIGHTING
from advisor.terminal.page import Page
from advisor.terminal.push.screens import show_now
from tests.push.test_same_footing import STACK, YARD, rain
from tests.terminal.test_now_shown import pushed

TRAPPED = YARD.replace("      - pipe: 7 m\n", "      - trap: disconnecting trap\n      - pipe: 7 m\n")
AT = (SIGHTING, 6.0, {"what": "nothing"})


def said(text: str, capsys: pytest.CaptureFixture[str], *told) -> str:
    capsys.readouterr()
    show_now(pushed(text, "yard chamber", *told, direction="downstream"), Page())
    return " ".join(capsys.readouterr().out.split())


def test_the_trap_right_behind_the_chamber_is_told_before_it(capsys):
    told = said(TRAPPED, capsys, STACK, rain(2.7), AT)
    assert "Next: a chamber (open channel): the front chamber" in told
    behind = told.partition("Behind it comes the interceptor trap, counter ")[2]
    assert "Do not push into it." in behind
    assert "draw the stopper and go in by the straight rodding arm" in behind


def test_where_it_is_the_end_that_is_told(capsys):
    """7 m of pipe and then the sewer."""
    told = said(YARD, capsys, STACK, rain(2.7), AT)
    assert "Behind it comes the end of the pipe: public sewer" in told
    assert "Do not push into it" not in told
    # Two landmarks before it nothing is said yet.
    assert "Behind it" not in said(TRAPPED, capsys, STACK)


def test_at_the_chamber_the_trap_in_it_is_told_as_here(capsys):
    chamber = (SIGHTING, 12.2, {"what": "chamber"})
    told = said(TRAPPED, capsys, STACK, rain(2.7), chamber)
    assert "That is: a chamber (open channel): the front chamber" in told
    assert "Stop: the interceptor trap is here. Do not push into it." in told
    assert "Stop: the interceptor trap" not in said(TRAPPED, capsys, STACK, rain(2.7), AT)


def test_nobody_is_told_that_a_trap_was_missed(capsys):
    alone = TRAPPED.replace(
        "      - trap: disconnecting trap\n", "      - pipe: 3 m\n      - trap: disconnecting trap\n"
    )
    told = said(alone, capsys, STACK, rain(2.7), (SIGHTING, 12.2, {"what": "chamber"}))
    trap = told.partition("Next: a trap (the pipe dips under water): the interceptor trap")[2]
    assert "Do not push into it." in trap
    assert "you may be in it unseen. Draw back." in trap
    assert "missed" not in trap
