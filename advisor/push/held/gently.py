"""What the hand feels comes before any try: no force first at a hard stop, none when held both ways."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from advisor.push.now.tries import NextTry
from advisor.rulebase.matrix import Matrix
from advisor.tables.stuck import GentleStep, StuckFile
from advisor.tables.where import number


def held_both_ways(table: StuckFile, signs: frozenset[str]) -> bool:
    """Whether it is to be freed before anything is tried."""
    return not signs.isdisjoint(table.free_first.signs)


def first_steps(
    table: StuckFile,
    signs: frozenset[str],
    causes: Sequence[str],
    barred: Collection[str],
    spent: Collection[str] = (),
) -> tuple[GentleStep, ...]:
    """What comes before any try where it feels hard, and at likely `causes` or where none is; no `barred`
    technique. What is `spent` as a try goes from those alone: in drawing back a turn may still loosen it."""
    hard = not signs.isdisjoint(table.gentle_first.signs)
    gentle = tuple(step for step in table.gentle_first.steps if hard and step.technique not in spent)
    if not hard and not causes:
        gentle = table.not_clear
    steps = (*gentle, *(step for cause in causes for step in table.first.get(cause, ())))
    return tuple(step for step in steps if step.technique not in barred)


def in_the_pipe(step: GentleStep, at: float) -> str:
    """A step in words that leave a head which is `at` m in in the pipe."""
    out = step.draws is not None and at <= number(step.draws)
    return step.nearer if out else step.do


def blows_that_harm(
    table: StuckFile, signs: frozenset[str], chances: Mapping[str, float], matrix: Matrix
) -> tuple[tuple[str, str], ...]:
    """Blows that more likely than not do harm at a hard stop, with the reason; `chances` by trouble."""
    row = table.gentle_first
    if signs.isdisjoint(row.signs):
        return ()
    found = []
    for blow in row.blows:
        harmed = {t: chance for t, chance in chances.items() if not matrix.cells[blow, t].allowed}
        if sum(harmed.values()) >= number(table.tell.likely):
            found.append((blow, matrix.cells[blow, max(harmed, key=lambda t: harmed[t])].why))
    return tuple(found)


def blows_last(table: StuckFile, signs: frozenset[str], tries: Sequence[NextTry]) -> tuple[NextTry, ...]:
    """The tries in their order; at a hard stop every gentle one comes before the first blow."""
    row = table.gentle_first
    if signs.isdisjoint(row.signs):
        return tuple(tries)
    return tuple(sorted(tries, key=lambda each: each.technique in row.blows))
