"""Roots that the lens has shown: what nobody may try there, whether or not the plan foresaw them."""

from __future__ import annotations

from advisor.outcome.attempts import STEADY
from advisor.practice import acts, signs
from advisor.practice.acts import State
from advisor.practice.truth import Truth
from advisor.practice.values import LEAVE
from advisor.rulebase.matrix import Cell
from advisor.tables.conditions import ROOTS


def barred(truth: Truth, state: State, technique: str) -> Cell | None:
    """Why a technique is none at the passage ahead; None where roots that were seen do not bar it.

    A string is drawn and the rod turned from the opening, through all that the head has passed.
    """
    if technique in (STEADY, LEAVE) or state.way is None:
        return None  # gently, as long as the roots part
    passed = technique in (acts.STRING, acts.TURN) and truth.roots_passed(state.way, state.index)
    if not passed and signs.view(truth, state) != ROOTS:
        return None
    cell = truth.study.base.matrix.cells[technique, ROOTS]
    return None if cell.allowed else cell
