"""Progress: regret in minutes over time, one mark a try, and how sure a few tries can make anybody."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from advisor.practice.marks import Marks
from advisor.practice.review import Review, of_skill

MARKS = ((1.0, "."), (5.0, ":"), (15.0, "o"), (60.0, "O"), (float("inf"), "#"))
LEGEND = ". under 1 min   : under 5   o under 15   O under an hour   # more   ! unsafe"
SHOWN = 40
SURE = 2.0  # standard errors: the usual bound of statistics


@dataclass(frozen=True)
class Standing:
    """One skill in figures: regrets in minutes; `gain` is first half less last half, None where too few."""

    skill: str
    tries: int
    cases: int
    unsafe: int
    mean: float
    gain: float | None
    gain_doubt: float | None

    @property
    def words(self) -> str:
        """What may be said of it."""
        if not self.tries:
            return "not tried yet"
        if self.gain is None or self.gain_doubt is None:
            return f"{self.tries} {'try' if self.tries == 1 else 'tries'}: too few to tell"
        if abs(self.gain) <= self.gain_doubt:
            return "no change that the tries can show"
        return f"{abs(self.gain):.0f} min {'less' if self.gain > 0 else 'more'} a drill than at first"


def chart(reviews: Sequence[Review]) -> str:
    """One mark for each of the last tries of one skill, oldest first."""
    return "".join(mark(review) for review in reviews[-SHOWN:])


def mark(review: Review) -> str:
    """One try as one sign."""
    return "!" if review.unsafe else next(sign for under, sign in MARKS if review.regret < under)


def standing(reviews: Sequence[Review], skill: str, marks: Marks) -> Standing:
    """The figures of one skill. Half against half, two standard errors of the difference as doubt."""
    own = of_skill(reviews, skill)
    regrets = [review.regret for review in own]
    mean = sum(regrets) / len(regrets) if regrets else 0.0
    cases, unsafe = len({review.seed for review in own}), sum(review.unsafe for review in own)
    if len(own) < marks.tries_compared:
        return Standing(skill, len(own), cases, unsafe, mean, None, None)
    half = len(own) // 2
    first, last = regrets[:half], regrets[-half:]
    doubt = SURE * sqrt(_variance(first) / half + _variance(last) / half)
    return Standing(skill, len(own), cases, unsafe, mean, sum(first) / half - sum(last) / half, doubt)


def _variance(values: Sequence[float]) -> float:
    mean = sum(values) / len(values)
    return sum((value - mean) ** 2 for value in values) / (len(values) - 1)
