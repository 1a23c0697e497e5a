"""What pushes of the job from another opening, or the other way, told of a pipe that this one comes to.

A stop, a hole, a pool: its reading there is none here, so it stands where it comes by the lengths of the
sheet, in the pipe in which that head was.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import hypot, sqrt

import numpy as np

from advisor.push.before.earlier import earlier, same_way
from advisor.push.before.found_ahead import heeded_in
from advisor.push.before.found_before import heeded
from advisor.push.before.held_back import held_back
from advisor.push.before.left_stops import pushes_by_way
from advisor.push.before.stops import Stop, by_words, stops_told
from advisor.push.log.cleared import may_be_cut
from advisor.push.log.kinds import DOWN, PORTS, STOPPED, UNKNOWN, UP
from advisor.push.log.log import Entry
from advisor.push.log.sighting import NOT_BACK
from advisor.push.log.sign_words import sign_words
from advisor.push.log.went_in import read_off
from advisor.push.now.causes import causes_of
from advisor.push.now.course import Met
from advisor.push.now.evidence import weights_of
from advisor.push.now.held_back import HeldBack
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.track.chart import Array
from advisor.push.track.fix import quantiles
from advisor.push.track.leg import Leg
from advisor.push.track.lies import Lies
from advisor.push.track.track import Belief
from advisor.push.track.ways import Way
from advisor.quantity import show_counter
from advisor.result.stopped_before import counted_in
from advisor.result.study import Study
from advisor.tables.where import number

Before = tuple[tuple[Now, ...], tuple[Lies, ...], tuple[HeldBack, ...]]  # as `Now` takes them

_TENTH = 0.1  # told is what holds eight times in ten, as everywhere beside the opening
_LEAST = 0.01  # arithmetic: a rarer way or pipe changes no range


@dataclass(frozen=True)
class Elsewhere:
    """`what` was told and where, in words; what to `do` there; its readings, m; where to go slowly from.

    `stop` is whether it stopped a head, `causes` as it lies there; `first`, what is done with it before;
    `held` the opening and the reading there, m, of what held a head.
    """

    what: str
    do: str
    stop: bool
    low: float
    high: float
    slow_from: float
    causes: tuple[tuple[str, float], ...]
    first: str
    held: tuple[str, float] | None = None

    def counted_in(self, made: Study, push: Push) -> bool:
        """Whether the chances of that push's way in know of it, as of a place that held a push."""
        ways = (
            each.outcome
            for each in made.ranked
            if (each.outcome.route.opening.name, each.outcome.loadout.name)
            == (push.opening.name, push.loadout.name)
        )
        near = number(push.study.tables.where.travel.cell)
        return self.held is not None and any(counted_in(each, *self.held, near) for each in ways)


def pushes_before(push: Push, standing: Sequence[Entry]) -> Before:
    """Those that went in as this one does, what the others told, and what of all may hold water back."""
    until = standing[: standing.index(push.began)] if push.began in standing else standing
    there, others = earlier(push, until), _others(push, until)
    lies = tuple(each for last in others for each in _told(last))
    pushes = (*there, *(each for last in others for each in (*last.before, last)))
    return there, lies, held_back(pushes, until)


def _others(push: Push, until: Sequence[Entry]) -> tuple[Now, ...]:
    """The pushes until this one that went in elsewhere or the other way: the last of each way with those
    before it."""
    if not any(entry.kind == STOPPED or heeded(entry, push.study.tables) for entry in until):
        return ()
    found: list[Now] = []
    for (_, way, mouth), runs in pushes_by_way(push.study, until).items():
        runs = [run for run in runs if not same_way(push, run)]
        if runs:
            start = runs[-1][0]
            data = {**start.data, "direction": way, "mouth": mouth, "found": None}
            own = Push(push.study, replace(start, data=data))
            *before, last = (Now(own.begun(run[0]), tuple(run[1:])) for run in runs)
            found.append(replace(last, before=tuple(before)))
    return tuple(found)


def elsewhere(now: Now) -> tuple[Elsewhere, ...]:
    """Each to which the head may still come, the first that it may come to first."""
    found = (_comes(now, lies) for lies in now.others)
    return tuple(sorted(filter(None, found), key=lambda each: each.low))


def held_by(now: Now) -> tuple[Elsewhere, ...]:
    """What may hold the head where it is held on the way in: each in whose range it is."""
    there = () if now.on_way_out else elsewhere(now)
    return tuple(each for each in there if each.low <= now.counter <= each.high)


