"""Why a push ends or a technique fails, told as a teacher would, and only by what fits the case.

Many rules explain a spot at once: that a rim catches the head on its way out, that the pipe is fragile. Of
those only one tells why a push is stopped there: the one about what stops most pushes.
"""

from __future__ import annotations

import numpy as np

from advisor.outcome.held import held_by, of_held
from advisor.outcome.rulings import Ruling
from advisor.outcome.walk import HardSpot
from advisor.result.chances import chance_words
from advisor.result.study import Study
from advisor.result.why_hard import by_share
from advisor.rulebase.trace import Firing
from advisor.tables.stuck import CauseRow
from advisor.worlds.draws import Array

UNLESS = "Were it not so, you would see:"


def cause(firing: Firing) -> tuple[str, str, str]:
    """A rule told as a teacher would: the cause, then the rule, then what would show it wrong."""
    return (
        f"Cause: {firing.rule.mechanism}",
        f"So: {firing.because}",
        f"{UNLESS} {firing.rule.if_wrong}",
    )


def variant_of(spot: HardSpot, study: Study) -> tuple[str, ...]:
    """What stops a push there, for what it most likely is, told where that is open; nothing where none."""
    for ruling in by_share(spot):
        told = what_stops(spot, ruling, study)
        if told:
            known = len(spot.rulings) == 1
            named = () if known else (f"If it is a {study.reader.call(ruling.variant)}:",)
            return (*named, *told)
    return ()


def what_stops(spot: HardSpot, ruling: Ruling, study: Study) -> tuple[str, ...]:
    """What stops most pushes at one variant of a spot: by the rule about it, else by its mechanics alone."""
    row = held_mostly(spot, ruling, study)
    if row is None:
        return ()
    troubles = {row.trouble, *row.explained_by}
    for firing in ruling.firings:
        if firing.outcome and troubles & set(firing.rule.conclusion.troubles):
            return cause(firing)
    chance = _chances(spot, ruling)[row.planned or ""]
    share = chance_words(study).say(of_held(chance, _mean(spot.spot.plain.passes, ruling)))
    return (f"Cause: {row.why}", f"So: {row.words[0].upper()}{row.words[1:]}: {share}, where it is held.")


def held_mostly(spot: HardSpot, ruling: Ruling, study: Study) -> CauseRow | None:
    """What holds most pushes at one variant of a spot; None where it holds hardly any."""
    chances = _chances(spot, ruling)
    # Whatever else a nose meets in a trap or tank: it is that which ends the way.
    worst = "stopper" if spot.passage.piece.stopper else max(chances, key=lambda name: chances[name])
    if chances[worst] < study.drawn.likely("least_cause"):
        return None
    return next(row for row in study.tables.stuck.causes.values() if row.planned == worst)


def _chances(spot: HardSpot, ruling: Ruling) -> dict[str, float]:
    return {name: _mean(each, ruling) for name, each in held_by(spot.spot).items()}


def _mean(each: Array, ruling: Ruling) -> float:
    return float(np.asarray(each)[slice(None) if ruling.where is None else ruling.where].mean())


def cures(spot: HardSpot, study: Study, technique: str) -> bool:
    """Whether the matrix lets a technique be tried against what holds most pushes at the likeliest kind."""
    row = held_mostly(spot, by_share(spot)[0], study)
    return row is None or study.base.matrix.cells[technique, row.trouble].allowed
