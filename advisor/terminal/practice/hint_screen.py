"""A hint in the simulated push, in two steps: first where to look, only when asked again the act itself."""

from __future__ import annotations

from collections.abc import Mapping

from advisor.practice import acts
from advisor.practice.acts import Act, State
from advisor.practice.place import how_it_ends, in_a_hundred
from advisor.practice.policies import hint, moves_ahead
from advisor.practice.simulate import Push
from advisor.practice.values import LEAVE
from advisor.terminal.page import Page

_WEIGH = "Is one more try here worth its minutes? Weigh it against what else is left."
_HANDS = "Nothing need be fitted or fetched here. Think of what the hands can do."
_TURNS = "What must change is which way the head points. Think of what turns it."
_WALL = "What must change is the wall. Think of what makes it wider or smoother."
_LOOK_AT = {
    acts.OPEN: "Does it open, how hard are its turns, how long is it? Ask each way in all three.",
    acts.CLOSER: "Look at the rod between your hand and the opening.",
    acts.SLOW: _HANDS,
    acts.FIRM: _HANDS,
    acts.QUICK: _HANDS,
    acts.TURN: _TURNS,
    acts.STRING: _TURNS,
    acts.GUIDE: "What must change is where in the bore the nose runs. Think of what carries it.",
    acts.WATER: _WALL,
    acts.CLEAN: _WALL,
    acts.CHANGE: _WEIGH,
    acts.GIVE_UP: _WEIGH,
}
_ON_THE_MOVE = "Look at the lens: does anything hold the head yet?"


def tell_hint(push: Push, state: State, again: bool, called: Mapping[str, str], page: Page) -> None:
    """Where to look, or, asked `again`, what to do; `called` is what the keys call each kind of action."""
    act = hint(push, state)
    if not again:
        moving = act.kind == acts.SLOW and state.way is not None and state.shown != state.index
        page.line(f"Hint: {_ON_THE_MOVE if moving else _LOOK_AT[act.kind]}")
        return
    if act.way is not None:
        way = push.truth.believed(act.way)
        page.line(f"Hint: {way.route.opening.name}, with {way.loadout.name}.")
        for line in how_it_ends(push.study, way)[:2]:
            page.line(line, indent=4)
        return
    page.line(f"Hint: {called.get(act.kind, act.kind)}.")
    _tell_why(push, state, act, page)


def _tell_why(push: Push, state: State, act: Act, page: Page) -> None:
    if act.kind == acts.GIVE_UP:
        page.line("What is left costs more minutes, on average, than leaving the job undone.", indent=4)
    tries = act.kind in acts.TRY_OF or act.kind == acts.CHANGE
    moves = moves_ahead(push, state) if tries and state.shown == state.index else None
    if moves is not None:
        best = moves.best
        if best.name != LEAVE:
            page.line(f"It passes {in_a_hundred(best.chance)}.", indent=4)
        page.line(f"That way {best.minutes:.0f} min on average, failing counted in.", indent=4)
    elif act.kind == acts.CLOSER:
        page.line("The free rod bows, and part of the push does not arrive.", indent=4)
