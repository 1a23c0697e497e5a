"""How answers are marked, by rules/tables/limits.yaml: what gets full marks, what none, what is passed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from advisor.quantity import MINUTE
from advisor.rulebase.rule import Caution
from advisor.tables.load import Tables


class Judged(Protocol):
    """A choice against the best: minutes over it, how far the drawn worlds leave that open, and its harm."""

    @property
    def regret(self) -> float:
        """Minutes over the best."""

    @property
    def doubt(self) -> float:
        """Minutes by which that may be off."""

    @property
    def unsafe(self) -> Caution | None:
        """What it can do to somebody or to the head."""


@dataclass(frozen=True)
class Marks:
    """The bounds of the marks; minutes, and shares of full marks."""

    full_within: float
    nothing_from: float
    push_drills: float
    passed_from: float
    back_below: float
    step_cases: int
    recall: float
    longest_away: int  # days
    tries_compared: int

    def full(self, made: Judged) -> bool:
        """True where it is as good as the best as far as the model can tell."""
        return not made.unsafe and made.regret <= max(self.full_within, made.doubt)

    def credit(self, made: Judged) -> float:
        """1 for the best and its like, falling to 0 where too much is lost; 0 where it is unsafe."""
        if made.unsafe:
            return 0.0
        return 1.0 if self.full(made) else max(0.0, 1.0 - made.regret / self.nothing_from)

    def passed(self, credit: float, unsafe: bool) -> bool:
        """Good enough to count as known, and nothing unsafe."""
        return not unsafe and credit >= self.passed_from


def marks_of(tables: Tables) -> Marks:
    """The marks as the tables have them."""

    def likely(name: str) -> float:
        return tables.limits[name].likely

    return Marks(
        likely("full_within") / MINUTE,
        likely("nothing_from") / MINUTE,
        likely("push_drills"),
        likely("passed_from"),
        likely("back_below"),
        round(likely("step_cases")),
        likely("recall"),
        round(likely("longest_away")),
        round(likely("tries_compared")),
    )
