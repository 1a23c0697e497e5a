"""What a decision of a simulated push earns less for, beside its minutes: help, a wrong guess, force."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.outcome.attempts import STEADY
from advisor.practice import acts, signs
from advisor.practice.acts import State, Step
from advisor.practice.simulate import Push
from advisor.practice.values import Moves
from advisor.tables.conditions import ROOTS


@dataclass(frozen=True)
class Less:
    """A share of one decision that is not earned, and what for."""

    share: float
    words: str


def less_for(push: Push, state: State, step: Step, moves: Moves | None, hints: int) -> tuple[Less, ...]:
    """All that one step earns less for; `hints` were asked for before it."""
    share = push.study.drawn.likely
    found = []
    if hints:
        told = "you were told what to do" if hints > 1 else "you were told where to look"
        found.append(Less(share("less_what_to_do" if hints > 1 else "less_where_to_look"), told))
    if wrong_feel(step):
        found.append(
            Less(
                share("less_wrong_feel"),
                f"you expected it to feel {step.act.expects}; it felt {step.seen.feel}",
            )
        )
    if step.act.kind == acts.FIRM and state.shown == state.index and moves and moves.best.name == STEADY:
        found.append(
            Less(
                share("less_needless_force"),
                "a gentle push is the best here, and force kinks rods and wedges heads",
            )
        )
    return tuple(found)


def wrong_feel(step: Step) -> bool:
    """Whether a firm push that did not pass felt otherwise than it was expected to."""
    return bool(step.act.expects) and step.act.expects != step.seen.feel and not step.passed


def leaned_on(push: Push, state: State, step: Step) -> str | None:
    """What a firm push leans on that is pushed at gently or not at all, as the matrix of the rules calls it.

    Under water nobody sees what it drives the head against; roots that do not part hold the head for good.
    """
    firm = step.act.kind == acts.FIRM and state.shown == state.index
    return {"water": "under water", ROOTS: ROOTS}.get(signs.view(push.truth, state)) if firm else None
