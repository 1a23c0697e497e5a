"""What the hand feels comes before any try: no force first at a hard stop, none when held both ways."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from advisor.push.tries import NextTry
from advisor.rulebase.matrix import Matrix
from advisor.tables.stuck import StuckFile
from advisor.tables.where import number


def held_both_ways(table: StuckFile, signs: frozenset[str]) -> bool:
    """Whether it is to be freed before anything is tried."""
    return not signs.isdisjoint(table.free_first.signs)


def gentle_steps(table: StuckFile, signs: frozenset[str], barred: Collection[str]) -> tuple[str, ...]:
    """What comes first where it feels hard, without what a `barred` technique would be."""
    row = table.gentle_first
    if signs.isdisjoint(row.signs):
        return ()
    return tuple(step.do for step in row.steps if step.technique not in barred)


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
