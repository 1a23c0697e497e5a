"""Order and stop rules together: each needs the other, so two sweeps are made and then it stands.

Default tries give an order; what comes after an opening in that order gives the cost of leaving a hard
spot, which says how many tries pay there; those tries give the order that is told.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.outcome.attempts import STEADY
from advisor.outcome.drawn import Drawn
from advisor.outcome.walk import HardSpot, walk_way
from advisor.ranking.order import Option, Ordered, best_order, by_rule, expected
from advisor.ranking.same_opening import ends_with_change
from advisor.ranking.score import Ranked, rank, score
from advisor.ranking.stop import StopRule, Try, stop_rule
from advisor.tables.load import Tables
from advisor.worlds.draws import Array
from advisor.worlds.spread import middle

LEAST = 1e-6  # keeps a share of no worlds finite


@dataclass(frozen=True)
class Settled:
    """Routes as they are to be tried, the order of attempts, the tries that pay, and simple rules.

    Where roots that held the last of the attempts leave a smaller head at its opening and nothing after that,
    `change` is that gear with its chance if it comes to it; the minutes and the chance of the order hold it.
    """

    ranked: tuple[Ranked, ...]
    order: Ordered
    attempts: tuple[RouteOutcome, ...]
    stops: dict[tuple[str, int], StopRule]  # (route id, index of the hard spot)
    simple: dict[str, Ordered]
    change: tuple[RouteOutcome, float] | None = None


def settle(outcomes: Sequence[RouteOutcome], drawn: Drawn) -> Settled:
    """Rank, order, find the tries that pay, and order again."""
    tables = drawn.tables
    failing = tables.costs["failing"].likely
    weights = np.ones(drawn.worlds.n)
    ranked = rank(list(outcomes), tables)
    least, most = drawn.likely("least_chance"), round(drawn.likely("most_openings"))
    whole = [r.outcome for r in ranked if r.outcome.chance >= least]
    first = best_order([option_of(o) for o in whole], failing, weights, most)
    by_id = {o.route.id: o for o in whole}
    if first.names:
        later_gear = gear_after([by_id[first.names[0]]], [o for o in outcomes if o.chance >= least], tables)
        then = best_order([option_of(o) for o in (by_id | later_gear).values()], failing, weights, most)
        if then.minutes < first.minutes:
            first, by_id = then, by_id | later_gear
    stops: dict[tuple[str, int], StopRule] = {}
    cut: dict[str, RouteOutcome] = {}
    for place, name in enumerate(first.names):
        later = [option_of(by_id[each]) for each in first.names[place + 1 :]]
        cut[name] = _with_tries_that_pay(by_id[name], later, failing, drawn, stops)
    settled = [cut.get(o.route.id, o) for o in outcomes if o.route.id not in cut or o is by_id[o.route.id]]
    ranked = rank(settled, tables)
    whole = [r.outcome for r in ranked if r.outcome.route.covers >= 1]
    order = best_order([option_of(o) for o in whole if o.chance >= least], failing, weights, most)
    by_id = {o.route.id: o for o in whole}
    attempts, change = tuple(by_id[name] for name in order.names), None
    if (ends := ends_with_change(attempts, outcomes, stops, drawn)) is not None:
        made, gear = ends
        attempts = attempts[:made]
        order = expected([option_of(o) for o in (*attempts, gear)], failing, weights)
        change = gear, order.step_chances[made]
        order = replace(order, names=order.names[:made], step_chances=order.step_chances[:made])
    return Settled(
        _as_tried(ranked, order.names, least),
        order,
        attempts,
        stops,
        _simple_rules(whole, failing, weights, drawn),
        change,
    )


def left_after(failed: Sequence[RouteOutcome], n: int) -> Array:
    """The chance in each world that all of these have failed with nothing lost, float64[n]."""
    left = np.ones(n)
    for each in failed:
        left = left * np.maximum(1 - each.reached - each.walk.lost, 0)
    return left


def gear_after(
    failed: Sequence[RouteOutcome], outcomes: Sequence[RouteOutcome], tables: Tables
) -> dict[str, RouteOutcome]:
    """By its id every other route to all of it, with the gear that is best in the worlds which these leave.

    What stopped a thick head stops it from the next opening too, and may let a thin one through.
    """
    tried = {each.route.id for each in failed}
    left = left_after(failed, len(failed[0].reached))
    found: dict[str, tuple[float, RouteOutcome]] = {}
    for each in outcomes:
        if each.route.covers >= 1 and each.route.id not in tried:
            cost = float(score(each, tables) @ left)
            if each.route.id not in found or cost < found[each.route.id][0]:
                found[each.route.id] = cost, each
    return {name: each for name, (_, each) in found.items()}


def _as_tried(ranked: Sequence[Ranked], names: Sequence[str], least: float) -> tuple[Ranked, ...]:
    """The routes in the order of attempts, then the others as ranked, those that hardly reach it last, and
    behind them those at whose opening nothing goes in.

    So the first of the list is the one to begin with, and nothing told of the first is told of another.
    """

    def place(each: Ranked) -> tuple[int, bool, float]:
        name, chance = each.outcome.route.id, each.outcome.chance
        # Of those that hardly reach it the quickest to fail is no better: the likeliest comes first, and
        # where none is worth trying, what is likely to be seen of it counts.
        shown = chance if names else each.outcome.part_chance * each.outcome.route.covers
        last = 1 - shown if chance < least else 0.0
        return names.index(name) if name in names else len(names), each.outcome.shut, last

    return tuple(sorted(ranked, key=place))


def option_of(outcome: RouteOutcome) -> Option:
    """A route as one attempt of an order."""
    walk = outcome.walk
    return Option(outcome.route.id, outcome.reached, walk.lost, walk.minutes + walk.harm_minutes)


def _with_tries_that_pay(
    outcome: RouteOutcome,
    later: Sequence[Option],
    failing: float,
    drawn: Drawn,
    stops: dict[tuple[str, int], StopRule],
) -> RouteOutcome:
    """The route with each hard spot left when switching pays; the rules found go into `stops`."""
    switch = cost_of(later, failing, drawn.worlds.n)
    walk, spots = outcome.walk, []
    for index, spot in enumerate(outcome.spots):
        beyond = beyond_spot(outcome, index, switch)
        rule = stop_rule(tries_of(spot), walk.stood[index], beyond, switch, failing)
        stops[outcome.route.id, index] = rule
        spots.append(spot.after(rule.tries))
    kept = tuple(spots)
    return replace(outcome, spots=kept, walk=walk_way(outcome.way, kept, drawn))


def beyond_spot(outcome: RouteOutcome, index: int, switch: Array) -> Array:
    """What the rest of the way costs once past a hard spot, in minutes, float[N]; `switch` where it ends.

    The push to the next spot and what may be hurt on the way are part of it.
    """
    walk = outcome.walk
    passed = np.maximum(walk.survive[index + 1], LEAST)
    rest = np.maximum(walk.minutes + walk.harm_minutes - walk.gone[index + 1], 0) / passed
    arrives = np.clip(walk.arrived / passed, 0, 1)
    # Where nothing passed, the worlds weigh nothing beyond: their rest only has to stay finite.
    return np.asarray(np.where(walk.survive[index + 1] > LEAST, rest + (1 - arrives) * switch, switch))


def tries_of(spot: HardSpot) -> list[Try]:
    """The order of a spot written out, one entry a try; a technique's set-up falls on its first."""
    tries = []
    for technique, count in spot.order:
        attempt = spot.tries[technique]
        for number in range(count):
            minutes = 0.0 if technique == STEADY else attempt.minutes
            minutes += attempt.set_up_minutes if number == 0 else 0.0
            through, lost, harm = attempt.ends(spot.chance(technique))
            tries.append(Try(technique, through, np.full_like(through, minutes), lost, harm))
    return tries


