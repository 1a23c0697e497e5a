"""Finds of a report that nothing may be sent through, and the places that the pushes told behind them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from advisor.push.log.kinds import FIND
from advisor.push.log.went_in import Reading
from advisor.push.now.seen import Run
from advisor.push.report.advice import Advice
from advisor.push.report.marks import Spot


@dataclass(frozen=True)
class Barred:
    """`always` is told before all advice; `behind` are the numbers of such finds that lie on the way to the
    place of an entry, by the entry's own."""

    always: tuple[str, ...]
    behind: Mapping[int, tuple[int, ...]]
    says: str

    def first(self, entry: int) -> str:
        """What comes before anything that is sent to the place of that entry."""
        return self.says.format(finds=_numbers(self.behind[entry])) if entry in self.behind else ""


def barred_by(
    found: Iterable[Spot], runs: Iterable[Run], readings: Mapping[int, Reading], advice: Advice
) -> Barred:
    """All of it, by how far in from one opening, the same way, each was read; what is at one place counts."""
    run_of = {entry.number: run for run in runs for entry in run.entries}
    bars = {spot.entry: spot.number for spot in found if spot.kind == FIND and _bars(spot, advice)}
    behind: dict[int, tuple[int, ...]] = {}
    for number, reading in readings.items():
        before = (
            find
            for bar, find in bars.items()
            if bar != number
            and bar in readings
            and _one_way(run_of.get(bar), run_of.get(number))
            and readings[bar].inside <= reading.inside + advice.same_place
        )
        if finds := tuple(before):
            behind[number] = finds
    row = advice.finds.barred
    always = (row.always.format(finds=_numbers(bars.values())),) if bars else ()
    return Barred(always, behind, row.first)


def _bars(spot: Spot, advice: Advice) -> bool:
    """Whether nothing may, a cutter neither: what a cutter takes away is advised to be cut."""
    return any(not row.till_cleared for row in advice.finds.that_bar(spot.words, spot.open_past))


def _one_way(one: Run | None, other: Run | None) -> bool:
    """Whether both went in by one opening and may have gone the same way."""
    if one is None or other is None or one.opening != other.opening:
        return False
    return not set(one.ports).isdisjoint(other.ports)


def _numbers(finds: Iterable[int]) -> str:
    return " and ".join(f"no. {number}" for number in dict.fromkeys(finds))