def causes_told(now: Now, met: Met | None) -> tuple[tuple[str, float], ...]:
    """How likely, before any sign here, it is one of these that holds the head, by the names of causes.

    By Bayes: that it lies just here, of its range, against that something else holds the head here, both per
    m of pipe. At a hard spot the latter is the plan's chance, over as much pipe as stops are told apart.
    """
    table, spread = now.push.study.tables.stuck, number(now.push.tracker.chart.where.stopped.spread)
    other = number(table.tell.others)
    if met is not None:
        other = max(other, float(np.mean(1 - met.hard.spot.plain.passes)) / (2 * spread))
    odds: dict[str, float] = {}
    for each in held_by(now):
        per_m = (1 - 2 * _TENTH) / max(each.high - each.low, 2 * spread)
        for name, chance in each.causes:
            odds[name] = odds.get(name, 0.0) + chance * per_m / other
    return tuple((name, each / (1 + sum(odds.values()))) for name, each in odds.items())


def _told(other: Now) -> Iterator[Lies]:
    """The stops of the last push of a way and of those before it, and what was seen.

    What a head came past, or a machine, may be met from its other side by this one: of these what most likely
    lies in the pipe, or wedged a head, for a wall or a rim seen from one end is none from the other. To one
    that comes to it the same way the rest of what a head came past is told too.
    """
    table = other.push.study.tables.stuck
    row = other.push.study.tables.in_pipe.from_elsewhere
    for stop in stops_told(other):
        causes = _lying(stop, table.lie_in_pipe)
        lies = sum(chance for _, chance in causes) >= number(table.tell.likely) or NOT_BACK in stop.signs
        if stop.back or (stop.cleared and not lies):
            continue
        cut = stop.cleared and may_be_cut(stop.signs, table)
        says = row.cleared if cut else row.passed if stop.passed else row.stop
        signs = f" ({sign_words(stop.signs, table)})" if stop.signs else ""
        what, entry = says.format(signs=signs), stop.then.entries[-1]
        held = (other.push.opening.name, stop.rod)
        if stop.passed and not lies:
            do = table.met_again.passed.format(by=by_words(stop, other.push.study))
            found = _lies(other, what, do, entry, False, stop.rod, stop.then.belief)
            yield replace(found, enters=_entered(other, found), held=held)
            continue
        found = _lies(other, what, row.do, entry, True, stop.rod, stop.then.belief)
        yield replace(found, causes=() if stop.cleared else causes, held=held)
    for entry, heed, then, _ in heeded_in(other):
        rod = (entry.counter or 0.0) + then.shift
        do = heed.with_way_back(heed.do, other.push.study.tables)
        found = _lies(other, row.seen.format(what=heed.told), do, entry, False, rod, then)
        yield replace(found, first="" if heed.not_past else heed.first)


def _lying(stop: Stop, names: Sequence[str]) -> tuple[tuple[str, float], ...]:
    """How likely it was each of these, which hold a head from either end, that stopped it there."""
    course, (met, _) = stop.then.push.course, stop.then.held_at
    causes = causes_of(course, met, stop.signs, weights_of(course, stop.tries))
    return tuple((cause.name, cause.chance) for cause in causes if cause.name in names)


def _lies(other: Now, what: str, do: str, entry: Entry, stop: bool, rod: float, then: Belief) -> Lies:
    """It `rod` m in, with the belief of then."""
    study, direction = other.push.study, other.push.direction
    words = study.tables.in_pipe.from_elsewhere.at.format(
        what=what,
        opening=other.push.opening.name,
        way=f", {direction}" if direction in (DOWN, UP) else "",
        reading=show_counter(rod, study.units),
    )
    return Lies(words, do, entry.number, stop, (), tuple(_pipes(other, rod, then)))


def _entered(other: Now, lies: Lies) -> frozenset[tuple[str, str]]:
    """Those pipes with the port by which that push came into each."""
    pipes = {piece for piece, *_ in lies.pipes}
    ports = PORTS.get(other.push.direction, PORTS[UNKNOWN])
    ways = (way for way in other.push.tracker.chart.ways if way.port in ports)
    legs = (leg for way in ways for leg in way.legs if leg.piece.id in pipes)
    return frozenset((leg.piece.id, leg.enters) for leg in legs)


