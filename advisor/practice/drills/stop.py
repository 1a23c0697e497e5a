"""Stop or go on: after some failed tries at a hard spot, is one more worth its minutes?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from advisor.outcome.assess import RouteOutcome
from advisor.outcome.attempts import STEADY
from advisor.outcome.walk import HardSpot
from advisor.practice.drill import Ask, Drill, Option, harmful
from advisor.practice.drills.technique import harms, why
from advisor.practice.glossary import drill_of
from advisor.practice.marks import Marks
from advisor.practice.place import caution, drain, in_a_hundred, spot_words, trouble
from advisor.practice.scene import School, drains, open_to_push, pick, shuffled
from advisor.practice.solvable import hard_enough
from advisor.practice.values import LEAVE, TRIES, Move, doubt, most_tries, moves_at, next_ways
from advisor.result.study import Study
from advisor.worlds.draws import Array

MOST = 4
_STOP = "stop:"
_HINT = (
    "What has failed was likely hard, though one more of it may pass. Weigh the minutes of one more try "
    "against the cost of leaving it."
)


def make(school: School, seed: int, after: str) -> Drill:
    """A hard spot after a drawn number of failures."""
    spares = []
    for study in school.sites(seed, drains):
        if not open_to_push(study):
            continue
        for outcome in study.settled.attempts:
            for index, spot in enumerate(outcome.spots):
                if not hard_enough(spot, study):
                    continue
                found = of_spot(study, outcome, index, seed)
                if found.about != after and _decided(found, school.marks):
                    return found
                spares.append(found)
    assert spares, "no hard spot to practise on"
    return max(spares, key=lambda drill: _decided(drill, school.marks))


def _decided(drill: Drill, marks: Marks) -> bool:
    """False where going on and leaving cannot be told apart: that is no question."""
    good = [option for option in drill.asks[0].options if marks.full(option)]
    return len({option.words.startswith(_STOP) for option in good}) == 1


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
    unsafe = {m.name: harms(spot, study, m.name) for m in chosen if m.name != LEAVE}
    good = [m for m in chosen if m.name == LEAVE or (_wins(study, m) and not unsafe[m.name])]
    best = min(good, key=lambda move: move.minutes)
    options = []
    for move in chosen:
        regret = max(move.minutes - best.minutes, 0.0)
        if move.name == LEAVE:
            words = f"{_STOP} {_onward(study, outcome, moves.best.weights)}"
            told = _why_leave(study, move, good, tried)
        else:
            minutes = wasted(spot, move.name, tried)
            words = f"go on: {move.name}, some {minutes:.0f} min"
            told = (*why(spot, study, move.name), *_chance_words(study, spot, move, tried))
            # A try that cannot pass wastes its minutes, however unsure the rest is.
            regret = regret if move in good else max(regret, minutes)
        open_by = doubt(move.costs, best.costs, move.weights) if move in good else 0.0
        told = (*told, _weighed(study, move))
        options.append(Option(words, regret, open_by, 0.0, told, unsafe.get(move.name)))
    told_of = caution(study, "wedged-head", float(spot.spot.station.at.mean()))
    why_not = "Levered in, it only wedges tighter."
    options.append(harmful("go on: clamp the rod and lever it in", why_not, told_of, options))
    ordered = tuple(options[i] for i in shuffled(seed, "stop", len(options)))
    names = ", ".join(f"{name} {count}x" for name, count in tried.items())
    story = (
        *trouble(study),
        *spot_words(study, outcome, spot),
        f"Failed so far: {names}.",
        f"A job left undone counts as {_failing(study):.0f} min.",
    )
    about = max(spot.rulings, key=lambda ruling: ruling.share).variant
    asks = (Ask("Go on, or stop?", ordered, _HINT),)
    return drill_of(study, "stop", seed, about, story, asks, drain(study, [outcome], open_with=False))


def _why_leave(study: Study, leave: Move, good: Sequence[Move], tried: Mapping[str, int]) -> tuple[str, ...]:
    """What leaving is weighed against: the best try that is left, in minutes and in what stays undone."""
    left = [move for move in good if move.name != LEAVE]
    if not left:
        return ("Cause: what has failed was likely hard, and nothing that is left wins much.",)
    go = min(left, key=lambda move: move.minutes)
    less = ("Cause: what has failed was likely hard: each further try of it is worth less.",)
    work, undone = (a - b for a, b in zip(_split(study, leave), _split(study, go), strict=True))
    return (
        *(less if go.name in tried else ()),
        f"The best try left, {go.name}, passes {in_a_hundred(go.chance)}; then comes the rest of the way.",
        f"Against it leaving {'saves' if work <= 0 else 'costs'} {abs(work)} min of work and leaves "
        f"{abs(undone)} in 100 {'more' if undone >= 0 else 'fewer'} undone.",
    )


def _split(study: Study, move: Move) -> tuple[int, int]:
    """Minutes of work, and how many of 100 are left undone in the end."""
    return round(move.minutes - move.undone * _failing(study)), round(100 * move.undone)


def _weighed(study: Study, move: Move) -> str:
    """The minutes of a move with all that comes after it, as they add up."""
    work, undone = _split(study, move)
    whole = round(move.minutes)
    return f"On average {whole} min from here: {work} of work, {whole - work} for the {undone} in 100 undone."


def _failing(study: Study) -> float:
    return study.tables.costs["failing"].likely


def _wins(study: Study, move: Move) -> bool:
    return move.chance >= study.drawn.likely("worth_trying") / 2


def _chance_words(study: Study, spot: HardSpot, move: Move, tried: Mapping[str, int]) -> tuple[str, ...]:
    """What one more try wins; what has failed and is the thing to do again has a reason of its own."""
    if tried.get(move.name, 0) >= most_tries(study, move.name):
        return ("It is spent: what these tries did not win, one more does not win either.",)
    if not _wins(study, move):
        against = any(move.name in ruling.rejected for ruling in spot.rulings)
        return ("By the rules it is no try here." if against else "It adds hardly anything to what failed.",)
    passes = f"After what failed it passes {in_a_hundred(move.chance)}."
    if not tried.get(move.name):
        return (passes,)
    again = "Drawn back and let forward anew, the nose does not meet it as before"
    return (f"{again}; {most_tries(study, move.name)} times in all, then the same ends the same.", passes)


def wasted(spot: HardSpot, name: str, tried: Mapping[str, int]) -> float:
    """Minutes of one more try; setting it up is paid the first time."""
    return spot.tries[name].minutes + (0.0 if tried.get(name) else spot.tries[name].set_up_minutes)


def _onward(study: Study, outcome: RouteOutcome, weights: Array) -> str:
    """What leaving leads to, in the worlds that are left."""
    later = next_ways(study, _here(outcome), weights)
    if not later:
        return "leave it, and push nowhere else"
    way = later[0]
    if way.route.opening.name == outcome.route.opening.name:
        return f"draw it out, and go in here again with {way.loadout.name}"
    return f"leave it, and go in at {way.route.opening.name} with {way.loadout.name}"


def _here(outcome: RouteOutcome) -> list[tuple[str, str]]:
    return [(outcome.route.id, outcome.loadout.name)]
