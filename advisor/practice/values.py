"""What each move at a hard spot costs in expected minutes, as the planner weighs it: for hints and grades."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.outcome.attempts import NO_TRY, STEADY, TECHNIQUES
from advisor.outcome.walk import HardSpot
from advisor.ranking.order import best_order
from advisor.ranking.settle import beyond_spot, cost_of, option_of
from advisor.ranking.stop import Try, stop_rule
from advisor.result.study import Study
from advisor.worlds.draws import Array

LEAVE = "leave"
LEAST_WEIGHT = 1e-9  # of all worlds together; under it nothing drawn fits what happened
TRIES = tuple(name for name in TECHNIQUES if name not in NO_TRY)


@dataclass(frozen=True)
class Move:
    """One move: its expected minutes with everything after it, in each world, and the chance it passes.

    `undone` is the chance that the target is not seen in the end, its cost of failing a part of the minutes.
    """

    name: str
    costs: Array
    chance: float
    weights: Array
    undone: float = 0.0

    @property
    def minutes(self) -> float:
        """Expected minutes, the cost of failing counted in."""
        return _mean(self.costs, self.weights)


@dataclass(frozen=True)
class Moves:
    """The moves at a hard spot, best first.

    That is by their minutes, but where it is worth trying at all a gentle push comes before anything else, as
    on the plan: it tells what holds, and a stroke that was not needed may harm the rod.
    """

    moves: tuple[Move, ...]

    @property
    def best(self) -> Move:
        """The move to make."""
        return self.moves[0]

    def of(self, name: str) -> Move:
        """The move of that name."""
        return next(move for move in self.moves if move.name == name)

    def regret(self, name: str) -> tuple[float, float]:
        """Minutes that a move costs over the best, and how far the drawn worlds leave that open."""
        own, best = self.of(name), self.best
        return own.minutes - best.minutes, doubt(own.costs, best.costs, own.weights)


def most_tries(study: Study, technique: str) -> int:
    """How often a technique is counted to be worth trying in one place; one more only repeats the last."""
    if technique == STEADY:
        return round(study.drawn.likely("easy_pushes"))
    counted = study.tables.limits.get(f"tries, {technique}")
    return 1 if counted is None else round(study.drawn.likely(f"tries, {technique}"))


def doubt(costs: Array, best: Array, weights: Array) -> float:
    """Two standard errors of a difference of means over the same weighted worlds, minutes."""
    gap = np.asarray(costs, np.float64) - best
    share = np.asarray(weights, np.float64)
    total = float(share.sum())
    if total <= 0:
        return 0.0
    share = share / total
    spread = float((share * (gap - float((share * gap).sum())) ** 2).sum())
    return 2 * float(np.sqrt(spread * float((share**2).sum())))


def weights_after(study: Study, left: Sequence[tuple[str, str]]) -> Array:
    """Weights of the worlds once these ways in have failed without loss: 1 - P - lost multiplies each."""
    weights = np.ones(study.worlds)
    for outcome in _settled(study):
        if (outcome.route.id, outcome.loadout.name) in left:
            weights = weights * np.maximum(1 - outcome.walk.arrived - outcome.walk.lost, 0)
    return weights if float(weights.sum()) > LEAST_WEIGHT else np.ones(study.worlds)


def next_ways(study: Study, left: Sequence[tuple[str, str]], weights: Array) -> tuple[RouteOutcome, ...]:
    """The ways in worth trying after those left, in their order; none where to give up is better."""
    failing = study.tables.costs["failing"].likely
    ways = {
        f"{o.route.id}|{o.loadout.name}": o
        for o in _settled(study)
        if o.route.covers >= 1 and not o.way.closed and (o.route.id, o.loadout.name) not in left
    }
    options = [replace(option_of(o), name=name) for name, o in ways.items()]
    most = round(study.drawn.likely("most_openings"))
    return tuple(ways[name] for name in best_order(options, failing, weights, most).names)


def order_costs(study: Study, order: Sequence[RouteOutcome]) -> Array:
    """What it costs in each world to try these ways in one after the other; failing where there is none."""
    failing = study.tables.costs["failing"].likely
    return np.asarray(cost_of([option_of(outcome) for outcome in order], failing, study.worlds))


def order_undone(study: Study, order: Sequence[RouteOutcome]) -> Array:
    """The chance in each world that this order does not see the target."""
    options = [option_of(outcome) for outcome in order]
    return np.asarray(cost_of(options, 1, study.worlds) - cost_of(options, 0, study.worlds))


def _settled(study: Study) -> tuple[RouteOutcome, ...]:
    """Every way in, those of the plan's order with the tries that pay."""
    kept = {(o.route.id, o.loadout.name): o for o in study.settled.attempts}
    return tuple(kept.get((o.route.id, o.loadout.name), o) for o in study.outcomes)


