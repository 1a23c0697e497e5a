"""Whether the lens came to the end of what was to be seen, where whoever pushed says that it did."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from advisor.push.before.goal import for_part, told_for
from advisor.push.before.tasks import covered
from advisor.push.before.way_taken import as_gone
from advisor.push.log.log import Entry
from advisor.push.now.counted import at_farthest
from advisor.push.now.now import Now
from advisor.push.now.seen import Run, runs_of, way_in
from advisor.push.track.depth import path
from advisor.push.track.leg import NO_DISTANCE
from advisor.push.track.ways import Way
from advisor.result.study import Study
from advisor.tables.where import number

_HALF = 0.5  # more likely than not


@dataclass(frozen=True)
class Hardly:
    """How likely it came there all the same; how much further in that lies, m, where its way leads there:
    nothing where it more likely went another."""

    chance: float
    short: float | None


def as_reached(runs: Sequence[Run], study: Study) -> tuple[Run, ...]:
    """The pushes, those told as having reached the end that hardly did with the chance that they did; those
    that went for a part reached no more than the end of that."""
    found = []
    for place, run in enumerate(runs):
        now = at_farthest(run, study) if run.told_reached else None
        hardly = None if now is None else hardly_reached(now, run, runs[:place], study)
        chance = None if hardly is None else hardly.chance
        found.append(replace(run, hardly=chance, of_part=for_part(run, study)))
    return tuple(found)


def last_hardly_reached(now: Now, standing: Iterable[Entry]) -> Hardly | None:
    """The same of the last push of a log, as it stands."""
    study, (*before, last) = now.push.study, runs_of(standing)
    return hardly_reached(now, last, [as_gone(run, study) for run in before], study)


def hardly_reached(now: Now, run: Run, before: Sequence[Run], study: Study) -> Hardly | None:
    """Where it is unlikely by the sheet and what was passed, and the counter is short of it by more than the
    two may part; nothing where it may well have come there.

    The end is that of what the pushes `before` it left to be seen, the furthest on each way.
    """
    own, start = told_for(run, study), way_in(run, study.network)
    if start is None:
        return None
    cover = covered(before, own)
    ends = {at for span in cover.unseen for at in span} or {cover.low, cover.high}
    ways = {at: path(study.network, start.id, cover.line, at) for at in ends}
    needed = [
        (at, way.leads(study.network, start, study.tables))
        for at, way in ways.items()
        if way is not None and way.length >= NO_DISTANCE
    ]
    if not needed:
        return None
    (hardly, leads), sure = _hardly(now, cover.line, needed), study.tables.where.sure
    short = hardly.short is None or hardly.short > sure.may_part(run.went_in or 0.0)
    if not short or hardly.chance > study.drawn.likely("unlikely_share"):
        return None
    return hardly if leads > _HALF else replace(hardly, short=None)


def _hardly(now: Now, line: str, needed: Sequence[tuple[float, str]]) -> tuple[Hardly, float]:
    """It by itself, and how likely the head is on a way that leads there."""
    belief = max((each for _, each in now.told), key=lambda each: each.rod, default=now.belief)
    chart, mass = now.push.tracker.chart, belief.mass.sum(axis=0)
    come = lacking = before = 0.0
    for way, here in zip(chart.ways, mass, strict=True):
        end = _end(way, line, [at for at, port in needed if port == way.port])
        if end is None:
            continue
        there = chart.x >= end - number(chart.where.sure.near)
        come += float(here[there].sum())
        before += float(here[~there].sum())
        lacking += float(here[~there] @ (end - chart.x[~there]))
    return Hardly(come, lacking / before if before > 0 else None), come + before


def _end(way: Way, line: str, needed: Sequence[float]) -> float | None:
    """How far along a way the last of these places on a line is, m; nothing where it misses one of them."""
    legs = [leg for leg in way.legs if leg.line == line]
    far = 0.0
    for at in needed:
        on = ((leg, (at - leg.place) * leg.fall if leg.fall else abs(at - leg.place)) for leg in legs)
        here = next(
            (leg.start + m for leg, m in on if -NO_DISTANCE <= m <= leg.length * abs(leg.fall) + NO_DISTANCE),
            None,
        )
        if here is None:
            return None
        far = max(far, here)
    return far if needed else None
