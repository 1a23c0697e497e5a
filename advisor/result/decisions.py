"""What can be decided, and the minutes that each costs: every way in, and leaving the job undone."""

from __future__ import annotations

import numpy as np

from advisor.ranking.part import ends_job
from advisor.ranking.score import minutes_with, score
from advisor.result.study import Study
from advisor.worlds.draws import Array


def decisions(study: Study) -> Array:
    """Minutes float32[D, N]: a row for each ranked way, and the last for leaving the job undone.

    A way that shows a part counts by what the part may hold of the trouble, as in the plan: only where no
    way is worth its minutes for all that is to be seen.
    """
    tables = study.tables
    if study.settled.attempts and study.part is None:
        rows = [score(ranked.outcome, tables) for ranked in study.ranked]
    else:
        rows = [
            minutes_with(
                ranked.outcome,
                ends_job(ranked.outcome, study.target, study.wanted, study.suspects, study.network),
                tables,
            )
            for ranked in study.ranked
        ]
    failing = tables.costs["failing"].likely
    return np.stack([*rows, np.full(study.worlds, failing, np.float32)])
