"""What wedged a head in a push of the job: from that opening it is no try at that spot any more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.outcome.attempts import STEADY
from advisor.outcome.drawn import Drawn
from advisor.outcome.walk import HardSpot, walk_way
from advisor.result.spots import place_name
from advisor.rulebase.reader import Reader


@dataclass(frozen=True)
class Wedged:
    """A technique that wedged the head at a hard spot, by its name; `ports` are those of the opening that the
    rod may have gone by.
    """

    opening: str
    ports: tuple[str, ...]
    spot: str
    technique: str


def without_wedges(
    outcome: RouteOutcome, wedged: Sequence[Wedged], reader: Reader, drawn: Drawn
) -> RouteOutcome:
    """The route without these, whatever gear goes in: where one wedged the next may.

    The even push stays: no head comes to a spot without one.
    """
    route = outcome.route
    here = [w for w in wedged if w.opening == route.opening.name and route.passages[0].leaves in w.ports]
    if not here:
        return outcome
    spots = tuple(_without(hard, here, place_name(hard, reader)) for hard in outcome.spots)
    if not any(each.wedged for each in spots):
        return outcome
    return replace(outcome, spots=spots, walk=walk_way(outcome.way, spots, drawn))


def _without(hard: HardSpot, here: Sequence[Wedged], name: str) -> HardSpot:
    gone = frozenset(w.technique for w in here if w.spot == name and w.technique != STEADY)
    gone &= hard.tries.keys()
    if not gone:
        return hard
    nowhere = np.zeros_like(hard.spot.plain.passes)
    return replace(
        hard,
        allowed={**hard.allowed, **dict.fromkeys(gone, nowhere)},
        order=tuple(each for each in hard.order if each[0] not in gone),
        wedged=gone,
    )
