"""How far along the line above ground a place is: what the counter runs straight down or up leads nowhere."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from advisor.outcome.entry import depth_told, entry_length, entry_upright
from advisor.push.track.depth import path
from advisor.push.track.leg import NO_DISTANCE
from advisor.quantity import Units, show_counter
from advisor.site.network import Network
from advisor.tables.load import Tables
from advisor.tables.where import number


@dataclass(frozen=True)
class Ground:
    """A place in a pipe: m in from its opening by the counter, and how much of that is upright.

    `assumed`: nobody measured all of what is upright. `down` is how far down its `line` that is, m, where the
    sheet has the place elsewhere: both counts of one place are then told alike.
    """

    opening: str
    inside: float
    upright: float
    assumed: bool
    line: str = ""
    down: float | None = None

    @property
    def along(self) -> float:
        """How far along the line from the opening to stand, m."""
        return max(self.inside - self.upright, 0.0)

    def words(self, units: Units, place: Callable[[float], str] | None = None) -> str:
        """Where to stand, with how it comes from the counter; nothing where the two are one.

        `place` tells how far down the line that is, where it is told from another end than the upper.
        """
        if self.upright < NO_DISTANCE:
            return ""
        if self.along < NO_DISTANCE:
            return f"above ground at {self.opening} itself"
        along, inside, upright = (
            show_counter(each, units) for each in (self.along, self.inside, self.upright)
        )
        less = f"less {upright} of upright pipe{', assumed' if self.assumed else ''}"
        told = f"above ground {along} along the line ({inside} in, {less})"
        if self.down is None:
            return told
        down = place(self.down) if place else f"{show_counter(self.down, units)} down {self.line}"
        # From the same opening, with nothing upright but its own riser, it says what was just said.
        same = down.startswith(f"{along} ") and down.endswith(f" from {self.opening}")
        return told if same else f"{told}: by the counter that is {down}"


def ground_of(
    network: Network, tables: Tables, opening: str, line: str, distance: float, inside: float
) -> Ground | None:
    """For the place `distance` m down `line`, `inside` m in from the opening of that name by the counter.

    None where the sheet draws no way from the one to the other.
    """
    start = next((piece for piece in network.openings() if piece.name == opening), None)
    if start is None or line not in network.lines:
        return None
    way = path(network, start.id, line, distance)
    if way is None:
        return None
    upright = sum(abs(run) for piece, run in way.runs if piece.vertical)
    entry = entry_upright(start, way.port, tables)
    assumed = entry >= NO_DISTANCE and not depth_told(start)
    assumed |= any(
        piece.vertical and piece.length is not None and piece.length.evidence.grade.weak
        for piece, run in way.runs
        if abs(run) >= NO_DISTANCE
    )
    down = None
    if start.id in (tops := network.positions(line)):
        run = max(inside - entry_length(start, way.port, tables), 0.0)
        down = max(tops[start.id] + (run if way.leads(network, start, tables) == "down" else -run), 0.0)
        down = down if abs(down - distance) > number(tables.where.sure.spread) else None
    return Ground(opening, inside, upright + entry, assumed, line, down)
