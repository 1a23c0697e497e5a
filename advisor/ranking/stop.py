"""When to give up on a hard spot: after how many tries switching costs less than one more.

Worked backwards over the tries of a spot. After j failures the worlds weigh w_j = w * survive * prod(1 - q):
what has failed was likely hard. One more try costs its minutes, and passes on to the rest of the way or to
the state after j + 1 failures; switching costs what the openings after this one cost in those worlds.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from advisor.worlds.draws import Array


@dataclass(frozen=True)
class Try:
    """One try in the order of a spot; arrays are float32[N]."""

    technique: str
    chance: Array
    minutes: Array
    lost: Array
    harm_minutes: Array


@dataclass(frozen=True)
class StopRule:
    """How many tries pay at a spot, with the expected minutes of each choice after each failure."""

    tries: int
    go_on: tuple[float, ...]
    switch: tuple[float, ...]
    chances: tuple[float, ...]  # of the next try, after the failures before it


def stop_rule(tries: Sequence[Try], weights: Array, beyond: Array, switch: Array, failing: float) -> StopRule:
    """The number of tries after which switching pays.

    `weights` are those of standing before the spot; `beyond` is the cost in minutes of the rest of the way
    once past it, `switch` that of everything after giving up here, both float32[N]; a lost head costs its
    harm and `failing`.
    """
    states = [weights]
    for each in tries:
        states.append(states[-1] * (1 - each.chance) * (1 - each.lost))
    switching = [_mean(switch, w) for w in states]
    chances = tuple(_mean(each.chance, w) for each, w in zip(tries, states, strict=False))
    value = switching[-1]
    going: list[float] = []
    stop_at = len(tries)
    for index in range(len(tries) - 1, -1, -1):
        each, w = tries[index], states[index]
        failed = (1 - each.chance) * each.lost
        left = _mean((1 - each.chance) * (1 - each.lost), w)
        once = each.minutes + each.chance * beyond + failed * failing + each.harm_minutes
        going.append(_mean(once, w) + left * value)
        if switching[index] <= going[-1]:
            value, stop_at = switching[index], index
        else:
            value = going[-1]
    return StopRule(stop_at, tuple(reversed(going)), tuple(switching[:-1]), chances)


def _mean(values: Array, weights: Array) -> float:
    total = float(weights.sum())
    return float((np.asarray(values) * weights).sum() / total) if total > 0 else float(np.mean(values))
