"""The push marched from hand to tip along a route, the reach, and the pull on the way back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from advisor.mechanics.push import Bend, Segment, Straight, pull_out, push_bend, push_straight, reach_straight
from advisor.outcome.drawn import Drawn, RodDraw, WallDraw
from advisor.outcome.entry import step_length
from advisor.outcome.geometry import Geometry
from advisor.routes.passage import Passage
from advisor.worlds.draws import Array

_MAY_HOLD = ("belly", "joint", "reducer", "stopper")  # straight, yet a head may be held there


@dataclass(frozen=True)
class Station:
    """What there is when the head stands before one passage; float32[N] each."""

    at: Array  # distance from the opening, m
    force: Array  # push of a sustained hand that is left, N
    slack: Array  # stroke lost in the bends behind, m
    turned: Array  # sum of the angles behind, rad
    bends: int  # turns behind
    tight_bends: int  # of these, about a quarter turn or more


@dataclass(frozen=True)
class March:
    """One route and loadout: stations at every passage, and what holds at the far end."""

    stations: tuple[Station, ...]
    end: Station
    reach: Array  # how far the tip still moves and the reel still holds rod, m
    pull: Array  # pull at the hand that draws the rod back from the far end, N
    drop: float  # likely vertical fall on the way, m


def march_route(
    passages: tuple[Passage, ...],
    geometries: Sequence[Geometry],
    drawn: Drawn,
    kit: RodDraw,
    force: Array | None = None,
) -> March:
    """March the push through the passages; straights of one wall and slope are taken together.

    `force` is the push at the opening, N, where it is not that of a sustained hand.
    """
    n = drawn.worlds.n
    walker = _Walker(drawn, kit, n, force)
    stations = []
    for passage, shape in zip(passages, geometries, strict=True):
        # Only a place where something may happen needs the force, so straights can wait to be merged.
        if shape.turn.way != "none" or passage.step is not None or passage.piece.kind in _MAY_HOLD:
            walker.settle()
        stations.append(walker.station())
        if shape.turn.bends:
            walker.bend(shape)
        else:
            walker.straight(passage)
    walker.settle()
    return March(tuple(stations), walker.station(), walker.full_reach(), walker.pull_back(), walker.drop)


class _Walker:
    def __init__(self, drawn: Drawn, kit: RodDraw, n: int, force: Array | None) -> None:
        self.drawn, self.kit = drawn, kit
        zero = np.zeros(n, np.float32)
        self.at: Array = zero
        self.slack: Array = zero
        self.turned: Array = zero
        self.force: Array = drawn.limit("push_force") if force is None else force
        self.tip = drawn.limit("tip_force")
        self.helical = drawn.limit("helical_factor")
        self.reach: Array = np.full(n, np.inf, np.float32)
        self.segments: list[Segment] = []
        self.bends = self.tight_bends = 0
        self.drop = 0.0
        self.pending: tuple[str, float, WallDraw, Array] | None = None
        self.last: Straight | None = None

    def station(self) -> Station:
        pending = self.pending[3] if self.pending else np.float32(0)
        return Station(self.at + pending, self.force, self.slack, self.turned, self.bends, self.tight_bends)

    def straight(self, passage: Passage) -> None:
        length = length_of(passage, self.drawn)
        if not length.any():
            return
        slope = _downhill(passage)
        if passage.piece.kind in ("drop", "rise"):
            self.drop += float(length.mean()) * (1 if slope > 0 else -1)
        wall = passage.wall_out
        if self.pending is not None and self.pending[:2] == (wall.id, slope):
            self.pending = (*self.pending[:3], self.pending[3] + length)
            return
        self.settle()
        self.pending = (wall.id, slope, self.drawn.wall(wall), length)

    def settle(self) -> None:
        """March through the straight that has been gathered."""
        if self.pending is None:
            return
        _, slope, wall, length = self.pending
        clearance = np.maximum((wall.bore - self.kit.diameter) / 2, np.float32(1e-3))
        run = Straight(
            length, wall.friction, self.kit.weight, slope, self.kit.stiffness, clearance, self.helical
        )
        self.pending, self.last = None, run
        after = np.asarray(push_straight(self.force, *run), np.float32)
        died = (after < self.tip) & np.isinf(self.reach)
        where = np.flatnonzero(died)
        if len(where):
            # Only where it died it is asked how far it came; the others are most of the worlds.
            given = (self.force, self.tip, *run[1:])
            here = (np.asarray(each)[where] if np.ndim(each) else each for each in given)
            reach, got = self.reach.copy(), reach_straight(*here)
            reach[where] = self.at[where] + np.minimum(got, length[where])
            self.reach = reach
        self.force, self.at = after, self.at + length
        self.segments.append(run)

    def bend(self, shape: Geometry) -> None:
        turn = Bend(shape.friction, shape.turn.angle, shape.load)
        after = np.asarray(push_bend(self.force, *turn), np.float32)
        died = (after < self.tip) & np.isinf(self.reach)
        self.reach = np.where(died, self.at, self.reach).astype(np.float32)
        angle = np.asarray(shape.turn.angle, np.float32)
        self.force, self.slack, self.turned = after, self.slack + shape.slack, self.turned + angle
        self.at = self.at + angle * np.asarray(shape.turn.radius, np.float32)
        self.bends += 1
        self.tight_bends += bool(np.mean(angle) > self.drawn.likely("tight_bend"))
        self.segments.append(turn)

    def full_reach(self) -> Array:
        """Where the push dies, on along the last straight if it has not yet; at most the reel."""
        reach = self.reach
        if self.last is not None:
            onward = reach_straight(self.force, self.tip, *self.last[1:])
            reach = np.where(np.isinf(reach), self.at + onward, reach)
        return np.minimum(reach, self.kit.reel).astype(np.float32)

    def pull_back(self) -> Array:
        return np.asarray(pull_out(self.tip, self.segments), np.float32)


def length_of(passage: Passage, drawn: Drawn) -> Array:
    """How long a passage is, m, float32[N]: that of its piece, or of a step of the opening's own entry."""
    if passage.step is None:
        return drawn.length(passage.piece)
    key = f"{passage.piece.id}/entry {passage.step_number}/length"
    return drawn.worlds.value(key, step_length(passage, drawn.tables))


def _downhill(passage: Passage) -> float:
    """Downhill angle toward the tip, rad."""
    if passage.piece.kind == "rise":
        angle = -np.pi / 2
    elif passage.piece.kind == "drop" or passage.piece.vertical:
        angle = np.pi / 2
    else:
        angle = float(np.arctan(passage.piece.slope.value if passage.piece.slope else 0.0))
    return -angle if passage.flow == "against" else angle
