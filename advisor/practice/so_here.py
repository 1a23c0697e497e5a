"""What was so in the drain of a push: the fitting that the lens showed, and what held a try that failed.

A plan tells what is likely. Once a try has failed, its likely reason is no reason any more: the debrief tells
what held the head in this drain.
"""

from __future__ import annotations

from dataclasses import replace

from advisor.outcome.attempts import BLOW
from advisor.outcome.walk import HardSpot
from advisor.practice import acts, signs
from advisor.practice.acts import State, Step
from advisor.practice.place import in_a_hundred
from advisor.practice.simulate import Push
from advisor.tables.stuck import CauseRow, Planned


def as_shown(push: Push, state: State, spot: HardSpot, technique: str = "") -> HardSpot:
    """The hard spot as what the lens shows there, where the plan had it among what it may be.

    A blow is judged by all that it may be: what looks like one fitting may be another, and what it breaks
    stays broken.
    """
    if state.way is None or state.shown != state.index or technique == BLOW:
        return spot
    shown = push.truth.variant(state.way, state.index)
    same = tuple(ruling for ruling in spot.rulings if ruling.variant == shown)
    return replace(spot, rulings=same) if same else spot


def held_by_now(push: Push, state: State) -> CauseRow | None:
    """What holds a gentle push at the passage ahead in this drain; None before the head is at one, and where
    nothing holds it."""
    if state.way is None or state.shown != state.index:
        return None
    force = push.truth.push(state.way, state.hands, firm=False)
    by = signs.holds(push.truth, push.truth.tries(state.way, state.index, force)[0], state)
    return None if by is None else _row(push, by)


def what_held(push: Push, state: State, step: Step) -> tuple[str, ...]:
    """What held a try that did not pass, and how often one like it passes there; nothing where none failed.

    A kink is told as that: it ends a push whether or not the head gets past.
    """
    row = held_by_now(push, state)
    if step.act.kind not in acts.TRY_OF or step.passed or row is None or state.way is None:
        return ()
    if step.index is None:  # the push did not get there
        return (_told(_row(push, "reach")),)
    if push.act(state, step.act).ended == acts.KINKED:
        return (f"In this drain: {step.seen.said}",)
    made = push.luck.made(state, step.act, push.truth.push(state.way, state.hands, firm=False))
    told = (f"In this drain: {made.idle}",) if made.idle else ()
    share = f" There such a try passes {in_a_hundred(step.chance)}." if step.chance else ""
    return (*told, f"{_told(row, again=bool(state.tried(state.index)))}{share}")


def _told(row: CauseRow, again: bool = False) -> str:
    """By what holds it, and why that holds where it did not hold a try before."""
    as_before = ", as before" if again else ""
    return f"What held it in this drain{as_before}: {row.words}." + ("" if again else f" {row.why}")


def _row(push: Push, planned: Planned) -> CauseRow:
    return next(each for each in push.study.tables.stuck.causes.values() if each.planned == planned)
