"""Where no answer pays by itself but several together could still change the leader.

The minutes between the leader and a rival, over the worlds, have a mean and a part of their spread that each
question would settle: the spread between the answers' groups, less what grouping at random would show (omega
squared: Hays 1963, Statistics for Psychologists), where that stands clear of chance. With all answers known
that mean would have moved by the sum of those parts, taken as normal; the chance that it ends on the rival's
side, and the minutes gained by then following the rival, are those of the unit normal (Raiffa & Schlaifer
1961, Applied Statistical Decision Theory, the unit normal loss). What it takes to find out is not taken off
here: an answer is taken as it comes, and don't know is one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import erfc, exp, pi, sqrt

import numpy as np
from numpy.typing import NDArray

from advisor.interview.ask import Ask
from advisor.interview.bears import Bearing, on_its_ways
from advisor.interview.openings import best_or_sooner
from advisor.interview.subject import Groups
from advisor.worlds.draws import Array

# Spreads above chance from which a question is taken to settle something, our judgement: of a chi square with
# one degree of freedom one draw in 45 lies further out.
CLEAR = 3.0


@dataclass(frozen=True)
class Least:
    """What makes a question worth asking: a chance that the leader changes, and minutes gained by it."""

    chance: float
    minutes: float

    def met(self, chance: float, minutes: float) -> bool:
        """True where both are reached."""
        return chance >= self.chance and minutes >= self.minutes


@dataclass(frozen=True)
class Doubt:
    """How likely a rival overtakes the leader once everything is answered, and the minutes gained by it."""

    chance: float
    minutes: float


def doubt(behind: float, spread: float) -> Doubt:
    """A rival `behind` the leader by so many minutes; the answers could move it by `spread` (one sigma)."""
    if spread <= 0:
        return Doubt(0.0, 0.0)
    u = behind / spread
    beyond = erfc(u / sqrt(2)) / 2
    return Doubt(beyond, spread * (exp(-u * u / 2) / sqrt(2 * pi) - u * beyond))


def most_moving(
    asks: Sequence[tuple[Ask, Groups]], costs: Array, least: Least, bears: Bearing | None = None
) -> Ask | None:
    """The question that moves the likeliest rival most, or one nearly as good about what opens sooner.

    Nothing where none could overtake by the least.

    `costs` float[D, N] are the minutes of each decision in each world, the groups intp[N] the answers there;
    `bears` bool[A, D], on which decisions a question can bear: without it on all.
    """
    if not asks:
        return None
    means = costs.mean(axis=1)
    leader = int(np.argmin(means))
    apart = np.asarray(costs - costs[leader], float)
    parts = np.stack([ask.knows * settled(groups, apart) for ask, groups in asks])
    parts = on_its_ways(parts, bears, leader)
    behind, spreads = means - means[leader], np.sqrt(parts.sum(axis=0))
    doubts = {d: doubt(float(behind[d]), float(spreads[d])) for d in range(len(means)) if d != leader}
    rivals = [d for d, each in doubts.items() if least.met(each.chance, each.minutes)]
    rivals.sort(key=lambda d: -doubts[d].chance)
    found = []
    for d in rivals:
        moved = [(sqrt(part), ask) for part, (ask, _) in zip(parts[:, d], asks, strict=True)]
        moved.sort(key=lambda each: (-each[0], each[1].key))
        found.append((doubts[d].minutes, best_or_sooner(moved)))
    return best_or_sooner(found) if found else None


def settled(groups: Groups, values: NDArray[np.float64]) -> NDArray[np.float64]:
    """The part of each row's variance (minutes squared) that knowing the group would settle.

    Nothing where it does not stand CLEAR spreads above what grouping at random would show: of many questions
    on which nothing hangs some would score by luck. `values` float[D, N].
    """
    sizes = np.bincount(groups)
    sizes, n = sizes[sizes > 0], values.shape[1]
    if len(sizes) in (1, n):
        return np.zeros(len(values))
    sums = np.stack([np.bincount(groups, weights=row) for row in values])[:, np.bincount(groups) > 0]
    grand = values.mean(axis=1, keepdims=True)
    between = (sizes * (sums / sizes - grand) ** 2).sum(axis=1)
    within = (((values - grand) ** 2).sum(axis=1) - between) / (n - len(sizes))
    free = len(sizes) - 1
    part: NDArray[np.float64] = (between - free * within) / n
    # At random `between` spreads as chi square with `free` degrees of freedom does, times `within`.
    part[part * n <= CLEAR * sqrt(2 * free) * within] = 0.0
    return part
