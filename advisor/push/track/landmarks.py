"""What the lens passes on a way, by which a place is known: tie-ins, bends, changes, chambers, traps, end."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from math import inf
from types import MappingProxyType

from advisor.evidence import Grade
from advisor.push.log.sighting import CHAMBER, POOL, TRAP
from advisor.push.track.double import crossed
from advisor.push.track.leg import Leg
from advisor.site.mouths import IN_A_CHANNEL, along_channel, has_channel, in_chamber, mouth_of
from advisor.site.network import Network, Piece
from advisor.tables.load import Tables
from advisor.tables.where import number

TWO_MOUTHED = ("two-way cleanout", "twin cleanout")
Clocks = tuple[tuple[float, float], ...]  # hours and shares
Shares = tuple[tuple[str, float], ...]  # materials and shares
# Hours, size and whether that is assumed, materials, and the most rod at which it is seen, m.
Look = tuple[Clocks, float | None, bool, Shares, float]
_SIDES = {"left": 9.0, "right": 3.0}


@dataclass(frozen=True)
class Landmark:
    """Something to be seen `at` m along the way; `kind` is empty where it only stops the head.

    `stops` is the chance that the head is stopped there, `bars` that it never passes; a run of
    pipe with roots may stop it anywhere from `at` to `until`. What joins in the opening's own channel is seen
    `within` so much rod, m, however long the pipe behind it is. `there` is the chance that it exists at all:
    an opening that nobody has looked for may not.
    """

    at: float
    kind: str
    piece: Piece
    clocks: Clocks = ()
    size: float | None = None
    stops: float = 0.0
    bars: float = 0.0
    to: Shares = ()  # what material it changes to, with the share of each
    run: float = 0.0  # m
    within: float = inf
    there: float = 1.0
    assumed: bool = False  # nobody told its size
    beside: bool = False  # a mouth of the opening's own channel: a head laid into another comes not past it

    @property
    def look(self) -> Look:
        """What is seen of it."""
        return self.clocks, self.size, self.assumed, self.to, self.within

    @property
    def until(self) -> float:
        """Where it ends, m along the way."""
        return self.at + self.run


def landmarks_of(
    legs: tuple[Leg, ...],
    network: Network,
    tables: Tables,
    sticks: Mapping[tuple[str, str, str], float],
    runs: Mapping[tuple[str, str, str], float] = MappingProxyType({}),
) -> tuple[Landmark, ...]:
    """The landmarks of a way in the order in which they are met; the opening itself only stops the head."""
    found = _own_throat(legs[0], tables, sticks)
    at_side = number(tables.where.clock.at_side)
    stops: dict[str, float] = {kind: number(chance) for kind, chance in tables.where.stopped.chances.items()}
    across, within = crossed(legs), _own_channel(legs, tables)
    mouth = mouth_of(legs, tables) or 0
    in_mouth = within if mouth else inf  # the pipe that begins there is seen to be another there alone
    for place, (before, leg) in enumerate(pairwise(legs), start=1):
        piece = leg.piece
        if place <= mouth:
            continue  # the head is laid into the mouth: it passes nothing of the channel, and turns nowhere
        if leg.length or piece.kind not in IN_A_CHANNEL:
            within = inf
        passage = (piece.id, leg.enters, leg.leaves)
        # Straight across a double fitting nothing turns the head, and no wall stands before it.
        over = leg in across
        turned = leg.turns_aside and not over
        what = "other"
        if piece.kind == "junction":
            what = "turn" if turned else "tie-in"
        elif piece.kind in ("bend", "stopper"):
            what = piece.kind
        elif piece.kind == "reducer" and not leg.with_flow:
            what = "rim"
        stop = (
            stops[what]
            if over
            else sticks.get(passage, stops[what] if piece.kind not in ("pipe", "belly", "mark") else 0.0)
        )
        stop = min(stop, number(tables.where.stopped.at_most))
        if piece.kind == "junction" and leg.enters != "branch":
            size, assumed = _branch_size(piece, network)
            clocks = _clocks(piece, leg, at_side)
            stops_it = 0.0 if turned else stop
            beside = within < inf and in_chamber(piece, tables)
            mark = Landmark(leg.start, "tie-in", piece, clocks, size, stops_it, beside=beside)
            found.append(replace(mark, within=within, assumed=assumed))
        if leg.turns_aside and (chamber := _chamber_at(leg, network, tables)) is not None:
            there = 1.0 if chamber.hole is None else chamber.hole.there
            found.append(Landmark(leg.start, CHAMBER, chamber, ((12.0, 1.0),), there=there))
        if turned or piece.kind == "bend":
            found.append(Landmark(leg.start, "bend", piece, stops=stop))
        elif piece.kind == "stopper":
            kind = TRAP if piece.stopper and piece.stopper.endswith("trap") else ""
            found.append(Landmark(leg.start, kind, piece, stops=stop, bars=stop))
        elif piece.kind == "belly":
            found.append(Landmark(leg.start, POOL, piece, stops=stop, run=leg.length))
        elif piece.kind == "opening" and piece.hole is not None and leg.leaves:
            mouths = piece.hole.kind in TWO_MOUTHED
            channel = tables.openings[piece.hole.kind].open_channel
            kind = "two mouths" if mouths else CHAMBER if channel else "tie-in"
            clocks = () if mouths else ((12.0, 1.0),)
            found.append(Landmark(leg.start, kind, piece, clocks, None, stop, there=piece.hole.there))
        elif piece.kind in ("end", "cap", "opening") and piece is not before.piece:  # once, not beyond it too
            found.append(Landmark(leg.start, "end", piece))
        elif stop and piece.kind != "junction":
            found.append(Landmark(leg.start, "", piece, stops=stop, run=runs.get(passage, 0.0)))
        found += _changes(before, leg, in_mouth if place == mouth + 1 else inf)
    return tuple(found)


def _own_throat(entry: Leg, tables: Tables, sticks: Mapping[tuple[str, str, str], float]) -> list[Landmark]:
    """Where the opening's own throat ends, if the plan has it hard either way: held there, nobody has learned
    which way the head was going."""
    ports = ("down", "up") if entry.leaves == "down" else ("up", "down")
    held = (sticks.get((entry.piece.id, entry.enters, port)) for port in ports)
    stop = min(next(filter(None, held), 0.0), number(tables.where.stopped.at_most))
    return [Landmark(entry.start + entry.length, "", entry.piece, stops=stop)] if stop else []


def _own_channel(legs: tuple[Leg, ...], tables: Tables) -> float:
    """The most rod at which what joins in the opening's own channel is seen, m; inf where it has none."""
    hole = legs[0].piece.hole
    if hole is None or not tables.openings[hole.kind].open_channel:
        return inf
    return legs[0].length + number(tables.where.sure.near)


