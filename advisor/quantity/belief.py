"""A value as far as it is known: exactly, within a range, or as chances of names."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.evidence import ASSUMED, TOLD, Evidence
from advisor.quantity.parse import Stated


@dataclass(frozen=True)
class Known:
    """One value in SI."""

    value: float
    evidence: Evidence

    @property
    def likely(self) -> float:
        """The value itself: every belief about a number has a likely one."""
        return self.value

    @property
    def low(self) -> float:
        """The value itself, and so is `high`: it has no other end."""
        return self.value

    @property
    def high(self) -> float:
        """The value itself."""
        return self.value


@dataclass(frozen=True)
class Estimate:
    """A value between `low` and `high`, most likely `likely`, all in SI."""

    low: float
    likely: float
    high: float
    evidence: Evidence

    def __post_init__(self) -> None:
        if not self.low <= self.likely <= self.high:
            raise ValueError(f"not in order: {self.low}, {self.likely}, {self.high}")


@dataclass(frozen=True)
class Chances:
    """What it may be, each with its share; the shares add up to one."""

    options: tuple[tuple[str, float], ...]
    evidence: Evidence

    @property
    def likeliest(self) -> str:
        """The name with the largest share."""
        return max(self.options, key=lambda option: option[1])[0]


Belief = Known | Estimate | Chances


def belief_of(stated: Stated, rough_share: float, evidence: Evidence = TOLD) -> Known | Estimate:
    """What a sheet's entry says; `rough_share` is how far an "about" may be off, as a share.

    What is only assumed is our judgement, whatever else is known of the sheet.
    """
    if stated.assumed:
        evidence = ASSUMED
    if stated.low == stated.high:
        if not stated.rough:
            return Known(stated.likely, evidence)
        slack = stated.likely * rough_share
        return Estimate(stated.likely - slack, stated.likely, stated.likely + slack, evidence)
    return Estimate(stated.low, stated.likely, stated.high, evidence)