def _comes(now: Now, lies: Lies) -> Elsewhere | None:
    """It as it lies ahead of this push; None where the head does not come there, or has come past it."""
    study, chart = now.push.study, now.push.tracker.chart
    sure, travel = chart.where.sure, chart.where.travel
    at, weight = _along(now, lies)
    ahead = at > now.belief.rod - number(chart.where.stopped.spread)
    at, weight = at[ahead], weight[ahead]
    if float(weight.sum()) < number(sure.tell_next):
        return None
    first, last = quantiles(at, weight, (_TENTH, 1 - _TENTH))
    if any(each.push.began.number > lies.number and each.belief.furthest > last for each in now.before):
        return None
    # What of it is ahead is at the sheet's lengths; counter and map are off by as much as everywhere else.
    wander = number(travel.wander[study.network.map_quality])  # type: ignore[index]
    low, high = (
        each + side * hypot(read_off(each, study.tables.where), sqrt(wander * each))
        for each, side in ((first, -1), (last, 1))
    )
    low, high = now.counted(max(low, 0.0)), now.counted(high)
    slow = low - number(sure.warn_before)
    return Elsewhere(lies.what, lies.do, lies.stop, low, high, slow, lies.causes, lies.first, lies.held)


def _pipes(other: Now, rod: float, then: Belief) -> Iterator[tuple[str, Array, Array]]:
    """Each pipe in which it may be, by its id: how far down it in each world, m, and the weight of each.

    So much rod leads there in the pipes that the head was in by what was passed, each as long as the sheet
    lets it be.
    """
    chart, mass = other.push.tracker.chart, then.mass.sum(axis=0)
    further = round((rod - then.rod) / chart.cell)
    shares: dict[tuple[str, ...], tuple[Way, int, float]] = {}
    for row, way in enumerate(chart.ways):
        if way.port not in PORTS.get(other.push.direction, PORTS[UNKNOWN]):
            continue
        cells = np.clip(np.arange(chart.cells) + further, 0, chart.ends[row])
        for index, share in enumerate(np.bincount(chart.leg[row, cells], mass[row])):
            if share >= _LEAST:
                key = tuple(leg.piece.id for leg in way.legs[: index + 1])
                shares[key] = (way, index, share + (shares[key][2] if key in shares else 0.0))
    total = sum(share for *_, share in shares.values())
    for way, index, share in shares.values():
        starts, length = _lengths(other, way, index)
        inside = np.clip(rod - starts, 0.0, length)
        within = (starts <= rod) & (rod <= starts + length)
        weight = within if within.any() else np.ones_like(within)
        down = inside if way.legs[index].fall >= 0 else length - inside
        yield way.legs[index].piece.id, down, weight * (share / total / weight.sum())


def _along(now: Now, lies: Lies) -> tuple[Array, Array]:
    """How far in from the opening of this push that is in each world, m, and the weight of each."""
    chart, mass = now.push.tracker.chart, now.belief.mass.sum(axis=(0, 2))
    shares: dict[tuple[str, ...], tuple[Way, int, float]] = {}
    for way, share in zip(chart.ways, mass / mass.sum(), strict=True):
        for index, leg in enumerate(way.legs if share >= _LEAST else ()):
            key = tuple(each.piece.id for each in way.legs[: index + 1])
            if leg.length > 0:
                shares[key] = (way, index, share + (shares[key][2] if key in shares else 0.0))
    found: list[tuple[Array, Array]] = [(np.zeros(0), np.zeros(0))]
    for piece, down, weight in lies.pipes:
        for way, index, share in shares.values():
            leg = way.legs[index]
            if leg.piece.id == piece and (not lies.enters or (piece, leg.enters) in lies.enters):
                starts, length = _lengths(now, way, index)
                inside = down if leg.fall >= 0 else length - down
                found.append((starts + inside, weight * share))
    return np.concatenate([at for at, _ in found]), np.concatenate([weight for _, weight in found])


def _lengths(now: Now, way: Way, index: int) -> tuple[Array, Array]:
    """How far along a way one of its pieces begins and how long it is in each world, m."""
    drawn = now.push.study.drawn
    nothing = np.zeros(drawn.worlds.n)

    def long(leg: Leg) -> Array:
        pipe = leg.piece.length is not None and leg.length > 0 and leg.leaves and leg.piece.kind != "opening"
        return drawn.length(leg.piece) if pipe else nothing + leg.length

    return sum((long(leg) for leg in way.legs[:index]), nothing), long(way.legs[index])
