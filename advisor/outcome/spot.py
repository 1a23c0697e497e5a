"""A passage with all that a try at it needs."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from advisor.mechanics.hand import largest_hand_distance
from advisor.mechanics.technique import stroke_left
from advisor.outcome.drawn import Drawn, RodDraw
from advisor.outcome.forces import Station
from advisor.outcome.geometry import Geometry
from advisor.outcome.steady import Steady
from advisor.tables.where import number
from advisor.worlds.draws import Array
from advisor.worlds.spread import middle


@dataclass(frozen=True)
class Spot:
    """A passage with all that a try needs: geometry, force and bends behind it, kit and draws."""

    shape: Geometry
    station: Station
    kit: RodDraw
    drawn: Drawn
    plain: Steady
    rooted: Array | float = 0.0  # worlds in which roots stand at a joint that the head has passed, as 0 or 1

    @property
    def stroke(self) -> Array:
        """The stroke that arrives: what two hands can guide without a fold, less the slack of the bends."""
        return np.asarray(stroke_left(self.hand_stroke, self.station.slack), np.float32)

    @property
    def hand_stroke(self) -> Array:
        """The longest stroke between the hands at a quick push, m."""
        return longest_hand_stroke(self.kit, self.drawn)

    @property
    def by_roots(self) -> bool:
        """True where roots at its joints are what makes a run of pipe hard, more than a wall grown shut."""
        roots = self.shape.roots
        if roots is None or float(roots.there.mean()) < self.drawn.likely("notable_share"):
            return False
        return bool(np.mean(np.asarray(self.shape.gap) <= 1) >= np.mean(self.shape.fits <= 1))

    @property
    def roots_unlikely(self) -> bool:
        """Whether a run is marked for roots of which most of the worlds have none."""
        roots = self.shape.roots
        likely = number(self.drawn.tables.stuck.tell.likely)
        return self.by_roots and roots is not None and float(roots.there.mean()) < likely

    @property
    def run(self) -> tuple[float, float]:
        """Where a run with roots begins and ends, m from the opening; else twice where the spot is."""
        at, roots = self.station.at, self.shape.roots
        if roots is None:
            return middle(at), middle(at)
        return middle(at - roots.at), middle(at - roots.at + roots.length)

    @property
    def possible(self) -> Array:
        """Worlds where no rigid limit forbids it, as 0 or 1."""
        return ((self.shape.fits > 1) & (self.shape.rigid > 1)).astype(np.float32)


def stands(shape: Geometry, station: Station) -> Station:
    """The station of a head that a passage stops: before it, or within a run, among its roots."""
    return station if shape.roots is None else replace(station, at=station.at + shape.roots.at)


def longest_hand_stroke(kit: RodDraw, drawn: Drawn) -> Array:
    """The longest stroke that two hands can guide without a fold, m; never more than the arms allow."""
    # The whole stroke starts as free rod between the hands.
    free = largest_hand_distance(
        kit.stiffness,
        drawn.limit("short_force"),
        drawn.limit("end_factor_guided"),
        drawn.limit("quick_safety"),
    )
    return np.minimum(free, drawn.limit("quick_stroke")).astype(np.float32)
