"""What was tried at a hard spot in pushes of the job: what wedged a head is no try there any more, what
passed comes first, and what failed last."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from advisor.kit.model import KitPart
from advisor.outcome.assess import RouteOutcome
from advisor.outcome.attempts import STEADY
from advisor.outcome.drawn import Drawn
from advisor.outcome.walk import HardSpot, walk_way
from advisor.result.spots import place_name
from advisor.rulebase.reader import Reader
from advisor.site.mouths import line_by, port_of


@dataclass(frozen=True)
class TriedBefore:
    """A technique that was tried at a hard spot, by its name, with gear of these parts, and whether it
    `passed` or `wedged` the head there; else it failed. `ports` are those of the opening that the rod may
    have gone by, `mouth` that of its channel where it is known, by the line that begins there; `push` is the
    entry that it began with.
    """

    opening: str
    ports: tuple[str, ...]
    mouth: str | None
    spot: str
    technique: str
    gear: frozenset[KitPart]
    passed: bool
    wedged: bool
    push: int


def by_tries(
    outcome: RouteOutcome, tried: Sequence[TriedBefore], reader: Reader, drawn: Drawn
) -> RouteOutcome:
    """The route as those tries have it. What wedged one gear is left out for all: where one wedged the next
    may. What passed or failed tells of the gear that it was tried with; a guide turns nothing.

    The even push stays first: no head comes to a spot without one.
    """
    route = outcome.route
    port, line = port_of(route.passages, drawn.tables), line_by(route.passages, drawn.tables)
    here = [t for t in tried if t.opening == route.opening.name and port in t.ports]
    here = [t for t in here if t.mouth in (None, line)]
    other = outcome.loadout.parts
    here = [t for t in here if t.technique != STEADY and (t.wedged or _alike(t.gear, other))]
    if not here:
        return outcome
    named = ((hard, place_name(hard, reader)) for hard in outcome.spots)
    spots = tuple(_by(hard, [t for t in here if t.spot == name]) for hard, name in named)
    if all(each is hard for each, hard in zip(spots, outcome.spots, strict=True)):
        return outcome
    return replace(outcome, spots=spots, walk=walk_way(outcome.way, spots, drawn))


def _alike(one: frozenset[KitPart], other: frozenset[KitPart]) -> bool:
    return bool(one) and all(kind == "guide" for kind, _ in one ^ other)


def _by(hard: HardSpot, here: Sequence[TriedBefore]) -> HardSpot:
    if not here:
        return hard
    wedged = frozenset(t.technique for t in here if t.wedged) & hard.tries.keys()
    # Where the head may run straight across, one that was told as passed may have done that.
    sure = not hard.spot.plain.crosses.any()
    passed = frozenset(t.technique for t in here if t.passed and sure) - wedged
    failed = frozenset(t.technique for t in here if not t.passed) - wedged - passed
    nowhere = np.zeros_like(hard.spot.plain.passes)
    made = replace(hard, wedged=wedged, passed=passed, failed=failed)
    left = [each for each in hard.order if each[0] not in wedged]
    # What passed is tried again, whatever the plan thought of it, where no rule forbids it.
    more = sorted(n for n in passed - dict(left).keys() if n in hard.tries and hard.chance(n).any())
    left += [(name, round(hard.spot.drawn.likely(f"tries, {name}"))) for name in more]
    return replace(
        made,
        allowed={**hard.allowed, **dict.fromkeys(wedged, nowhere)},
        order=tuple(sorted(left, key=lambda each: -1 if each[0] == STEADY else made.rank(each[0]))),
    )
