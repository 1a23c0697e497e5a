"""A simple learner with forgetting, to compare spaced and interleaved practice with practice in blocks.

Not a model of people: an exponential forgetting curve whose time constant grows with each practice, the
more the more had been forgotten (the spacing effect, in the direction that Cepeda et al. 2008 and Latimier
et al. 2021 report; the numbers here are ours). Who has it picks the best answer, who has not picks at random.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from math import exp

import numpy as np

from advisor.practice.drill import Drill
from advisor.practice.review import Review
from advisor.practice.skill import Skill, after, next_skill
from tests.practice.school import MARKS

START = datetime(2026, 1, 5, 8, tzinfo=UTC)
FIRST_DAYS = 1.5  # the time constant after a first practice
GROWS = 3.0  # by how much it grows at most with one practice


@dataclass
class Memory:
    last: float | None = None  # day
    constant: float = FIRST_DAYS

    def knows(self, day: float) -> float:
        return 0.0 if self.last is None else exp(-(day - self.last) / self.constant)

    def practised(self, day: float) -> None:
        if self.last is not None:
            self.constant *= 1 + GROWS * (1 - self.knows(day))
        self.last = day


def regret_of_guessing(drill: Drill) -> float:
    """Expected minutes lost by whoever picks at random among the safe answers."""
    return sum(float(np.mean([max(o.regret, 0) for o in ask.options if not o.unsafe])) for ask in drill.asks)


def expected_regret(memories: dict[str, Memory], drills: dict[str, Sequence[Drill]], day: float) -> float:
    lost = [
        (1 - memories[kind].knows(day)) * float(np.mean([regret_of_guessing(d) for d in cases]))
        for kind, cases in drills.items()
    ]
    return float(np.mean(lost))


def spaced(drills: dict[str, Sequence[Drill]], count: int, a_day: int, seed: int) -> dict[str, Memory]:
    """Practice as the program schedules it, `a_day` drills on each day."""
    draw = np.random.Generator(np.random.PCG64(seed))
    memories = {kind: Memory() for kind in drills}
    skills = {kind: Skill(kind) for kind in drills}
    last = ""
    for number in range(count):
        day = number // a_day + (number % a_day) * 0.01
        now = START + timedelta(days=day)
        name = next_skill(skills, now, last)
        knew = bool(draw.random() < memories[name].knows(day))
        memories[name].practised(day)
        case = drills[name][number % len(drills[name])]
        regret = 0.0 if knew else regret_of_guessing(case)
        credit = 1.0 if knew else 0.3
        skills[name] = after(
            skills[name],
            Review(now, name, number, case.about, skills[name].step, regret, credit, False),
            MARKS,
        )
        last = name
    return memories


def massed(drills: dict[str, Sequence[Drill]], count: int, a_day: int) -> dict[str, Memory]:
    """The same number on the same days, one skill after another."""
    memories = {kind: Memory() for kind in drills}
    each = count // len(drills)
    for number in range(count):
        kind = list(drills)[min(number // each, len(drills) - 1)]
        memories[kind].practised(number // a_day + (number % a_day) * 0.01)
    return memories
