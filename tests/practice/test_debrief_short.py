"""A long debrief begins with what cost most and comes a screenful at a time, as any long text does."""

from __future__ import annotations

import io
import re

import pytest
from prompt_toolkit.application import create_app_session
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output import DummyOutput

from advisor.practice.debrief import Decision
from advisor.rulebase.rule import Caution
from advisor.terminal.page import Page, _Console
from advisor.terminal.practice.debrief_screen import costliest, walk_back
from tests.practice.school import MARKS

WHY = ("Cause: it is tight.", "So: it stops.", "Expected in all: yours 90 min, best 60 min.")
WEDGE, GAS = Caution("wedged-head", "notice", "It wedges."), Caution("gas", "danger", "It can kill.")


@pytest.fixture(autouse=True)
def _somebody_is_there(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("advisor.terminal.leaf.can_ask", lambda: True)


def _made(number: int, regret: float, unsafe: Caution | None = None) -> Decision:
    return Decision(f"At {number} m, bend", "pushed firmly", regret, 0.0, "leave it", WHY, unsafe)


SILLY = [_made(n, cost) for n, cost in enumerate([3, 40, 9, 5, 60, 0, 22, 4, 8, 6], 1)]


def _said(decisions: list[Decision], keys: str, height: int = 40) -> tuple[list[int], str]:
    """Which decisions are told, in the order of the screen, and all that stands on it."""
    page, out = Page(), io.StringIO()
    page.console = _Console(file=out, force_terminal=True, width=80, height=height, color_system=None)
    with create_pipe_input() as typed, create_app_session(input=typed, output=DummyOutput()):
        typed.send_text(keys)
        walk_back(decisions, MARKS, page)
    return [int(n) for n in re.findall(r"^  (\d+)\. At", out.getvalue(), re.MULTILINE)], out.getvalue()


def test_the_three_that_cost_most_come_first_and_the_rest_a_screenful_at_a_time():
    told, said = _said(SILLY, "0")
    assert told[:3] == [2, 5, 7]  # 40, 60 and 22 min
    assert len(told) < 10
    assert "more lines." in said
    assert "1 next   2 the rest at once   0 enough" in said  # the keys of every long text
    whole, _ = _said(SILLY, "2")
    assert whole == [2, 5, 7, 1, 3, 4, 6, 8, 9, 10]


def test_a_short_one_is_told_in_its_order_and_asks_nothing():
    told, said = _said(SILLY[:4], "")
    assert told == [1, 2, 3, 4]
    assert "more lines" not in said


def test_what_can_hurt_is_always_among_the_first():
    decisions = [
        *SILLY,
        _made(11, 0.0, WEDGE),
        _made(12, 0.0, WEDGE),
        _made(13, 0.0, WEDGE),
        _made(14, 0, GAS),
    ]
    first = costliest(list(enumerate(decisions, 1)), MARKS)
    assert {made.unsafe for _, made in first} >= {WEDGE, GAS}