def cost_of(options: Sequence[Option], failing: float, n: int) -> Array:
    """What an order costs in each world, float64[n]."""
    going, total, reached = np.ones(n), np.zeros(n), np.zeros(n)
    for option in options:
        total = total + going * option.minutes
        reached = reached + going * option.reached
        going = going * np.maximum(1 - option.reached - option.lost, 0)
    return np.asarray(total + (1 - reached) * failing)


def _simple_rules(
    whole: list[RouteOutcome], failing: float, weights: Array, drawn: Drawn
) -> dict[str, Ordered]:
    """What three rules of thumb would do, for comparison."""
    if not whole:
        return {}
    keys = {
        "nearest first": [middle(o.march.end.at) for o in whole],
        "largest pipe first": [-o.route.opening.wall.nominal.value for o in whole],
        "easiest to open first": [_to_open(o, drawn) for o in whole],
    }
    options = [option_of(o) for o in whole]
    most = round(drawn.likely("most_openings"))
    found = {name: by_rule(options, key, failing, weights, most) for name, key in keys.items()}
    found["decline"] = expected([], failing, weights)
    return found


def _to_open(outcome: RouteOutcome, drawn: Drawn) -> float:
    """Likely minutes until an opening is open."""
    hole = outcome.route.opening.hole
    assert hole is not None
    digging = drawn.tables.costs["dig_up"].likely if hole.buried else 0.0
    return drawn.tables.openings[hole.kind].open_minutes.likely + digging
