"""The one line that moves: what the plan would say first, with what is known so far."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from advisor.ranking.score import score
from advisor.result.build import chance_words, verdict_words
from advisor.result.study import Study
from advisor.worlds.draws import Array


@dataclass(frozen=True)
class Standing:
    """A study, as far as the decision hangs on it: each way's minutes in each world, and declining.

    `costs` float[D, N] has one row for each ranked way and a last one for leaving the job undone; `kept`
    bool[N] are the worlds that the answers so far leave.
    """

    study: Study
    costs: Array
    kept: Array

    @property
    def leader(self) -> int:
        """The decision of least expected minutes: a row of `costs`."""
        return int(np.argmin(self.costs[:, self.kept].mean(axis=1)))

    @property
    def opening(self) -> str:
        """The opening that comes first; nothing where none is worth opening or no way leads there."""
        return self.study.ranked[0].outcome.route.opening.name if self.study.ranked else ""

    def words(self) -> str:
        """`first: yard cleanout, likely (0.71), about 40 min`, or what comes before any opening."""
        before = verdict_words(self.study)
        if before is not None:
            return before
        if not self.study.ranked:
            return "no opening leads there yet"
        ways = self.costs[:-1, self.kept].mean(axis=1)
        whole = [i for i, r in enumerate(self.study.ranked) if r.outcome.route.covers >= 1]
        # With every world kept the plan has its own order, in which the first may not be cheapest alone.
        best = whole[0] if whole and self.kept.all() else min(whole or range(len(ways)), key=ways.__getitem__)
        outcome = self.study.ranked[best].outcome
        chance = float(outcome.reached[self.kept].mean())
        minutes = float(outcome.walk.minutes[self.kept].mean())
        say = chance_words(self.study).say(chance)
        if chance < self.study.drawn.likely("least_chance"):
            # The quickest to fail is no best: that which reaches it most often is.
            reach = [float(self.study.ranked[i].outcome.reached[self.kept].mean()) for i in range(len(ways))]
            outcome = self.study.ranked[max(range(len(ways)), key=reach.__getitem__)].outcome
            say = chance_words(self.study).say(max(reach))
            return f"no opening is likely to reach it yet; best: {outcome.route.opening.name}, {say}"
        if self.leader == len(self.costs) - 1:
            return f"no opening is worth its minutes yet; best: {outcome.route.opening.name}, {say}"
        return f"first: {outcome.route.opening.name}, {say}, about {minutes:.0f} min"


def standing(study: Study) -> Standing:
    """What stands after a study, with all its worlds."""
    failing = study.tables.costs["failing"].likely
    rows = [score(ranked.outcome, study.tables) for ranked in study.ranked]
    costs = np.stack([*rows, np.full(study.worlds, failing, np.float32)])
    return Standing(study, costs, np.ones(study.worlds, bool))
