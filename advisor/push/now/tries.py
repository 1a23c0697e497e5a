"""A try that is proposed beside the opening."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import isnan

from advisor.tables.stuck import StuckFile


@dataclass(frozen=True)
class NextTry:
    """A technique that is worth a try, its chance now (nan: none is claimed), and the tries that are left."""

    technique: str
    chance: float
    left: int
    minutes: float
    steps: tuple[str, ...]
    because: str
    before: str = ""  # what came of it here before; then no chance is claimed
    after_one: bool = False  # whether one has failed here, after which the chance is another
    by_signs: bool = False  # whether what was told of what holds it makes its chance another than the plan's

    def told(self, say: Callable[[float], str]) -> str:
        """Its chance in words, or what came of it here before; nothing where nothing is claimed."""
        by = " by what was told here" if self.by_signs else ""
        by = " after what failed here" if self.after_one else by
        return self.before if isnan(self.chance) else f"{say(self.chance)} a try{by}"


def steps_with_rod_in(technique: str, steps: tuple[str, ...], table: StuckFile) -> tuple[str, ...]:
    """The steps of a technique where the rod is in the pipe: what goes on outside takes it out first."""
    row = table.rigged_outside
    return (row.do, *steps) if technique in row.techniques else steps
