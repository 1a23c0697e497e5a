"""The end of a machine run from this opening that lies ahead: what stopped the machine may be there still."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from advisor.push.log.kinds import DOWN, UP
from advisor.push.log.log import entry_number
from advisor.push.log.machine_run import ran_from, ran_past
from advisor.push.now.now import Now
from advisor.tables.where import number


@dataclass(frozen=True)
class MachineEnd:
    """At which readings it is, m; `slow_from` so far before it that one goes slowly; the day, if known."""

    low: float
    high: float
    slow_from: float
    when: str | None


def machine_end(now: Now) -> MachineEnd | None:
    """The nearest one ahead. A machine's cable counts from its opening, as the rod does; one that was run
    from another opening, or from nobody knows where, has no reading here."""
    ahead = [
        (now.counted(low), now.counted(high), when)
        for low, high, when in _ends(now)
        if high - now.belief.rod >= now.push.tracker.chart.cell
    ]
    if not ahead:
        return None
    low, high, when = min(ahead, key=lambda end: end[0])
    return MachineEnd(low, high, low - number(now.push.study.tables.where.sure.warn_before), when)


def _ends(now: Now) -> Iterator[tuple[float, float, str | None]]:
    """How far in each run ended, m, and when it was."""
    run = now.push.study.circumstances.machine_run
    if run is not None and run.to is not None and run.in_at == now.push.opening.name:
        yield run.to.low, run.to.high, run.on
    began, where = now.push.began, now.push.study.tables.where
    runs = [
        (entry, to)
        for each in (*now.before, now)
        for entry in each.entries
        if ran_from(entry, now.push.opening.name) and (to := entry_number(entry, "to")) is not None
    ]
    for place, (entry, to) in enumerate(runs):
        other_way = {entry.data.get("direction"), now.push.direction} == {DOWN, UP}
        # What stopped it is gone where a later one came past it.
        if not other_way and not any(ran_past(later, began, to, where) for later, _ in runs[place + 1 :]):
            yield to, to, entry.happened_at.date().isoformat()
