"""A try that is proposed beside the opening."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class NextTry:
    """A technique that is worth a try, its chance now (nan: none is claimed), and the tries that are left."""

    technique: str
    chance: float
    left: int
    minutes: float
    steps: tuple[str, ...]
    because: str
