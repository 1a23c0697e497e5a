"""The head at one passage behind a given way in: what hangs on that alone, whatever lies beyond."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from advisor.kit.model import Besides, Loadout
from advisor.outcome.attempts import Attempt, attempts
from advisor.outcome.facts import Facts
from advisor.outcome.spot import Spot
from advisor.outcome.spot_facts import SpotFacts


@dataclass(frozen=True)
class Variant:
    """One thing that the fitting of a spot may be; `where` is the worlds in which it is (None: in all)."""

    name: str
    share: float
    where: NDArray[np.bool_] | None
    facts: Facts


@dataclass(frozen=True)
class Meeting:
    """A spot with its tries and facts; both are worked out when a hard spot asks for them."""

    spot: Spot
    besides: Besides
    loadout: Loadout

    @cached_property
    def tries(self) -> dict[str, Attempt]:
        """Every technique that is a try, whether or not a rule allows it."""
        return attempts(self.spot)

    @cached_property
    def variants(self) -> tuple[Variant, ...]:
        """What the fitting may be, with what the rules are told of it."""
        told = SpotFacts(self.spot, self.besides, self.loadout)
        passage = self.spot.shape.passage
        if passage.piece.fitting is None or passage.step is not None:
            name = passage.step.kind if passage.step else passage.piece.name
            return (Variant(name, 1.0, None, told.of(name, None)),)
        names, choice = self.spot.drawn.variant(passage.piece)
        found = []
        # A rarer fitting changes no advice and costs a whole pass of the rules.
        least = self.spot.drawn.likely("least_variant")
        for index, name in enumerate(names):
            where = choice == index
            share = float(where.mean())
            if share >= least or len(names) == 1:
                mask = None if share == 1.0 else where
                found.append(Variant(name, share, mask, told.of(name, mask)))
        return tuple(found)
