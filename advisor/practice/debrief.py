"""The debrief: the push walked back, each decision with its numbers, the best move there and why."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from advisor.outcome.attempts import STEADY
from advisor.outcome.walk import HardSpot
from advisor.practice import acts
from advisor.practice.acts import State, Step
from advisor.practice.barred import barred
from advisor.practice.drills.technique import harms, why
from advisor.practice.less import Less, leaned_on, less_for
from advisor.practice.marks import marks_of
from advisor.practice.place import caution, in_a_hundred
from advisor.practice.policies import moves_ahead, spot_ahead
from advisor.practice.simulate import Push
from advisor.practice.so_here import as_shown, held_by_now, what_held
from advisor.practice.values import LEAVE, Move, doubt, next_ways, order_costs, weights_after
from advisor.quantity import Dimension, show
from advisor.result.spots import place_name
from advisor.result.why_hard import by_share
from advisor.rulebase.rule import Caution
from advisor.tables.conditions import ROOTS

_DID = {
    acts.SLOW: "pushed slowly",
    acts.FIRM: "pushed firmly",
    acts.QUICK: "made a quick push",
    acts.TURN: "turned the rod's curl",
    acts.STRING: "pulled with the string",
    acts.WATER: "ran water and pushed",
    acts.GUIDE: "fitted a guide",
    acts.CLEAN: "had it cleaned first",
    acts.CHANGE: "left for another opening",
    acts.GIVE_UP: "gave up",
}
_GENTLY = "a slow push"
_NO_MORE = "it passes no oftener than a slow push"
_LEANED = {
    "under water": ("in water", "With the lens under water a push is made gently or not at all."),
    ROOTS: ("with roots seen", "Among roots a push is made gently or not at all."),
}
_LEFT = "leave it for another opening or other gear"


@dataclass(frozen=True)
class Decision:
    """One decision: where, what was done, what it cost over the best (minutes), the best, and why."""

    where: str
    did: str
    regret: float
    doubt: float
    best: str
    why: tuple[str, ...]
    unsafe: Caution | None = None
    graded: bool = True  # else only a word on the way
    less: tuple[Less, ...] = ()  # what it earns less for beside its minutes


def debrief(push: Push, end: State, hints: Mapping[int, int] | None = None) -> tuple[Decision, ...]:
    """Every decision of a push that has ended, in its order; `hints`: how many were told before each step."""
    found: list[Decision] = []
    state = push.start
    for number, step in enumerate(end.steps):
        made = _decision(push, state, step, (hints or {}).get(number, 0))
        if made is not None and (made.graded or made not in found):  # a remark is made once
            found.append(made)
        state = push.act(state, step.act)
    return tuple(found)


def _decision(push: Push, state: State, step: Step, hints: int) -> Decision | None:
    if step.act.kind == acts.OPEN or (step.act.kind == acts.GIVE_UP and state.way is None):
        return replace(_opening(push, state, step), less=less_for(push, state, step, None, hints))
    if step.act.kind in (acts.LOOK, acts.CLOSER, acts.BACK) or state.way is None:
        return None
    if step.act.kind in (acts.SLOW, acts.FIRM) and state.shown != state.index:
        return _hands(push, state)
    return _at_spot(push, state, step, hints)


def _opening(push: Push, state: State, step: Step) -> Decision:
    study = push.study
    weights = weights_after(study, state.left)
    onward = next_ways(study, state.left, weights)
    best, did, own = order_costs(study, onward), "gave up", order_costs(study, [])
    if step.act.way is not None:
        chosen = push.truth.believed(step.act.way)
        gone = (*state.left, step.act.way)
        then = next_ways(study, gone, weights_after(study, gone))
        own = order_costs(study, [chosen, *then])
        did = f"went in at {chosen.route.opening.name} with {chosen.loadout.name}"
        did += f" ({float(chosen.reached.mean()):.0%} to see the target)"
    words = "give up: nothing left is worth its minutes"
    if onward:
        words = f"{onward[0].route.opening.name} with {onward[0].loadout.name} ({onward[0].chance:.0%})"
    share = weights / weights.sum()
    regret = float((share * (own - best)).sum())
    return Decision("At the openings", did, regret, doubt(own, best, weights), words, ())


def _hands(push: Push, state: State) -> Decision | None:
    """Only hands so far out that the push suffered are worth a word."""
    assert state.way is not None
    if not push.truth.bows(state.way, state.hands):
        return None
    wanted = float(push.truth.drawn.limit("push_force")[0])
    had = push.truth.push(state.way, state.hands, firm=False)
    units, here = push.study.units, show(state.hands, Dimension.LENGTH, push.study.units)
    lost = show(wanted - had, Dimension.FORCE, units)
    why_not = (
        "Cause: a free rod that is pushed folds sideways. Half as long, it carries four times as much.",
    )
    return Decision(
        f"Hands {here} from the opening",
        f"pushed on; the rod bowed and {lost} of the push did not arrive",
        0.0,
        0.0,
        "hands closer before pushing",
        why_not,
        graded=False,
    )


def _at_spot(push: Push, state: State, step: Step, hints: int) -> Decision | None:
    assert state.way is not None
    spot, moves = spot_ahead(push, state), moves_ahead(push, state)
    at = show(state.counter, Dimension.LENGTH, push.study.units)
    on = leaned_on(push, state, step)
    under = caution(push.study, "wedged-head", state.counter) if on is not None else None
    slowly = f"{_LEANED[on][1]} {push.study.base.matrix.cells[STEADY, on].why}" if on is not None else ""
    did, name = _DID[step.act.kind], acts.TRY_OF.get(step.act.kind, LEAVE)
    roots = barred(push.truth, state, name)
    driven = caution(push.study, "wedged-head", state.counter) if roots is not None and roots.harms else None
    if spot is None or moves is None:
        if on is not None:
            return Decision(f"At {at}, {_LEANED[on][0]}", did, 0.0, 0.0, _GENTLY, (slowly,), under)
        if roots is not None:  # no plan told of them, but the lens did
            because, graded = (_against(step, roots.why),), driven is not None
            return Decision(f"At {at}, {_LEANED[ROOTS][0]}", did, 0.0, 0.0, _GENTLY, because, driven, graded)
        return None  # the plan told nothing of this place, so nobody could have known
    best = next(move for move in moves.moves if barred(push.truth, state, move.name) is None)
    own = moves.of(name)
    if step.act.kind == acts.GIVE_UP:  # the job left undone, whatever else could have been opened
        failing = np.full(push.study.worlds, push.study.tables.costs["failing"].likely)
        own = replace(own, costs=failing)
    # What is quicker than the gentle push before it is no better for that, and no worse.
    regret, open_by = max(own.minutes - best.minutes, 0.0), doubt(own.costs, best.costs, best.weights)
    unsafe = harms(spot, push.study, name) if name != LEAVE else None
    spent = state.tried(state.index).get(name, 0) >= push.luck.book(name)
    if spent and step.act.kind == acts.FIRM:  # leaning on it, which no drill lets pass
        unsafe = caution(push.study, "wedged-head", state.counter)
    unsafe = unsafe or under or driven
    lines = [f"Expected in all: yours {own.minutes:.0f} min, best {best.minutes:.0f} min."]
    if spent:
        lines.append("Tried more often than it pays: the same again ends the same way.")
    here = as_shown(push, state, spot, name)
    against = next((r.rejected[name].because for r in by_share(here) if name in r.rejected), None)
    against = roots.why if roots is not None else against
    if against is not None and (step.passed or roots is not None):
        lines.append(_against(step, against))
    said = did if name == LEAVE else f"{did} ({_chance(own.chance, against)})"
    if against is None and name in spot.tries and step.chance and not spot.tries[name].chance.any():
        said = f"{did} ({_NO_MORE})"  # none by the plan, and the gentle push that goes with it passes as ever
    if regret > max(marks_of(push.study.tables).full_within, open_by):
        lines = [*reasons(push, state, step, best, own), *lines]
    lines = [*what_held(push, state, step), *lines]
    if slowly:
        lines.insert(0, slowly)
    told = _LEFT if best.name == LEAVE else f"{_called(best)} ({_chance(best.chance, None)})"
    return Decision(
        f"At {at}, {place_name(as_shown(push, state, spot), push.study.reader)}",
        said,
        regret,
        open_by,
        told,
        tuple(lines),
        unsafe,
        less=less_for(push, state, step, moves, hints),
    )


def reasons(push: Push, state: State, step: Step, best: Move, own: Move) -> tuple[str, ...]:
    """Why the best is better; once a try has failed there, only by what held it in this drain."""
    spot, row = spot_ahead(push, state), held_by_now(push, state)
    assert spot is not None
    failed, before = bool(what_held(push, state, step)), best.name in state.tried(state.index)
    if row is None or not (failed or before):
        return why_better(push, as_shown(push, state, spot, best.name), best, own)
    if best.name != LEAVE:
        called, cell = _called(best), push.study.base.matrix.cells[best.name, row.trouble]
        if not cell.allowed:
            return (f"By the plan {called} was the best. In this drain it was none: {cell.why}",)
        if before:
            return (f"{called.capitalize()} had failed here before; by the plan one more was worth it.",)
        return why_better(push, as_shown(push, state, spot, best.name), best, own)
    if own.chance > push.study.drawn.likely("worth_trying"):
        return ("It might have passed, but this way as a whole costs more than leaving it does.",)
    here = as_shown(push, state, spot, own.name)
    if any(own.name in ruling.rejected for ruling in here.rulings):
        return why_better(push, here, best, own)
    return ()


def _called(move: Move) -> str:
    return _GENTLY if move.name == STEADY else move.name


def why_better(push: Push, spot: HardSpot, best: Move, own: Move) -> tuple[str, ...]:
    """Why the best is better: by what it cures, or, where it is to leave, by what the own try could win."""
    if best.name != LEAVE:
        return why(spot, push.study, best.name)
    if own.name == LEAVE:
        return ()
    if own.chance <= push.study.drawn.likely("worth_trying"):
        return why(spot, push.study, own.name)
    return ("It may well pass, but this way as a whole costs more than leaving it does.",)


def _against(step: Step, because: str) -> str:
    passed = "It passed this time, by luck. " if step.passed else ""
    return f"{passed}By the rules it is no try here: {because}"


def _chance(chance: float, against: str | None) -> str:
    """A chance of one try; where a rule is against it, that and no number."""
    return "by the rules no try here" if against is not None else f"it passes {in_a_hundred(chance)}"
