"""What a technician sees and feels: from the forces and the geometry of the hidden world."""

from __future__ import annotations

import numpy as np

from advisor.outcome.geometry import Geometry
from advisor.outcome.held import held_by
from advisor.outcome.spot import Spot
from advisor.practice import acts
from advisor.practice.acts import Seen, State
from advisor.practice.truth import Truth
from advisor.tables.stuck import Planned

# How a steady push fails by its shares, in the order in which luck goes through them.
_BY_SHARE: tuple[Planned, ...] = ("wrong_way", "folds", "far_wall", "rod_end", "crosses")
_WALL: Planned = "far_wall"
# What holds the head, with the picture and the feel that go with it.
_HARD = ("wall", acts.DEAD, "The head is hard against something and does not turn.")
_FAILS: dict[Planned, tuple[str, str, str]] = {
    "wrong_way": ("other way", acts.SLACK, "The head goes the other way. You draw it back."),
    "folds": ("folded", acts.SLACK, "Rod goes in, but the picture tips over backward: the head is folding."),
    "far_wall": ("wall", acts.SPRINGY, "The nose sits on the far wall. The picture is all wall."),
    "rod_end": ("held", acts.SPRINGY, "The head looks down the new pipe, but it does not come on."),
    "crosses": ("across", acts.SLACK, "The head runs straight across into the hole opposite."),
    "ledge": ("step", acts.SPRINGY, "The nose stands against a rim. It does not slide over it."),
    "stopper": ("stop", acts.SPRINGY, "The nose is against what fills the pipe. It does not pass it."),
    "roots": ("roots", acts.DEAD, "Roots hang before the lens and do not part."),
    "jams": _HARD,
    "bore": _HARD,
}
DRY = "No water comes past the lens. It runs elsewhere."
_IDLE = "It gets the head no further here, and nothing holds the head: a slow push may."
OPEN_PIPE = "straight"
ON_THE_WAY = "Roots stand on the way."


def holds(truth: Truth, spot: Spot, state: State) -> Planned | None:
    """What holds a push in the hidden world, by its shares there; what cannot pass is held by just that.

    None where a try is none: in a pipe that does not turn, with no rim and nothing that fills it.
    """
    held = {name: float(np.asarray(each)[0]) for name, each in held_by(spot).items()}
    if float(np.asarray(spot.possible)[0]) < 0.5:
        return "bore" if held["bore"] > 0 else "jams"
    if float(np.asarray(spot.shape.gap).flat[0]) <= 1:
        return "roots"
    shares: dict[Planned, float] = {name: float(getattr(spot.plain, name)[0]) for name in _BY_SHARE}
    assert state.way is not None
    # The same push into the same corner ends in the same way.
    left = truth.luck(*state.way, state.index, "how it fails") * sum(shares.values())
    told = _WALL
    for name, share in shares.items():
        left -= share
        if share > 0 and left <= 0:
            told = name
            break
    if told != _WALL:
        return told
    # The planner counts a rim and what ends the way under the far wall.
    told = max((_WALL, "ledge", "stopper"), key=lambda each: held[each])
    if held[told] > 0 or spot.shape.turn.bends:
        return told
    # A straight pipe has no far wall: whatever was tried there met its rim, or nothing.
    return "ledge" if np.isfinite(np.asarray(spot.shape.ledge)).any() else None


def failure(truth: Truth, spot: Spot, state: State, idle: str) -> str:
    """What is told of a try that did not pass."""
    by = holds(truth, spot, state)
    if by is None:
        return idle or _IDLE
    return f"{idle} {_FAILS[by][2]}".strip()


def seen(
    truth: Truth, state: State, spot: Spot | None, said: str, passed: bool, feel: str, ahead: str
) -> Seen:
    """What there is to notice after an action; `spot` is the passage that was tried, if one was."""
    if state.way is None or state.ended == acts.GAVE_UP:
        return Seen(state.counter, "", "", "", said)
    failed = spot is not None and not passed and not state.ended
    by = holds(truth, spot, state) if spot is not None and failed else None
    if by is not None:
        picture, felt, _ = _FAILS[by]
        return Seen(state.counter, picture, lens(truth, state), feel or felt, said)
    picture = ahead or ("target" if state.ended == acts.TARGET else view(truth, state))
    return Seen(state.counter, picture, lens(truth, state), feel or _moving(truth, state), said)


def _moving(truth: Truth, state: State) -> str:
    """How the rod feels on the move: gritty in a rough pipe, dead where little of the push arrives."""
    assert state.way is not None
    outcome = truth.outcome(state.way)
    index = min(state.index, len(outcome.geometries) - 1)
    force = truth.push(state.way, state.hands, firm=False)
    left = float(truth.march(state.way, force).stations[index].force[0])
    if left < 2 * float(truth.drawn.limit("tip_force")[0]):
        return acts.DEAD
    wall = outcome.route.passages[index].wall_in
    return acts.GRITTY if float(truth.drawn.wall(wall).rough[0]) > 0.5 else acts.EASY


def view(truth: Truth, state: State) -> str:
    """The kind of picture of what lies ahead: open pipe as long as that is farther off than a lens shows."""
    assert state.way is not None
    outcome = truth.outcome(state.way)
    if state.index >= len(outcome.geometries):
        return OPEN_PIPE
    if state.shown != state.index:
        force = truth.push(state.way, state.hands, firm=False)
        off = truth.stops_at(state.way, state.index, force) - state.counter
        if off > truth.drawn.likely("lens_shows"):
            return OPEN_PIPE
    return there(outcome.geometries[state.index])


def there(shape: Geometry) -> str:
    """The kind of picture of a passage of the hidden world, as a lens close before it shows it."""
    way, kind = shape.turn.way, shape.passage.piece.kind
    if kind == "belly":
        return "water"
    if shape.roots is not None and float(shape.roots.there[0]) > 0:
        return "roots"
    if way == "none":
        if float(np.asarray(shape.fits).flat[0]) <= 1:
            return "narrow"
        return "step" if kind in ("joint", "reducer") else OPEN_PIPE
    return {"bend": "bend", "merge": "crossing", "hairpin": "crossing", "leg": "side hole",
            "fork": "side hole", "past": "side hole", "stop": "stop"}[way]  # fmt: skip


_LENS = {
    OPEN_PIPE: "Open pipe ahead.",
    "bend": "The pipe turns away to one side.",
    "crossing": "Your pipe ends in the side of another. A wall stands across, water runs one way.",
    "side hole": "A hole opens in the side.",
    "water": "Water lies in the pipe, the lens goes under.",
    "step": "A rim stands up where two pipes meet.",
    "roots": "Roots hang into the pipe at a joint.",
    "narrow": "It narrows ahead to less than the head: build-up, or smaller pipe.",
    "stop": "Something fills the whole pipe.",
    "target": "This is what you came to see.",
}


def lens(truth: Truth, state: State) -> str:
    """What the lens shows ahead, in words; which fitting it is shows from close by."""
    if state.ended == acts.TARGET:
        return _LENS["target"]
    words = _LENS[view(truth, state)]
    if state.way is None or state.shown != state.index:
        return words
    kind = truth.variant(state.way, state.index)
    if kind is None:
        return words
    called = truth.study.reader.call(kind)
    return f"{words} It looks like {'an' if called[0] in 'aeiou' else 'a'} {called}."
