"""The one line that moves: what the plan would say first, with what is known so far."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from advisor.explain.met import without_ended
from advisor.result.build import verdict_words
from advisor.result.chances import chance_words
from advisor.result.decisions import decisions
from advisor.result.study import Study
from advisor.result.way_model import FoundNote
from advisor.worlds.draws import Array


@dataclass(frozen=True)
class Standing:
    """A study, as far as the decision hangs on it: each way's minutes in each world, and declining.

    `costs` float[D, N] has one row for each ranked way and a last one for leaving the job undone. `ended` is
    whether a push of the job met something at which every way ends; `seen` that pushes saw all of it.
    """

    study: Study
    costs: Array
    ended: bool = False
    seen: tuple[str, ...] = ()

    @property
    def leader(self) -> int:
        """The decision of least expected minutes: a row of `costs`."""
        return int(np.argmin(self.costs.mean(axis=1)))

    @property
    def opening(self) -> str:
        """The opening that comes first; nothing where none is worth opening or no way leads there."""
        return self.study.ranked[0].outcome.route.opening.name if self.study.ranked else ""

    @property
    def whole(self) -> list[int]:
        """The rows of the ways that show all that is to be seen."""
        if self.study.part is not None:
            return []
        return [i for i, ranked in enumerate(self.study.ranked) if ranked.outcome.route.covers >= 1]

    @property
    def nowhere(self) -> bool:
        """True where no opening is worth its minutes for all that is to be seen, or likely to show it."""
        best = self._cheapest(self.whole)
        if best is None or self._minutes(best) >= self._minutes(len(self.costs) - 1):
            return True
        return self._chance(best) < self.study.drawn.likely("least_chance")

    @property
    def unlikely(self) -> bool:
        """True where the best way in that shows all that is to be seen is told as unlikely to."""
        best = self._cheapest(self.whole)
        return best is None or self._chance(best) <= chance_words(self.study).unlikely

    def words(self) -> str:
        """`go in first at yard cleanout, likely (0.71), about 40 min`, or what comes before any opening.

        What was seen whole is told first, as the plan tells it.
        """
        before = verdict_words(self.study)
        if before is not None:
            return before
        leads = self._leads()
        return " ".join((*self.seen, leads[:1].upper() + leads[1:])) if self.seen else leads

    def _leads(self) -> str:
        if not self.study.ranked:
            return "every way ends at what a push met" if self.ended else "no opening leads there yet"
        first, part = self.study.ranked[0].outcome, self.study.part
        if first.shut:  # they stand last
            return "no opening can be used yet"
        name, chance = first.route.opening.name, self._chance(0)
        covers = first.route.covers * (part.covers if part else 1.0)
        shows = "" if covers >= 1 else f"; that shows {covers:.0%} of what is to be seen"
        said = f"{name}, {chance_words(self.study).say(chance)}"
        if self.study.settled.attempts:
            return f"go in first at {said}, about {first.walk.minutes.mean():.0f} min{shows}"
        likely = chance >= self.study.drawn.likely("least_chance")
        why = "worth its minutes" if likely else "likely to reach it"
        return f"no opening is {why} yet; best: {said}{shows}"

    def _minutes(self, row: int) -> float:
        return float(self.costs[row].mean())

    def _chance(self, way: int) -> float:
        """Of showing what this way shows, be it all or a part."""
        return float(self.study.ranked[way].outcome.walk.arrived.mean())

    def _cheapest(self, rows: list[int]) -> int | None:
        return min(rows, key=self._minutes, default=None)


def standing(study: Study, found: Sequence[FoundNote] = (), seen: tuple[str, ...] = ()) -> Standing:
    """What stands after a study, with all its worlds, and what pushes of the job `found` and saw whole."""
    left = without_ended(study, found)
    return Standing(left, decisions(left), bool(study.ranked) and not left.ranked, seen)
