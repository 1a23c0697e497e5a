"""Orders in which openings may be tried: the planner's, rules of thumb, and the best for one who knows."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import combinations

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.ranking.settle import Settled
from advisor.tables.load import Tables
from tests.bench.simulation.attempt import Happened
from tests.bench.simulation.truth import Numbers

MOST = 4  # openings
LEVEL = ("pipe", "belly")
PLANNER, ORACLE = "planner", "one who knows the truth"


def candidates(settled: Settled) -> list[RouteOutcome]:
    """Ways in that show the whole target and that nothing known shuts, with the plan's gear and tries."""
    return [
        each.outcome
        for each in settled.ranked
        if each.outcome.route.covers >= 1 and not each.outcome.way.closed and _may_open(each.outcome)
    ]


def _may_open(outcome: RouteOutcome) -> bool:
    hole = outcome.route.opening.hole
    return hole is not None and hole.opens is not False


def rules_of_thumb(tables: Tables) -> dict[str, Callable[[RouteOutcome], float]]:
    """What each rule sorts by, smallest first."""

    def to_open(outcome: RouteOutcome) -> float:
        hole = outcome.route.opening.hole
        assert hole is not None
        digging = tables.costs["dig_up"].likely if hole.buried else 0.0
        return tables.openings[hole.kind].open_minutes.likely + digging

    return {
        "nearest first": lambda o: _metres(o, LEVEL),
        "largest pipe first": lambda o: -o.route.opening.wall.nominal.value,
        "easiest to open first": to_open,
        "shortest route first": lambda o: _metres(o, (*LEVEL, "drop", "rise")),
    }


def _metres(outcome: RouteOutcome, kinds: Sequence[str]) -> float:
    pieces = (p.piece for p in outcome.route.passages if p.piece.kind in kinds)
    return sum(piece.length.likely for piece in pieces if piece.length is not None)


def by_rule(among: Sequence[RouteOutcome], key: Callable[[RouteOutcome], float]) -> list[int]:
    """Places in `among` in the order of a rule; the nearer one where it is a draw."""

    def place(i: int) -> tuple[float, float, str]:
        return key(among[i]), _metres(among[i], LEVEL), among[i].route.id

    return sorted(range(len(among)), key=place)[:MOST]


def planned(among: Sequence[RouteOutcome], settled: Settled) -> list[int]:
    """Places in `among` in the planner's order."""
    ids = [each.route.id for each in among]
    return [ids.index(name) for name in settled.order.names]


def knowing(happened: Sequence[Happened], failing: float, world: int) -> list[int]:
    """The best order of up to four for one who sees a world's chances, though not its luck.

    There the attempts are independent, so a set of them is best tried by rising
    (minutes - failing x chance)/(chance + loss), by exchange of neighbours; all sets are looked through.
    """
    worth = [h.expected_minutes[world] - failing * h.chance[world] for h in happened]
    leaves = [h.chance[world] + h.loss[world] for h in happened]
    useful = sorted((i for i, w in enumerate(worth) if w < 0), key=lambda i: worth[i] / leaves[i])
    best: tuple[float, list[int]] = (0.0, [])
    for size in range(1, min(MOST, len(useful)) + 1):
        for chosen in combinations(useful, size):
            total, going = 0.0, 1.0
            for i in chosen:
                total += going * worth[i]
                going *= 1 - leaves[i]
            best = min(best, (total, list(chosen)))
    return best[1]


def follow(order: Sequence[int], happened: Sequence[Happened], failing: float) -> tuple[Numbers, Numbers]:
    """Minutes and whether it was seen, in each world, when openings are tried in this order."""
    count = len(happened[0].seen) if happened else 0
    going, minutes, seen = np.ones(count, bool), np.zeros(count), np.zeros(count, bool)
    for i in order:
        minutes = minutes + going * happened[i].minutes
        seen = seen | (going & happened[i].seen)
        going = going & ~happened[i].seen & ~happened[i].lost
    return minutes + ~seen * failing, seen.astype(float)
