"""What may hold a head that goes no further, and how likely each cause is by the plan and by the signs."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from advisor.outcome.attempts import NO_TRY, STEADY, mean_stuck
from advisor.outcome.held import held_by
from advisor.push.now.course import Course, Met, mean
from advisor.push.now.evidence import Tried, weights_of
from advisor.push.track.chart import Array
from advisor.tables.conditions import ROOTS
from advisor.tables.stuck import CauseRow, Planned
from advisor.tables.where import number

_LEAST = 1e-3  # arithmetic: keeps a cause that the plan holds to be impossible open to what is seen


@dataclass(frozen=True)
class Cause:
    """What may hold the head, and how likely after the signs."""

    name: str
    words: str
    why: str
    trouble: str
    chance: float
    drawn: bool = True  # whether the sheet draws what it takes; where not, it is told only once it is likely
    planned: Planned | None = None  # what the planner works out of it
    foreseen: float = 0.0  # the share of its chance before the signs that comes from there, at this spot


def causes_of(
    course: Course,
    met: Met | None,
    signs: frozenset[str],
    weights: Array,
    out: bool = False,
    elsewhere: Sequence[tuple[str, float]] = (),
    near: Sequence[tuple[str, float]] = (),
    without: Collection[str] = (),
    failed: Sequence[Tried] = (),
) -> tuple[Cause, ...]:
    """Every cause with its chance after the signs, likeliest first (Bayes, signs taken as independent).

    `out` is whether it is held while it is drawn out; `elsewhere` how likely before the signs it is what
    other pushes told of, by the causes: the rest is as where nothing was told. `near` is how likely what a
    cause takes lies where the head is; without it, anywhere on the way counts. `without` cannot be here.
    `failed` are the tries that failed at this spot: what they would have cured is less likely by that much.
    """
    table = course.study.tables.stuck
    rows = table.causes_out if out else table.causes
    weighed, lying = _weighed(course, met, signs, weights, out, near), dict(elsewhere)
    weighed = {name: each for name, each in weighed.items() if name not in without}
    rest = (1 - sum(lying.values())) / sum(before for before, _ in weighed.values())
    chances = {
        name: (before * rest + lying.get(name, 0.0)) * likely * _uncured(rows[name], course, met, failed)
        for name, (before, likely) in weighed.items()
    }
    total = sum(chances.values())
    least = 1 - number(course.study.tables.where.sure.check_below)  # below it the place is sure enough
    found = []
    for name, each in chances.items():
        row, drawn = rows[name], _share(rows[name], course, met, near) >= least
        told = [says for sign, says in row.told.items() if sign in signs]
        says = told[0] if len(told) == 1 else row
        why = says.why if drawn else f"{says.why} {table.not_drawn.format(needs=row.needs)}"
        before = weighed[name][0] * rest + lying.get(name, 0.0)
        foreseen = min(_foreseen(row, met, weights) * rest / before, 1.0)
        found.append(Cause(name, says.words, why, row.trouble, each / total, drawn, row.planned, foreseen))
    return tuple(sorted(found, key=lambda cause: -cause.chance))


def _uncured(row: CauseRow, course: Course, met: Met | None, failed: Sequence[Tried]) -> float:
    """How likely these tries all fail where this holds it: each by the plan's chance of it in a held push,
    if it is one that may be tried against that at all.

    Where the plan has no hard place, by what such a try mends at the usual one; a push as before mends none.
    """
    cells, drawn = course.study.base.matrix.cells, course.study.drawn
    left = 1.0
    for each in failed:
        cell = cells.get((each.technique, row.trouble))
        if cell is None or not cell.allowed:
            continue
        if met is None:
            left *= 1 - drawn.likely("usual_mend") * (each.technique not in (*NO_TRY, STEADY))
        elif each.technique in met.hard.tries:
            left *= 1 - mean_stuck(met.hard.chance(each.technique), met.hard.spot.plain.stuck)
    return max(left, _LEAST)


def _share(row: CauseRow, course: Course, met: Met | None, near: Sequence[tuple[str, float]] = ()) -> float:
    """How likely what this cause takes is where the head is held: a head jams only at a turn.

    What may show further on only, as a wrong way, takes it anywhere on the way.
    """
    if row.needs is None or met is not None:
        return 1.0
    on_way = course.turns if row.needs == "turn" else course.branches
    return (dict(near).get(row.needs, 1.0) if row.there else 1.0) if on_way else 0.0


def _weighed(
    course: Course,
    met: Met | None,
    signs: frozenset[str],
    weights: Array,
    out: bool,
    near: Sequence[tuple[str, float]] = (),
) -> dict[str, tuple[float, float]]:
    """For each cause its chance before the signs, and how likely these signs are given it."""
    table = course.study.tables.stuck
    found = {}
    for name, row in (table.causes_out if out else table.causes).items():
        likely = 1.0
        for sign, of_sign in table.signs.items():
            given = number(row.signs.get(sign, of_sign.unseen))
            if sign in signs:
                likely *= given
            elif of_sign.of is None:
                # What is not told may have gone unnoticed: half of what is there is.
                likely *= 1 - given / 2
        left_open = number(table.tell.open)
        before = _before(row, met, weights, left_open)
        share = _share(row, course, met, near)
        found[name] = before * (share + (1 - share) * left_open), likely
    return found


def spots_told(
    course: Course,
    shares: Sequence[tuple[Met, float]],
    signs: frozenset[str],
    tries: Sequence[Tried],
    rooted: Met | None,
    out: bool = False,
) -> tuple[tuple[Met, float], ...]:
    """Each hard spot with the chance that it holds the head, likeliest first: by where the head stands and by
    how well the signs fit what holds there. The rest is that it is held elsewhere.

    `out` as for the causes. In a run where the plan foresees roots (`rooted`), what roots hold is held there
    and nowhere else.
    """
    weights = weights_of(course, tries)

    def fits(met: Met | None) -> dict[str, float]:
        each = _weighed(course, met, signs, weights, out)
        total = sum(before for before, _ in each.values())
        return {name: before * likely / total for name, (before, likely) in each.items()}

    free = max(1 - sum(share for _, share in shares), 0.0)
    elsewhere = fits(None)
    by_roots = 0.0 if rooted is None else free * elsewhere.pop(ROOTS)
    told = [
        (met, share * sum(fits(met).values()) + (by_roots if met is rooted else 0.0)) for met, share in shares
    ]
    total = free * sum(elsewhere.values()) + sum(each for _, each in told)
    found = ((met, each / total) for met, each in told if each > 0)
    return tuple(sorted(found, key=lambda each: -each[1]))


def _before(row: CauseRow, met: Met | None, weights: Array, left_open: float) -> float:
    """The chance of a cause before the signs: the planner's at this spot where it works it out.

    That share of what is usual is `left_open` all the same, for the plan may be wrong.
    """
    usual = number(row.usual)
    if met is None or row.planned is None:
        return usual
    spot = met.hard.spot
    worked = held_by(spot, met.outcome.march.reach < spot.station.at)[row.planned]
    return max(_of_held(worked, met, weights), usual * left_open, _LEAST)


def _of_held(worked: Array, met: Met, weights: Array) -> float:
    """The mean of a cause's chance there, of the cases in which the head is held at all."""
    spot = met.hard.spot
    short = met.outcome.march.reach < spot.station.at
    return mean(worked, weights) / max(mean(1 - spot.plain.passes * (1 - short), weights), _LEAST)


def _foreseen(row: CauseRow, met: Met | None, weights: Array) -> float:
    """How likely a head that has come to that spot and is held there is held by this, as the plan has it."""
    if met is None or row.planned is None:
        return 0.0
    return _of_held(held_by(met.hard.spot)[row.planned], met, weights)
