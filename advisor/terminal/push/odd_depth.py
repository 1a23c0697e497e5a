"""A depth that was read above the head and can hardly be that of a drain."""

from __future__ import annotations

from advisor.push.now.now import Now
from advisor.push.track.depth import expected_depth, hardly
from advisor.quantity import Dimension, show, show_tape
from advisor.tables.where import number


def odd_depth(now: Now, read: float) -> str | None:
    """What is odd in a depth, m, that was read above the head; None where it may be so."""
    study, best = now.push.study, now.fix.best
    row = study.tables.where.depth
    expected = expected_depth(study.network, now.push.opening.name, best.line, best.at)
    if not hardly(read, expected, row):
        return None
    told, deepest = show_tape(read, study.units), show(number(row.deepest), Dimension.LENGTH, study.units)
    if expected is None:
        return f"{told} deep: hardly a drain lies deeper than {deepest}."
    by_sheet = show(expected.value, Dimension.LENGTH, study.units) + expected.assumed_words(study.units)
    return f"{told} deep, and by the sheet it should be about {by_sheet}."
