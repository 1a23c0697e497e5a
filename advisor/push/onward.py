"""The plan from where the head is: what going on promises, and whether leaving it is better."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import inf

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.outcome.attempts import STEADY
from advisor.outcome.walk import HardSpot, walk_on
from advisor.push.held.stuck import Stuck
from advisor.push.held_now import held_now
from advisor.push.now.course import Met
from advisor.push.now.now import Now
from advisor.push.now.tries import NextTry
from advisor.push.rest_ahead import goes_on, rest_ahead, unmarked
from advisor.push.stop_ahead import stop_ahead
from advisor.push.track.chart import Array
from advisor.ranking.order import Option, best_order, expected
from advisor.ranking.settle import option_of
from advisor.result.study import Study
from advisor.tables.where import number
from advisor.worlds.spread import middle

Attempts = tuple[tuple[RouteOutcome, float], ...]
_HERE = "here"
_HALF = 0.5  # more likely than not


@dataclass(frozen=True)
class Onward:
    """Going on with the push that is under way, and the order of openings that comes after it.

    `chance` is that of seeing the whole target in this push. `goes_on` is true where going on costs fewer
    expected minutes than drawing back now, by `gains`. `after` is what to try once this push is left, each
    with its chance given that it comes to that. `astray` is true where the head is rather not on the way
    planned, so that it has to come back to that way first; `arrived` where it is at the end of what is to be
    seen, so that nothing is left to reach; `surprised` where it is held at a place that the plan holds to be
    easy, so that `chance` is only that of what lies behind. `at_end` is the chance that it is at that end, or
    past it, and `further` how much further it would be surely there, m; None where it is, or where it must
    not be pushed past that end to see. `unmarked` is true where nothing in the pipe shows that end, and
    `rest` how far in, m, more of what the sheet asks may be looked at in this push, past a part's end.
    """

    chance: float
    gains: float
    after: Attempts
    astray: bool
    surprised: bool
    arrived: bool
    at_end: float = 0.0
    further: float | None = None
    unmarked: bool = False
    rest: float | None = None

    @property
    def goes_on(self) -> bool:
        """True where going on is worth its minutes."""
        return self.gains > 0


def onward(made: Study, now: Now) -> Onward | None:
    """What this push still promises in the plan `made` anew from it.

    None where that plan has no way on from here: the opening leads the other way, the way shows only a part
    of the target, or the head came past what the plan held to be the end.
    """
    wanted = now.push.course.wanted
    outcome = next(
        (
            each
            for each in (*made.settled.attempts, *made.outcomes)
            if wanted is not None
            and (each.route.id, each.loadout) == (wanted.route.id, wanted.loadout)
            and each.route.covers >= 1
        ),
        None,
    )
    if outcome is None or outcome.way.closed:
        return None
    told = _told(now)
    held = now.held_at[0].name if now.held_at[0] is not None else (told.spot or None) if told else None
    first = _behind(now, outcome, held)
    if first and float(outcome.spots[first - 1].with_techniques.max()) == 0:
        return None
    astray = _share_on(now, outcome) < _HALF
    at = _place_of(outcome, first - 1) if astray else now.along
    fits = _fits(now, outcome, first, held)
    # What holds it where the plan has nothing hard is in none of its worlds.
    no_world = told is not None and not told.spot and not astray
    if no_world:  # what follows it is told of a head that came free: an earlier stop there holds it no more
        at = max(at, _stop_at(now) + now.push.tracker.chart.cell)

    def going(change: Callable[[HardSpot], HardSpot]) -> tuple[float, float, Attempts]:
        spots = tuple(change(each) if index == first else each for index, each in enumerate(outcome.spots))
        walk = walk_on(outcome.way, spots, made.drawn, first, at)
        here = Option(_HERE, walk.arrived, walk.lost, walk.minutes + walk.harm_minutes)
        return _compared(made, outcome, here, fits, no_world)

    offered = told.tries if told is not None and told.spot == held else None
    chance, gains, after = going(lambda spot: _with_tries_left(spot, now, held, offered))
    if gains <= 0 and held and offered:
        # It is left though tries are told there that the plan holds to be too slow: their chance is told.
        order = tuple((each.technique, each.left) for each in offered)
        chance, gains, after = going(lambda spot: replace(spot, order=order))
    at_end, further = _to_end(now, outcome)
    surprised = now.held_at == (None, True)
    arrived, end = at_end > _HALF, outcome.route.passages[-1].piece
    rest = rest_ahead(made, now, outcome) if arrived else None
    return Onward(
        chance, gains, after, astray, surprised, arrived, at_end, further, unmarked=unmarked(end), rest=rest
    )


def _compared(
    made: Study, outcome: RouteOutcome, here: Option, weights: Array, no_world: bool
) -> tuple[float, float, Attempts]:
    """The chance of going on, the minutes it saves over leaving now, and what comes after it.

    After a stop that is in `no_world` comes what comes where it does not come free: that tells nothing of
    the worlds. Nor does what fails where they let it pass: nothing is surer than it may be told.
    """
    failing = made.tables.costs["failing"].likely
    others = {
        each.outcome.route.id: each.outcome
        for each in made.settled.ranked
        if each.outcome.route.covers >= 1 and each.outcome.route.id != outcome.route.id
    }
    options = {name: option_of(each) for name, each in others.items()}
    most = round(made.drawn.likely("most_openings"))
    leave = best_order(list(options.values()), failing, weights, most)
    reached = np.minimum(here.reached, number(made.tables.where.sure.certain))
    failed = weights if no_world else weights * np.maximum(1 - reached - here.lost, 0)
    then = leave
    if float(failed.sum()) > 0:
        then = best_order(list(options.values()), failing, failed, most)
    go = expected([here, *(options[name] for name in then.names)], failing, weights)
    goes_on = go.minutes < leave.minutes
    order = then if goes_on else leave
    after = tuple(
        (others[name], chance) for name, chance in zip(order.names, order.step_chances, strict=True)
    )
    return go.step_chances[0], leave.minutes - go.minutes, after


def _behind(now: Now, outcome: RouteOutcome, held: str | None) -> int:
    """How many hard spots of the way, from its start, the head has behind it."""
    for index, spot in enumerate(outcome.spots):
        met = _met(now, spot)
        if met is None or not (met.name in now.passed or _share_past(now, met, held) > _HALF):
            return index
    return len(outcome.spots)


def _met(now: Now, spot: HardSpot) -> Met | None:
    """The same spot as the push knows it."""
    return next((met for met in now.push.course.spots if met.hard.passage.id == spot.passage.id), None)


def _share_past(now: Now, met: Met, held: str | None) -> float:
    """The chance that the head is past a hard spot, by where it is; none where it is `held` there."""
    if met.name == held:
        return 0.0
    chart, mass = now.push.tracker.chart, now.belief.mass.sum(axis=0)
    spread = number(chart.where.stopped.spread)
    past = 0.0
    for row, way in enumerate(chart.ways):
        until = met.until(way)
        if until is not None:
            past += float(mass[row][chart.x > until + spread].sum())
    return past


def _told(now: Now) -> Stuck | None:
    """What is told of the head where it is held, or where it was drawn back from a stop and never past."""
    if (found := held_now(now)) is not None:
        return found
    again = stop_ahead(now, unpassed=True)
    return again.found if again is not None and again.same_gear else None


def _stop_at(now: Now) -> float:
    """The rod at that stop, m."""
    again = stop_ahead(now, unpassed=True)
    return now.belief.rod if again is None else again.reading - now.counted(0.0)


def _share_on(now: Now, outcome: RouteOutcome) -> float:
    """The chance that the head is on the way planned, or past its end."""
    chart, mass = now.push.tracker.chart, now.belief.mass.sum(axis=0)
    passages = outcome.route.passages
    planned = {(each.piece.id, each.enters, each.leaves) for each in passages[:-1]}
    end = (passages[-1].piece.id, passages[-1].enters)
    share = 0.0
    for row, way in enumerate(chart.ways):
        strays = inf
        for leg in way.legs:
            if (leg.piece.id, leg.enters) == end:
                break
            if (leg.piece.id, leg.enters, leg.leaves) not in planned:
                strays = leg.start
                break
        share += float(mass[row][chart.x <= strays + chart.cell].sum())
    return share


def _to_end(now: Now, outcome: RouteOutcome) -> tuple[float, float | None]:
    """The chance that the head is at the end of the way, or past it; and how much further it would be so
    surely there as settles a place, m, where the pipe goes on past that end."""
    chart, mass = now.push.tracker.chart, now.belief.mass.sum(axis=0)
    last, left, shares = outcome.route.passages[-1], list[Array](), list[Array]()
    for row, way in enumerate(chart.ways):
        for leg in way.legs:
            if (leg.piece.id, leg.enters) == (last.piece.id, last.enters):
                left.append(leg.start + leg.length - chart.cell - chart.x)
                shares.append(mass[row])
                break
    if not left:
        return 0.0, None
    still, share = np.concatenate(left), np.concatenate(shares)
    at_end, sure = float(share[still <= 0].sum()), number(chart.where.sure.settles)
    if at_end >= sure or not goes_on(last.piece):
        return at_end, None
    order = np.argsort(still)
    enough = np.searchsorted(np.cumsum(share[order]), sure * float(share.sum()))
    return at_end, float(still[order][min(int(enough), len(order) - 1)])


def _with_tries_left(
    spot: HardSpot, now: Now, held: str | None, offered: Sequence[NextTry] | None = None
) -> HardSpot:
    """The spot without the tries that failed there; of the others, where it is held, only those `offered`."""
    met = _met(now, spot)
    if met is None:
        return spot
    made = Counter(tried.technique for tried in now.tries if tried.spot == met.name and not tried.passed)
    order = spot.order
    if met.name == held:
        made[STEADY] += 1  # that it is held is the first push gone
        if offered is not None:
            told = {each.technique for each in offered}
            order = tuple(each for each in order if each[0] in told)
    left = ((technique, count - made[technique]) for technique, count in order)
    return replace(spot, order=tuple((technique, count) for technique, count in left if count > 0))


def _place_of(outcome: RouteOutcome, index: int) -> float:
    return middle(outcome.spots[index].spot.station.at) if index >= 0 else 0.0


def _fits(now: Now, outcome: RouteOutcome, first: int, held: str | None) -> Array:
    """How well each world fits that the head has come so far, float64[N]; the tries told are in the worlds.

    A world in which the rod ends sooner does not fit, and one in which an earlier spot seldom lets a head by
    fits seldom.
    """
    weights: Array = np.asarray(outcome.march.reach >= now.along, np.float64)
    for spot in outcome.spots[:first]:
        met = _met(now, spot)
        if met is not None and met.name not in now.passed:
            weights = weights * spot.with_techniques
    met = _met(now, outcome.spots[first]) if first < len(outcome.spots) else None
    if met is not None and met.name == held:
        weights = weights * (1 - outcome.spots[first].spot.plain.passes)
    return weights if float(weights.sum()) > 0 else np.ones_like(weights)
