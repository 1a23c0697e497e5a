"""What the tries of a push say: worlds weighed by what passed and failed, and a plan made anew."""

from __future__ import annotations

from collections.abc import Container, Sequence
from dataclasses import dataclass, replace

import numpy as np

from advisor.outcome.attempts import STEADY
from advisor.outcome.memory import Memory
from advisor.plan import Case, plan
from advisor.push.log.kinds import BACK, PASSED, TRY, WEDGED
from advisor.push.log.log import Entry
from advisor.push.now.course import Course
from advisor.push.track.chart import Array
from advisor.ranking.settle import settle
from advisor.result.study import Study
from advisor.site.mouths import Mouth, port_of


@dataclass(frozen=True)
class Tried:
    """One try: at which hard spot by name ("" where none was foreseen), how, and whether it passed.

    `rod` is how much was in, m; None where nobody knows. Where no spot was foreseen it alone tells the place.
    """

    spot: str
    technique: str
    passed: bool
    wedged: bool = False
    rod: float | None = None

    def made_at(self, spot: str, rod: float, near: float) -> bool:
        """Whether it was made at the hard spot of that name; where that is none, within `near` m of `rod`."""
        return self.spot == spot and (bool(spot) or self.rod is None or abs(self.rod - rod) <= near)


def tries_of(
    entries: Sequence[Entry], rods: Sequence[float], astray: Container[int] = ()
) -> tuple[Tried, ...]:
    """The tries of a push, in their order; those by which the head went `astray` passed nothing.

    `rods` are m in after each entry.
    """
    return tuple(
        Tried(
            str(entry.data.get("spot") or ""),
            str(entry.data["technique"]),
            entry.data["outcome"] == PASSED and entry.number not in astray,
            entry.data["outcome"] == WEDGED,
            rod,
        )
        for entry, rod in zip(entries, rods, strict=True)
        if entry.kind == TRY
    )


def passed_spots(entries: Sequence[Entry], astray: Container[int]) -> frozenset[str]:
    """The hard spots of which a try was told to have passed them, and that were not drawn back from since."""
    names: set[str] = set()
    for entry in entries:
        came = entry.kind == TRY and entry.data["outcome"] == PASSED and entry.number not in astray
        if came and entry.data.get("spot"):
            names.add(str(entry.data["spot"]))
        elif entry.kind == BACK:
            names.clear()
    return frozenset(names)


def weights_of(course: Course, tries: Sequence[Tried]) -> Array:
    """How well each world fits the tries, float64[N]: q for each that passed, 1 - q for each that failed.

    q is the planner's chance of one try in that world. A stop at a place that was not foreseen as hard
    weighs by the chance to come past all the easier places of the way, wherever it was.
    """
    weights: Array = np.ones(course.study.worlds)
    spots = {met.name: met for met in reversed(course.spots)}
    for tried in tries:
        met = spots.get(tried.spot)
        if met is not None and tried.technique in met.hard.tries:
            q = met.hard.tries[tried.technique].chance.astype(np.float64)
        elif met is None and course.wanted is not None and tried.technique == STEADY:
            q = np.prod([each.astype(np.float64) for each in course.wanted.way.easy], axis=0)
        else:
            continue  # nothing was foreseen of that try, so it tells the worlds apart by nothing
        weights = weights * (q if tried.passed else 1 - q)
    return weights if weights.sum() > 0 else np.ones(course.study.worlds)


def resampled(weights: Array) -> tuple[int, ...]:
    """As many numbers of worlds as there are, each as often as its weight says.

    Systematic resampling with its first step in the middle, so that nothing is left to luck.
    """
    n = len(weights)
    ends = np.cumsum(weights) / weights.sum()
    chosen = np.searchsorted(ends, (np.arange(n) + 0.5) / n)
    return tuple(int(each) for each in np.minimum(chosen, n - 1))


def effective(weights: Array) -> float:
    """How many equally weighed worlds would say as much: (sum w)^2 / sum w^2."""
    return float(weights.sum() ** 2 / (weights**2).sum())


def planned_anew(
    case: Case, course: Course, tries: Sequence[Tried], wanted: Mouth | None, memory: Memory | None = None
) -> Study:
    """The plan after what this push has shown.

    Worlds are chosen by the tries, this opening has opened, and where the head was found to have gone in by
    another mouth than the plan's, `wanted`, its routes that way are none.
    """
    study = course.study
    chosen = resampled(weights_of(course, tries))
    if case.chosen is not None:
        chosen = tuple(case.chosen[each] for each in chosen)
    anew = replace(case, chosen=chosen, opened=(*case.opened, course.opening.name))
    made = plan(anew, study.tables, study.base, memory)
    if wanted is None:
        return made
    possible = tuple(
        each
        for each in made.outcomes
        if each.route.opening.id != course.opening.id
        or port_of(each.route.passages, study.tables) != wanted.port
    )
    made = replace(made, outcomes=possible)
    return replace(made, settled=settle(made.usable, made.drawn))
