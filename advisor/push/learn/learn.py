"""What the logs of all jobs teach, worked out anew from the logs each time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from advisor.outcome.learned import BOOK, Learned
from advisor.plan import Case, work_through
from advisor.push.learn.pairs import Pair, log_score, pairs_of
from advisor.push.learn.rub import GRID, Factor, Floats, How, chance_of_push, factor_of, gain
from advisor.push.learn.taught import Push, Try, pushes_of, tries_of
from advisor.push.log.log import Entry
from advisor.rulebase.load import RuleBase
from advisor.tables.load import Tables

WORLDS = 400  # possible truths of each job in which its pushes are weighed


@dataclass(frozen=True)
class Told:
    """What one job tells: its tries, how many pushes, and the log likelihood of these for each factor."""

    tries: tuple[Try, ...]
    pushes: int
    friction: tuple[float, ...] | None


@dataclass(frozen=True)
class Lessons:
    """All that was learned, and what of it is used."""

    pairs: tuple[Pair, ...]
    factor: Factor
    tries: int
    pushes: int
    jobs: int
    pairs_used: bool
    pairs_gain: float  # log score won over the book, each job foretold from the others
    friction_used: bool
    friction_gain: float
    few: int  # tries or pushes under which a figure is mostly that of the book

    @property
    def learned(self) -> Learned:
        """What the planner takes over: only what foretells left-out jobs no worse than the book."""
        shifts = tuple((p.technique, p.way, p.shift) for p in self.pairs) if self.pairs_used else ()
        friction = self.factor.value if self.friction_used else 1.0
        made = Learned(shifts, friction)
        return replace(made, notes=self._notes()) if made.changes else BOOK

    def _notes(self) -> tuple[str, ...]:
        notes = []
        if self.friction_used and self.pushes:
            mostly = ", mostly book value" if self.pushes < self.few else ""
            between = f"{self.factor.low:.2f} to {self.factor.high:.2f} in 80 of 100 cases"
            pushes = _count(self.pushes, "push", "pushes")
            notes.append(
                f"friction {self.factor.value:.2f} times the book ({between}), from {pushes}{mostly}."
            )
        if self.pairs_used and self.tries:
            few = sum(pair.tries < self.few for pair in self.pairs)
            mostly = f"; {few} of them under {self.few} tries, mostly book value" if few else ""
            ways = _count(len(self.pairs), "technique in a fitting", "techniques in fittings")
            notes.append(f"chances of {ways}, from {_count(self.tries, 'try', 'tries')}{mostly}.")
        return tuple(notes)


def lessons_of(jobs: Sequence[Told], tables: Tables) -> Lessons:
    """Everything that the jobs teach together; the order in which they come changes nothing."""
    weight, surest = (tables.limits[name].likely for name in ("learn_book_weight", "learn_surest"))
    how = how_of(tables)
    jobs = sorted(jobs, key=repr)  # sums of floats come out alike
    tries = [each for job in jobs for each in job.tries]
    friction = [np.asarray(job.friction) for job in jobs if job.friction is not None]
    pairs_gain = 0.0
    for i, job in enumerate(jobs):
        others = [each for other in (*jobs[:i], *jobs[i + 1 :]) for each in other.tries]
        pairs_gain += log_score(job.tries, (), surest)
        pairs_gain -= log_score(job.tries, pairs_of(others, weight, surest), surest)
    friction_gain = gain(friction, how)
    return Lessons(
        pairs_of(tries, weight, surest),
        factor_of(friction, how),
        len(tries),
        sum(job.pushes for job in jobs),
        len(jobs),
        pairs_gain >= 0,
        pairs_gain,
        friction_gain >= 0,
        friction_gain,
        round(tables.limits["learn_few"].likely),
    )


def told_by(standing: Sequence[Entry], case: Case, tables: Tables, base: RuleBase) -> Told:
    """What the standing entries of one job tell, its site planned anew for every possible factor."""
    pushes = pushes_of(standing, tables.limits["learn_overcome"].likely)
    friction, used = _friction(pushes, case, tables, base) if pushes else (None, 0)
    return Told(tries_of(standing), used, None if friction is None else tuple(map(float, friction)))


def _friction(
    pushes: tuple[Push, ...], case: Case, tables: Tables, base: RuleBase
) -> tuple[Floats | None, int]:
    """The log likelihood of all pushes together over `GRID`, and how many there are whose way is known.

    Pushes of one job share its truths: their chances are multiplied in each and the truths averaged.
    """
    how, logs, used = how_of(tables), [], 0
    kit = case.kit
    names = {push.loadout for push in pushes}
    if None not in names:
        kit = replace(kit, loadouts=tuple(each for each in kit.loadouts if each.name in names))
    for factor in np.exp(GRID):
        supposed = replace(case, kit=kit, worlds=WORLDS, learned=Learned(friction=float(factor)))
        study = work_through(supposed, tables, base)
        log, used = np.zeros(WORLDS), 0
        for push in pushes:
            # The way that was planned from there; with no loadout told, that of the best one.
            ways = [
                outcome
                for outcome in study.outcomes
                if outcome.route.opening.name == push.opening and push.loadout in (None, outcome.loadout.name)
            ]
            if not ways:
                continue
            way = max(ways, key=lambda outcome: (outcome.chance, outcome.route.covers))
            reach = np.asarray(way.march.reach, np.float64)
            reel = float(study.drawn.kit(way.loadout).reel.mean())
            log += np.log(chance_of_push(push.far, push.spent, reach, reel, how))
            used += 1
        logs.append(float(np.logaddexp.reduce(log) - np.log(WORLDS)))
    return (np.asarray(logs), used) if used else (None, 0)


def how_of(tables: Tables) -> How:
    """How readings are believed, by the table of limits."""
    names = ("learn_friction_spread", "learn_stop_share", "learn_stop_slack", "learn_stray_stops")
    return How(*(tables.limits[name].likely for name in names))


def _count(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"
