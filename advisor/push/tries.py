"""A try that is proposed beside the opening."""

from __future__ import annotations

from dataclasses import dataclass

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


def steps_with_rod_in(technique: str, steps: tuple[str, ...], table: StuckFile) -> tuple[str, ...]:
    """The steps of a technique where the rod is in the pipe: what goes on outside takes it out first."""
    row = table.rigged_outside
    return (row.do, *steps) if technique in row.techniques else steps
