"""What one job's log can teach: its planned tries, and how far each of its pushes went."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np

from advisor.outcome.attempts import STEADY, mean_stuck
from advisor.outcome.walk import HardSpot
from advisor.push.log.kinds import BACK, END, MARK, PASSED, RESET, START, STOPPED, TRY
from advisor.push.log.log import Entry


@dataclass(frozen=True)
class Try:
    """One planned try of a technique: the chance that the plan gave it then, and whether it passed."""

    technique: str
    way: str
    book: float
    passed: bool


@dataclass(frozen=True)
class Push:
    """One push: how far it went, m, and whether the rod would not go on there, though no fitting held it."""

    opening: str
    loadout: str | None
    far: float
    spent: bool


def tries_of(standing: Iterable[Entry]) -> tuple[Try, ...]:
    """The tries that can be set against what the plan said; a plain push is no technique.

    A try at a spot of the plan has a book value; where it was made otherwise than planned the log says so.
    """
    found = []
    for entry in standing:
        data, book = entry.data, entry.data.get("book")
        if entry.kind != TRY or data.get("planned") is False or data.get("technique") == STEADY:
            continue
        if isinstance(book, float | int) and 0 <= book <= 1 and isinstance(data.get("way"), str):
            passed = data["outcome"] == PASSED
            found.append(Try(str(data["technique"]), str(data["way"]), float(book), passed))
    return tuple(found)


def book_value(spot: HardSpot, technique: str) -> float:
    """The plan's mean chance of one try there where the head is held, with what was learned taken out again.

    Else the next lesson would take what was learned for the book, and learn it a second time.
    """
    chance = np.asarray(spot.chance(technique), np.float64)
    shift = spot.spot.drawn.learned.shift(technique, spot.spot.shape.turn.way)
    return mean_stuck(chance / (chance + (1 - chance) * np.exp(shift)), spot.spot.plain.stuck)


def pushes_of(standing: Iterable[Entry], overcome: float) -> tuple[Push, ...]:
    """Each push with its farthest counter reading; `overcome` m beyond a stop the head has come past it.

    A push that ended where the rod alone would not go on was stopped by friction; any other went at least as
    far as it did. Behind a counter set anew the readings mean something else, so there a push's account ends.
    """
    found: list[Push] = []
    now: Push | None = None
    for entry in standing:
        if entry.kind == START:
            if now is not None:
                found.append(now)
            loadout = entry.data.get("loadout")
            now = Push(str(entry.data["opening"]), str(loadout) if loadout else None, 0.0, False)
        elif now is None:
            continue
        elif entry.kind in (RESET, END):
            found.append(now)
            now = None
        elif entry.counter is not None and entry.kind not in (BACK, MARK):
            now = _further(now, entry, entry.counter, overcome)
    if now is not None:
        found.append(now)
    return tuple(push for push in found if push.far > 0)


def _further(push: Push, entry: Entry, counter: float, overcome: float) -> Push:
    by_itself = entry.kind == STOPPED and not entry.data.get("spot")
    if counter > push.far + (overcome if push.spent else 0.0):
        return replace(push, far=counter, spent=by_itself)
    # Told at the farthest reading, a stop belongs to it, a fitting tried there makes it none of friction.
    if counter >= push.far - overcome and entry.kind in (STOPPED, TRY):
        return replace(push, spent=by_itself)
    return push
