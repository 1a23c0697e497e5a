"""Chances of techniques learned from tries: the book value weighed as if it were some tries of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from advisor.push.learn.taught import Try

HALVINGS = 60


@dataclass(frozen=True)
class Pair:
    """What was learned of one technique in one class of fitting."""

    technique: str
    way: str
    tries: int
    passed: int
    book: float  # mean of what the plan had said
    learned: float  # the same once shifted
    low: float  # 80 of 100 lie between
    high: float
    shift: float  # on the logit


def pairs_of(tries: Sequence[Try], weight: float, surest: float) -> tuple[Pair, ...]:
    """What the tries teach, by technique and fitting; `weight` is how many tries the book is worth.

    No chance of the book is taken as nearer to 0 or 1 than `surest`.
    """
    groups: dict[tuple[str, str], list[Try]] = {}
    for each in tries:
        groups.setdefault((each.technique, each.way), []).append(each)
    return tuple(_pair(*key, groups[key], weight, surest) for key in sorted(groups))


def _pair(technique: str, way: str, tries: list[Try], weight: float, surest: float) -> Pair:
    book = np.clip([each.book for each in tries], surest, 1 - surest)
    passed, n = sum(each.passed for each in tries), len(tries)
    shift = shift_of(book, passed, weight)
    mean = float(book.mean())
    low, high = beta_interval(weight * mean + passed, weight * (1 - mean) + n - passed, 0.8)
    return Pair(technique, way, n, passed, mean, float(_shifted(book, shift).mean()), low, high, shift)


def shift_of(book: np.ndarray[tuple[int], np.dtype[np.float64]], passed: int, weight: float) -> float:
    """The shift of the logit at which passes expected equal passes seen, the book counted as `weight` tries.

    sum(passed_i - p_i) + weight/n sum(book_i - p_i) = 0 with logit p_i = logit book_i + shift; for one book
    value m, p = (weight m + k)/(weight + n). It is kept so small that no chance moves by more than
    n/(n + weight): a shift d moves none by more than tanh(d/4), so one outcome moves none by more than
    1/(1 + weight).
    """
    n = len(book)
    most = 4 * float(np.arctanh(n / (n + weight)))
    low, high = -most, most
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        p = _shifted(book, middle)
        more = passed - p.sum() + weight / n * (book - p).sum() > 0
        low, high = (middle, high) if more else (low, middle)
    return (low + high) / 2


def log_score(tries: Sequence[Try], pairs: Sequence[Pair], surest: float) -> float:
    """Minus the log of the chance that was given to what happened, summed; lower is better."""
    shifts = {(pair.technique, pair.way): pair.shift for pair in pairs}
    total = 0.0
    for each in tries:
        book = np.clip(each.book, surest, 1 - surest)
        chance = float(_shifted(book, shifts.get((each.technique, each.way), 0.0)))
        total -= float(np.log(chance if each.passed else 1 - chance))
    return total


def beta_interval(a: float, b: float, share: float) -> tuple[float, float]:
    """The middle `share` of a beta distribution.

    Summed over the logit, where its density x^a (1-x)^b has no poles. Compared with scipy in the tests.
    """
    t = np.linspace(-200, 200, 40001)
    log_density = -a * np.logaddexp(0, -t) - b * np.logaddexp(0, t)
    total = np.cumsum(np.exp(log_density - log_density.max()))
    low, high = np.interp([(1 - share) / 2, (1 + share) / 2], total / total[-1], t)
    return float(1 / (1 + np.exp(-low))), float(1 / (1 + np.exp(-high)))


def _shifted(
    chance: np.ndarray[tuple[int], np.dtype[np.float64]], shift: float
) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    odds = chance / (1 - chance) * np.exp(shift)
    return np.asarray(odds / (1 + odds), np.float64)
