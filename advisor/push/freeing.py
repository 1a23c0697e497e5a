"""What must not be done to free a held head: what the causes that are told and the rod's plight forbid."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from advisor.outcome.attempts import NO_TRY, STEADY, TECHNIQUES
from advisor.push.causes import Cause
from advisor.push.plight import Plight
from advisor.quantity import show_reading
from advisor.result.study import Study
from advisor.tables.conditions import ROOTS
from advisor.tables.stuck import WayRow

TURN, STRING, WATER = "turn the rod", "string", "water"


def harmful(named: Sequence[Cause], both_ways: bool, plight: Plight, study: Study) -> dict[str, str]:
    """Each technique that no step of the way out may be made of, with the reason; a push in is the steady.

    `named` are the causes that are told: nothing is said that contradicts one of them on the same screen.
    """
    table, matrix = study.tables.stuck, study.base.matrix
    troubles = [cause.trouble for cause in named] + ([ROOTS] if plight.roots else [])
    found: dict[str, str] = {TURN: table.kinked.stop} if plight.kinked else {}
    for trouble in troubles:
        for technique in (STEADY, TURN, STRING, WATER):
            cell = matrix.cells[technique, trouble]
            if not cell.allowed:
                found.setdefault(technique, cell.why)
    if both_ways or plight.kinked or plight.roots or any(c.name in table.no_push_in for c in named):
        found.setdefault(STEADY, table.free_first.stop)
    return found


def barred_behind(plight: Plight, study: Study) -> tuple[tuple[str, str], ...]:
    """What may not be tried at a head whose rod lies through roots, with the reason."""
    if not plight.roots:
        return ()
    lies = study.tables.stuck.rod_in_roots.why.format(reading=show_reading(plight.roots[-1], study.units))
    cells = ((name, study.base.matrix.cells[name, ROOTS]) for name in TECHNIQUES if name not in NO_TRY)
    return tuple((name, f"{lies} {cell.why}") for name, cell in cells if not cell.allowed)


def first_that_fits(rows: Sequence[WayRow], barred: Mapping[str, str]) -> str:
    """The first of some steps that is made of nothing barred."""
    return next(row.do for row in rows if not set(row.uses) & set(barred))