def _chamber_at(leg: Leg, network: Network, tables: Tables) -> Piece | None:
    """The chamber in whose channel the head turns away from the chamber's opening, if it turns in one.

    The opening is drawn at the same metre as what joins in its channel, before or behind it: out of a branch
    there, or into one, the lens sees the chamber whichever way the head turns.
    """
    for aside in ("up", "down"):
        if aside not in (leg.enters, leg.leaves):
            for piece, _ in along_channel(network, leg.piece, aside):
                if has_channel(piece, tables):
                    return piece
    return None


def _changes(before: Leg, leg: Leg, within: float) -> list[Landmark]:
    """Where the pipe itself becomes another, seen `within` so much rod, m."""
    old, new = before.piece.wall, leg.piece.wall
    found = []
    if abs(old.nominal.value - new.nominal.value) > 1e-6:
        size, assumed = _size_of(leg.piece)
        found.append(Landmark(leg.start, "bore", leg.piece, size=size, assumed=assumed, within=within))
    if old.material.likeliest != new.material.likeliest and old.id != new.id:
        found.append(Landmark(leg.start, "material", leg.piece, to=new.material.options, within=within))
    return found


def _clocks(piece: Piece, leg: Leg, at_side: float) -> Clocks:
    """Where the side hole is seen; left and right change places against the flow."""
    if piece.side == "top":
        return ((12.0, 1.0),)
    if piece.side in _SIDES:
        hour = _SIDES[piece.side]
        return ((hour if leg.enters == "up" else 12.0 - hour, 1.0),)
    if piece.lie == "drop":
        return ((12.0, 1.0),)
    if piece.lie == "stack":
        return ()  # upright pipe has no top to tell the hour from
    return ((9.0, at_side), (3.0, at_side), (12.0, 1 - 2 * at_side))


def _branch_size(piece: Piece, network: Network) -> tuple[float | None, bool]:
    """The size of what joins, m, and whether nobody told it."""
    joined = network.links.get((piece.id, "branch"))
    return _size_of(network.pieces[joined[0]]) if joined else (None, False)


def _size_of(piece: Piece) -> tuple[float, bool]:
    nominal = piece.wall.nominal
    return nominal.value, nominal.evidence.grade is not Grade.TOLD
