"""Choose and order the technique at a hard spot, and name the one that cannot work there."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.outcome.attempts import STEADY
from advisor.outcome.rulings import Ruling
from advisor.outcome.walk import HardSpot
from advisor.practice.cause import UNLESS, cause, cures, variant_of
from advisor.practice.drill import Ask, Drill, Option, harmful
from advisor.practice.glossary import drill_of
from advisor.practice.marks import marks_of
from advisor.practice.place import caution, drain, in_a_hundred, spot_words, trouble
from advisor.practice.scene import School, drains, open_to_push, shuffled
from advisor.practice.solvable import hard_enough
from advisor.practice.values import TRIES, Move, doubt, moves_at, order_cost, standing
from advisor.result.study import Study
from advisor.result.why_hard import by_share
from advisor.rulebase.rule import Caution
from advisor.rulebase.trace import Firing

MOST = 4
_HINT = (
    "Ask what stops the head: the nose, the rod end behind it, or the way it goes. What cures one does "
    "nothing for another. Then free before slow."
)


def make(school: School, seed: int, after: str) -> Drill:
    """A hard spot where at least one technique helps and one cannot; another fitting than `after`."""
    spare = None
    for study in school.sites(seed, drains):
        if not open_to_push(study):
            continue
        for outcome in study.settled.attempts:
            for index, spot in enumerate(outcome.spots):
                found = of_spot(study, outcome, index, seed) if suits(spot, study) else None
                if found is None:
                    continue
                if found.about != after:
                    return found
                spare = spare or found
    assert spare is not None, "no hard spot to practise on"
    return spare


def suits(spot: HardSpot, study: Study) -> bool:
    """True where a gentle push often fails, something else helps, and something cannot."""
    stuck = hard_enough(spot, study)
    return stuck and len(spot.order) > 2 and bool(impossible(spot, study))


def impossible(spot: HardSpot, study: Study) -> list[str]:
    """Techniques that pass in hardly any world there, or that a rule rejects in every one."""
    least = study.drawn.likely("worth_trying")
    return [name for name in TRIES if name != STEADY and float(spot.chance(name).mean()) < least / 2]


def of_spot(study: Study, outcome: RouteOutcome, index: int, seed: int) -> Drill | None:
    """The drill of one hard spot; None where fewer than two techniques win anything: then there is no order.

    What the matrix has against what holds the head there is not spoken of, whatever it would win.
    """
    spot = outcome.spots[index]
    moves = moves_at(study, outcome, index, {STEADY: 1})
    cannot = impossible(spot, study)
    tries = [
        move
        for move in moves.moves
        if move.name in TRIES
        and move.name != STEADY
        and (move.name in cannot or cures(spot, study, move.name))
    ]
    if len(_winning(study, tries)) < 2:
        return None
    told = (*trouble(study), *spot_words(study, outcome, spot), "A gentle push did not pass.")
    asks = (_order(study, outcome, index, tries, seed), _reject(study, outcome, index, tries, seed))
    about = max(spot.rulings, key=lambda ruling: ruling.share).variant
    return drill_of(study, "technique", seed, about, told, asks, drain(study, [outcome], open_with=False))


def _order(study: Study, outcome: RouteOutcome, index: int, tries: Sequence[Move], seed: int) -> Ask:
    """Orders of two: the best, its reverse, and orders that begin with something else."""
    wins = [move.name for move in _winning(study, tries)]
    others = [move.name for move in tries if move.name not in wins]
    good = [(wins[0], wins[1]), (wins[1], wins[0]), (wins[0], wins[-1]), (wins[-1], wins[0])]
    spot = outcome.spots[index]
    here = standing(study, outcome, index, {STEADY: 1})
    costs = {pair: order_cost(here, pair) for pair in dict.fromkeys(good)}
    best = min(costs.values(), key=lambda move: move.minutes)
    for idle in others[:1]:
        for pair in ((wins[0], idle), (idle, wins[0])):
            made = order_cost(here, pair)
            if made.minutes > best.minutes:  # a try that wins nothing is no part of an answer
                costs[pair] = made
    options = [
        Option(
            f"{first}, then {second}",
            move.minutes - best.minutes,
            doubt(move.costs, best.costs, move.weights),
            best.chance - move.chance,
            (
                *why(spot, study, first),
                f"A try of {first} passes {in_a_hundred(_share(tries, first))}, "
                f"one of {second} {in_a_hundred(_share(tries, second))}.",
            ),
            harms(spot, study, first) or harms(spot, study, second),
        )
        for (first, second), move in costs.items()
    ]
    told = caution(study, "wedged-head", float(spot.spot.station.at.mean()))
    why_not = "A head that is driven in does not come out."
    options.append(harmful("lean on it hard until it goes", why_not, told, options))
    ordered = tuple(options[i] for i in shuffled(seed, "order", len(options)))
    return Ask("What do you try, in which order?", ordered, _HINT)


def _reject(study: Study, outcome: RouteOutcome, index: int, tries: Sequence[Move], seed: int) -> Ask:
    """Which one is not worth thinking of: costs what giving it up loses."""
    spot = outcome.spots[index]
    cannot = impossible(spot, study)
    helps = [move.name for move in _winning(study, tries) if move.name not in cannot]
    choices = [*helps[: MOST - 1], cannot[shuffled(seed, "cannot", len(cannot))[0]]]
    here = standing(study, outcome, index, {STEADY: 1})
    whole, nothing_from = order_cost(here, ()), marks_of(study.tables).nothing_from
    options = []
    for name in choices:
        without = order_cost(here, (), never=name)
        regret = max(without.minutes - whole.minutes, 0.0)
        if name not in cannot:
            # Wrong, even where others make up for it.
            regret = max(regret, nothing_from * _share(tries, name))
        told = why(spot, study, name) or (f"A try of {name} passes {in_a_hundred(_share(tries, name))}.",)
        options.append(Option(name, regret, 0.0, max(whole.chance - without.chance, 0.0), told))
    ordered = tuple(options[i] for i in shuffled(seed, "reject", len(options)))
    return Ask(
        "Which of these cannot work here?",
        ordered,
        "One of them changes nothing that stops it here.",
        loses="can work here: to give it up costs, on average,",
        best_is="What cannot work here",
    )


def _winning(study: Study, tries: Sequence[Move]) -> list[Move]:
    """Those that win so much a try that they are worth one."""
    return [move for move in tries if move.chance > study.drawn.likely("worth_trying")]


def harms(spot: HardSpot, study: Study, name: str) -> Caution | None:
    """The caution of a try that a rule rejects and that can hurt somebody or cost the head.

    That is water into a line that nobody has seen drain, and what the matrix says does harm at a trouble that
    the rules see there, whatever the fitting is.
    """
    rejected = [r.rejected[name] for r in spot.rulings if name in r.rejected]
    if any(firing.rule.about == "site" for firing in rejected):
        return caution(study, "holding-line")
    fired = _fired(spot.rulings)
    troubles = {trouble for firing in fired for trouble in firing.rule.conclusion.troubles}
    if rejected and any(study.base.matrix.cells[name, trouble].harms for trouble in troubles):
        return caution(study, "wedged-head", float(spot.spot.station.at.mean()))
    return None


def why(spot: HardSpot, study: Study, name: str) -> tuple[str, ...]:
    """Why a technique works or does not: the rule that rejects it, else the trouble that it cures.

    What works in some of the things that the fitting may be is told by those, with the others named.
    """
    rejecting = [ruling for ruling in by_share(spot) if name in ruling.rejected]
    if _passes(spot, name) <= study.drawn.likely("worth_trying"):
        if rejecting:
            return cause(rejecting[0].rejected[name])
        stops = [line for line in variant_of(spot, study) if not line.startswith(UNLESS)]
        nothing = f"{name} changes hardly anything of"
        return (
            (*stops, f"But {nothing} that.")
            if stops
            else (f"{nothing.capitalize()} what stops the head here.",)
        )
    others = [
        f"But not if it is a {study.reader.call(ruling.variant)}: {ruling.rejected[name].because}"
        for ruling in rejecting[:1]
    ]
    for firing in _fired([ruling for ruling in by_share(spot) if ruling not in rejecting]):
        if name in firing.rule.conclusion.steps or name in firing.rule.conclusion.techniques:
            return (*cause(firing), *others)
    return tuple(others)


def _passes(spot: HardSpot, name: str) -> float:
    """How often a try passes, over the worlds of all that the fitting may be by the rulings of the spot."""
    where = [ruling.where for ruling in spot.rulings if ruling.where is not None]
    chance = spot.chance(name)
    return float(np.mean(chance[np.any(where, axis=0)] if where else chance))


def _fired(rulings: Sequence[Ruling]) -> list[Firing]:
    return [firing for ruling in rulings for firing in ruling.firings if firing.outcome]


def _share(tries: Sequence[Move], name: str) -> float:
    return next(move.chance for move in tries if move.name == name)
