"""The order of attempts as data of the plan, and what simple rules of ordering would cost."""

from __future__ import annotations

from advisor.result.frozen import Frozen
from advisor.result.way_model import LeaveNote, ShutNote


class WorthNote(Frozen):
    """What an opening is worth once those before it have failed: its chance to reach it, and its minutes."""

    opening: str
    chance: float
    minutes: float


class NextNote(Frozen):
    """Why an opening is next after these, though others by themselves are before it; its `worth` first."""

    after: tuple[str, ...]
    worth: tuple[WorthNote, ...]


class AttemptNote(Frozen):
    """One step of the order of attempts; `chance` is given that it comes to it.

    It is nothing where a push met what ends this way, or one before it in the order.
    """

    opening: str
    loadout: str
    chance: float | None
    leave: tuple[LeaveNote, ...]
    shut: ShutNote | None
    next: NextNote | None


class ComparedNote(Frozen):
    """What a simple rule of ordering would cost, beside the order that is told."""

    rule: str
    openings: tuple[str, ...]
    minutes: float
    chance: float
