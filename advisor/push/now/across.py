"""A head that has run straight across a double fitting into the arm opposite: how likely, and into which."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from advisor.push.log.kinds import BACK, PASSED, STOPPED, TRY
from advisor.push.log.log import Entry
from advisor.push.now.course import Course
from advisor.push.track.double import arms_crossed, crossed, may_cross, opposite
from advisor.push.track.track import Belief, Tracker
from advisor.site.network import Network, Piece
from advisor.tables.load import Tables
from advisor.tables.where import number


@dataclass(frozen=True)
class Across:
    """The junction of the `arm` that the head most likely crossed into, and the chance that it did."""

    arm: Piece
    chance: float

    def likely(self, tables: Tables) -> bool:
        """Whether that is told as where the head is."""
        return self.chance >= number(tables.stuck.tell.likely)


def across(tracker: Tracker, belief: Belief) -> Across | None:
    """The arm opposite in which the head may be; None where that is not likely enough to be told."""
    chart, mass = tracker.chart, belief.mass.sum(axis=0)
    found: dict[str, Across] = {}
    for row, way in enumerate(chart.ways):
        for arm, first in arms_crossed(way.legs):
            in_arm = float(mass[row, chart.leg[row] >= first].sum())
            before = found[arm.id].chance if arm.id in found else 0.0
            found[arm.id] = Across(arm, before + in_arm)
    best = max(found.values(), key=lambda each: each.chance, default=None)
    least = number(chart.where.sure.tell_next)
    return None if best is None or best.chance < least else best


def ran_across(told: Iterable[tuple[Entry, Belief]], tracker: Tracker, course: Course) -> dict[int, str]:
    """The tries told as passed by which the head ran for sure into an arm opposite where it is not wanted:
    its name by the entry's number. `told` are the entries with where the head might be after each."""
    found, since, sure = dict[int, str](), set[int](), number(tracker.chart.where.sure.check_below)
    for entry, belief in told:
        if entry.kind in (BACK, STOPPED):
            since = set()
        elif entry.kind == TRY and entry.data.get("outcome") == PASSED:
            since.add(entry.number)
        over = across(tracker, belief) if since else None
        if over is not None and over.chance >= sure and not course.leads_into(over.arm):
            found |= dict.fromkeys(since, over.arm.name)
        else:
            found = {each: arm for each, arm in found.items() if each not in since}
    return found


def arm_at(tracker: Tracker, arm: Piece, rod: float) -> float | None:
    """How far down its line the head is with so much rod out, m, straight across in the arm of that junction;
    None where the sheet has it elsewhere, or nowhere, with that much."""
    for way in tracker.chart.ways:
        for into, first in arms_crossed(way.legs):
            for leg in way.legs[first:] if into.id == arm.id else ():
                if leg.line == way.legs[first].line and leg.start <= rod <= leg.start + leg.length:
                    return leg.place + leg.fall * (rod - leg.start)
    return None


def open_which(tracker: Tracker, belief: Belief) -> bool:
    """Whether it is open if the head is in the arm opposite or not."""
    least, found = number(tracker.chart.where.sure.tell_next), across(tracker, belief)
    return found is not None and found.chance <= 1 - least


def at_wall(tracker: Tracker, belief: Belief, tables: Tables) -> float:
    """The chance that the head is near a fitting with a wall before whoever turns there: not an open arm."""
    chart, mass = tracker.chart, belief.mass.sum(axis=0)
    near, found = number(chart.where.sure.near), 0.0
    for row, way in enumerate(chart.ways):
        over = crossed(way.legs)
        here = np.zeros(chart.cells, np.bool_)
        for leg in way.legs:
            turns = leg.turns_aside and leg not in over
            if turns and (leg.leaves == "branch" or not may_cross(chart.network, leg.piece, tables)):
                here |= abs(chart.x - leg.start) <= near
        found += float(mass[row, here].sum())
    return found


def faced(network: Network, opening: Piece, fixtures: dict[str, str], tables: Tables) -> frozenset[str]:
    """The fixtures whose water comes out of the arm straight across from the opening in use."""
    joins = next(
        (each for each in network.downstream(opening.id) if _line(network, each) != opening.line), ""
    )
    facing = opposite(network, network.pieces[joins], tables) if joins else None
    arm = network.links.get((facing[1].id, "branch")) if facing is not None else None
    if arm is None:
        return frozenset()
    return frozenset(name for name, at in fixtures.items() if arm[0] in (at, *network.downstream(at)))


def _line(network: Network, piece: str) -> str:
    return network.pieces[piece].line
