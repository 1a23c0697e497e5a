"""A long debrief begins with what cost most; nothing that can hurt somebody is left for later."""

from __future__ import annotations

from advisor.practice.debrief import Decision
from advisor.rulebase.rule import Caution
from advisor.terminal.page import Page
from advisor.terminal.practice.debrief_screen import MOST_LINES, costliest, walk_back
from tests.terminal.test_choose import typed

WHY = ("Cause: it is tight.", "So: it stops.", "Expected in all: yours 90 min, best 60 min.")
WEDGE, GAS = Caution("wedged-head", "notice", "It wedges."), Caution("gas", "danger", "It can kill.")


def _made(number: int, regret: float, unsafe: Caution | None = None) -> Decision:
    return Decision(f"At {number} m, bend", "pushed firmly", regret, 0.0, "leave it", WHY, unsafe)


SILLY = [_made(n, cost) for n, cost in enumerate([3, 40, 9, 5, 60, 0, 22, 4, 8, 6], 1)]


def _said(capsys, decisions, keys: str) -> str:
    capsys.readouterr()
    with typed(keys):
        walk_back(decisions, Page())
    return capsys.readouterr().out


def test_the_three_that_cost_most_come_first_and_the_rest_by_key(capsys):
    short = _said(capsys, SILLY, "1")
    assert [n for n in range(1, 11) if f"{n}. At {n} m" in short] == [2, 5, 7]
    assert "m  7 more" in short
    assert len(short.splitlines()) <= MOST_LINES
    whole = _said(capsys, SILLY, "m")
    assert all(f"{n}. At {n} m" in whole for n in range(1, 11))


def test_a_short_one_is_told_whole_and_asks_nothing(capsys):
    said = _said(capsys, SILLY[:4], "")
    assert all(f"{n}. At {n} m" in said for n in range(1, 5))
    assert "more" not in said.replace("min more", "")


def test_what_can_hurt_is_always_among_the_first():
    decisions = [
        *SILLY,
        _made(11, 0.0, WEDGE),
        _made(12, 0.0, WEDGE),
        _made(13, 0.0, WEDGE),
        _made(14, 0, GAS),
    ]
    first = costliest(list(enumerate(decisions, 1)))
    assert {made.unsafe for _, made in first} >= {WEDGE, GAS}
