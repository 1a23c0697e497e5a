"""Stop or go on: after some failed tries at a hard spot, is one more worth its minutes?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from advisor.outcome.assess import RouteOutcome
from advisor.outcome.attempts import STEADY
from advisor.outcome.walk import HardSpot
from advisor.practice.drill import Ask, Drill, Option, harmful
from advisor.practice.drills.technique import harms, why
from advisor.practice.glossary import drill_of
from advisor.practice.place import caution, drain, in_a_hundred, spot_words, trouble
from advisor.practice.scene import School, drains, open_to_push, pick, shuffled
from advisor.practice.solvable import hard_enough
from advisor.practice.values import LEAVE, TRIES, Move, Moves, most_tries, moves_at, next_ways
from advisor.result.study import Study
from advisor.worlds.draws import Array

MOST = 4
_HINT = "What has failed was likely hard. Weigh the minutes of one more try against the cost of leaving it."


def make(school: School, seed: int, after: str) -> Drill:
    """A hard spot after a drawn number of failures."""
    spare = None
    for study in school.sites(seed, drains):
        if not open_to_push(study):
            continue
        for outcome in study.settled.attempts:
            for index, spot in enumerate(outcome.spots):
                if not hard_enough(spot, study):
                    continue
                found = of_spot(study, outcome, index, seed)
                if found.about != after:
                    return found
                spare = spare or found
    assert spare is not None, "no hard spot to practise on"
    return spare


def of_spot(study: Study, outcome: RouteOutcome, index: int, seed: int) -> Drill:
    """The drill of one hard spot; how much has failed is drawn."""
    row = [name for name, count in outcome.spots[index].order for _ in range(count)]
    return of_failures(study, outcome, index, row[: 1 + pick(seed, "failed", len(row))], seed)


def of_failures(study: Study, outcome: RouteOutcome, index: int, failed: Sequence[str], seed: int) -> Drill:
    """The drill of one hard spot after these failed tries."""
    spot = outcome.spots[index]
    tried = {name: failed.count(name) for name in failed}
    moves = moves_at(study, outcome, index, tried)
    shown = [m for m in moves.moves if m.name in TRIES and not (m.name == STEADY and len(spot.order) > 1)]
    chosen = [*shown[: MOST - 1], moves.of(LEAVE)]
    best = min(chosen, key=lambda move: move.minutes)
    options = []
    chance: tuple[str, ...]
    for move in chosen:
        regret, doubt = moves.regret(move.name)
        weighed = (
            f"On average {move.minutes:.0f} min from here, failing counted in; the best {best.minutes:.0f}."
        )
        if move.name == LEAVE:
            words = f"stop: leave it, {_onward(study, outcome, moves.best.weights)}"
            told = _why_leave(moves, next_ways(study, _here(outcome), moves.best.weights))
            chance = ()
        else:
            words = f"go on: {move.name}, some {wasted(spot, move.name):.0f} min"
            told = why(spot, study, move.name)
            chance = (_chance_words(study, move, tried),)
        if move.name != LEAVE and move.chance < study.drawn.likely("worth_trying") / 2:
            # A try that cannot pass wastes its minutes, however unsure the rest is.
            regret, doubt = max(regret, moves.of(LEAVE).minutes - best.minutes + wasted(spot, move.name)), 0.0
        unsafe = harms(spot, study, move.name) if move.name != LEAVE else None
        options.append(Option(words, regret, doubt, 0.0, (*told, *chance, weighed), unsafe))
    least = min(option.regret for option in options if not option.unsafe)
    options = [replace(option, regret=option.regret - least) for option in options]
    told_of = caution(study, "wedged-head", float(spot.spot.station.at.mean()))
    why_not = "Levered in, it only wedges tighter."
    options.append(harmful("go on: clamp the rod and lever it in", why_not, told_of, options))
    ordered = tuple(options[i] for i in shuffled(seed, "stop", len(options)))
    names = ", ".join(f"{name} {count}x" for name, count in tried.items())
    failing = study.tables.costs["failing"].likely
    story = (
        *trouble(study),
        *spot_words(study, outcome, spot),
        f"Failed so far: {names}.",
        f"A job left undone counts as {failing:.0f} min.",
    )
    about = max(spot.rulings, key=lambda ruling: ruling.share).variant
    asks = (Ask("Go on, or stop?", ordered, _HINT),)
    return drill_of(study, "stop", seed, about, story, asks, drain(study, [outcome], open_with=False))


def _why_leave(moves: Moves, later: Sequence[RouteOutcome]) -> tuple[str, ...]:
    """What leaving is weighed against: the best try that is left, and what comes instead."""
    chance = max(move.chance for move in moves.moves if move.name != LEAVE)
    onward = f"the next opening sees it in {100 * later[0].chance:.0f}" if later else "no other opening pays"
    return (
        "Cause: what has failed was likely hard, so each further try is worth less than the one before.",
        f"The best try that is left passes {in_a_hundred(chance)}; {onward}.",
    )


def _chance_words(study: Study, move: Move, tried: Mapping[str, int]) -> str:
    if tried.get(move.name, 0) >= most_tries(study, move.name):
        return "It is spent: what these tries did not win, one more does not win either."
    return f"After what failed it passes {in_a_hundred(move.chance)}."


def wasted(spot: HardSpot, name: str) -> float:
    """Minutes of one try."""
    return spot.tries[name].minutes + spot.tries[name].set_up_minutes


def _onward(study: Study, outcome: RouteOutcome, weights: Array) -> str:
    """What leaving leads to, in the worlds that are left."""
    later = next_ways(study, _here(outcome), weights)
    if not later:
        return "and push nowhere else"
    return f"and go in at {later[0].route.opening.name} with {later[0].loadout.name}"


def _here(outcome: RouteOutcome) -> list[tuple[str, str]]:
    return [(outcome.route.id, outcome.loadout.name)]