@dataclass(frozen=True)
class Standing:
    """Before a hard spot: what has failed there, what the worlds weigh, what going on and leaving cost."""

    hard: HardSpot
    tried: Mapping[str, int]
    weights: Array
    beyond: Array
    switch: Array
    failing: float
    most: Mapping[str, int]  # tries of each technique that count
    # Of `beyond` and `switch`, the chance that the target is not seen.
    beyond_undone: Array | float = 0.0
    switch_undone: Array | float = 1.0

    def leave(self) -> Move:
        """Leaving it for what comes instead."""
        undone = _mean(np.zeros_like(self.weights) + self.switch_undone, self.weights)
        return Move(LEAVE, np.asarray(self.switch), 0.0, self.weights, undone)

    def cost(self, made: Sequence[Try], rest: Sequence[Try]) -> Move:
        """The tries `made`, whatever comes, and then those of `rest` as long as they pay."""
        left = self.weights
        for each in made:
            left = left * (1 - each.chance) * (1 - each.lost)
        pays = stop_rule(rest, left, self.beyond, self.switch, self.failing).tries
        going = np.ones_like(self.weights)
        costs, undone = np.zeros_like(self.weights), np.zeros_like(self.weights)
        for each in (*made, *rest[:pays]):
            failed = (1 - each.chance) * each.lost
            once = each.minutes + each.harm_minutes + each.chance * self.beyond + failed * self.failing
            costs = costs + going * once
            undone = undone + going * (each.chance * self.beyond_undone + failed)
            going = going * (1 - each.chance) * (1 - each.lost)
        costs = costs + going * self.switch
        passes = 1 - _mean(np.prod([1 - each.chance for each in made], axis=0), self.weights)
        undone = undone + going * self.switch_undone
        return Move(made[0].technique, costs, passes, self.weights, _mean(undone, self.weights))

    def rest(self, made: Sequence[str], never: str = "") -> list[Try]:
        """What of the plan's tries is left once those of `made` are made too."""
        return [
            self.once(name, again=number > 0 or self.tried.get(name, 0) > 0 or name in made)
            for name, count in self.hard.order
            for number in range(count - self.tried.get(name, 0) - made.count(name))
            if name != never
        ]

    def once(self, name: str, again: bool) -> Try:
        """One try; setting it up is paid the first time."""
        return _try(self.hard, name, again)

    def next(self, name: str) -> Try:
        """The next try of a technique; one that is spent passes nowhere."""
        made = self.once(name, self.tried.get(name, 0) > 0)
        spent = self.tried.get(name, 0) >= self.most[name]
        return replace(made, chance=np.zeros_like(made.chance)) if spent else made


def standing(
    study: Study,
    outcome: RouteOutcome,
    index: int,
    tried: Mapping[str, int],
    left: Sequence[tuple[str, str]] = (),
    seen: str | None = None,
) -> Standing:
    """The head before the hard spot number `index` of a way.

    `tried` counts the failed tries of each technique there, `left` the ways in already given up, `seen`
    what the lens shows the fitting to be. Failed tries and openings weigh the worlds, as in the stop rule.
    """
    hard = outcome.spots[index]
    weights = outcome.walk.stood[index] * _seen(study, hard, seen) * weights_after(study, left)
    for name, count in tried.items():
        weights = weights * ((1 - hard.chance(name)) * (1 - hard.tries[name].lost)) ** count
    if float(weights.sum()) <= LEAST_WEIGHT:
        weights = np.ones(study.worlds)  # it happened, though no drawn world has it so
    failing = study.tables.costs["failing"].likely
    gone = (*left, (outcome.route.id, outcome.loadout.name))
    onward = next_ways(study, gone, weights)
    switch, undone = order_costs(study, onward), order_undone(study, onward)
    # What the rest of the way costs grows straight with what leaving costs.
    then_undone = beyond_spot(outcome, index, undone) - beyond_spot(outcome, index, np.zeros_like(undone))
    most = {name: most_tries(study, name) for name in hard.tries}
    beyond = beyond_spot(outcome, index, switch)
    return Standing(hard, tried, weights, beyond, switch, failing, most, then_undone, undone)


def moves_at(
    study: Study,
    outcome: RouteOutcome,
    index: int,
    tried: Mapping[str, int],
    left: Sequence[tuple[str, str]] = (),
    seen: str | None = None,
) -> Moves:
    """Every technique and leaving, at the hard spot number `index` of a way; arguments as `standing`."""
    here = standing(study, outcome, index, tried, left, seen)
    found = [here.cost([here.next(name)], here.rest([name])) for name in TRIES]
    found.append(here.leave())
    best, *rest = sorted(found, key=lambda move: (move.minutes, move.name))
    gently = None if tried.get(STEADY) else next((move for move in rest if move.name == STEADY), None)
    if gently is not None and best.name != LEAVE:
        return Moves((gently, best, *(move for move in rest if move is not gently)))
    return Moves((best, *rest))


def order_cost(here: Standing, first: Sequence[str], never: str = "") -> Move:
    """What it costs to try all of `first` in that order, then what pays of the plan without `never`.

    The chance told is that of passing by all of the tries there are.
    """
    made, rest = [here.next(name) for name in first], here.rest(list(first), never)
    if not made:
        made, rest = rest[:1], rest[1:]
    if not made:
        return replace(here.leave(), name="nothing")
    left = np.ones_like(here.weights)
    for each in (*made, *rest):
        left = left * (1 - each.chance) * (1 - each.lost)
    return replace(here.cost(made, rest), chance=1 - _mean(left, here.weights))


def _try(hard: HardSpot, name: str, again: bool) -> Try:
    attempt = hard.tries[name]
    through, lost, harm = attempt.ends(hard.chance(name))
    minutes = attempt.minutes + (0.0 if again else attempt.set_up_minutes)
    if name == STEADY and not again:
        minutes = 0.0  # the first push is part of getting there
    return Try(name, through, np.full_like(through, minutes), lost, harm)


def _seen(study: Study, hard: HardSpot, seen: str | None) -> Array:
    piece = hard.passage.piece
    if seen is None or piece.fitting is None or hard.passage.step is not None:
        return np.ones(study.worlds)
    names, choice = study.drawn.variant(piece)
    return np.asarray(choice == names.index(seen), np.float64)


def _mean(values: Array, weights: Array) -> float:
    total = float(np.asarray(weights).sum())
    return float((np.asarray(values) * weights).sum() / total) if total > 0 else float(np.mean(values))
