"""The pipes whose mouths open in the channel of a chamber: all but its outlet lead up to the house.

The opening is drawn at the same metre as what joins in its channel, above it or below. One stands over the
channel and lays the head into a mouth by hand, so that it is chosen as the two ways of the line are, and who
says "upstream" may mean any of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol

from advisor.site.network import Network, Piece, Port
from advisor.tables.load import Tables

IN_A_CHANNEL = ("junction", "opening", "mark")


@dataclass(frozen=True)
class Mouth:
    """By which a head leaves its opening: the port, and where a branch joins in its channel that junction."""

    port: str
    junction: str = ""  # its id; empty: by the line that the opening stands in


class Passed(Protocol):
    """A piece with the ports by which it is passed."""

    @property
    def piece(self) -> Piece:
        """That piece."""

    @property
    def enters(self) -> str:
        """Its port in."""

    @property
    def leaves(self) -> str:
        """Its port out; empty where the way ends."""


def has_channel(opening: Piece, tables: Tables) -> bool:
    """Whether pipes may join in an opening: it stands over an open channel."""
    return opening.hole is not None and tables.openings[opening.hole.kind].open_channel


def surely_in_chamber(piece: Piece, tables: Tables) -> bool:
    """Whether what joins right beside a chamber joins in it, whichever of its fittings it is."""
    return all(_are_of_chamber(piece, tables))


def in_chamber(piece: Piece, tables: Tables) -> bool:
    """Whether what joins right beside a chamber may join in it: not where told to be of a closed pipe."""
    return any(_are_of_chamber(piece, tables))


def by_hand(passed: Sequence[Passed], tables: Tables) -> int | None:
    """Which of these is a mouth into which the head is laid by hand, if any is.

    Only where a hand reaches it from above, and where what joins there surely joins in the chamber: nobody
    goes in, and nobody is promised a mouth that may be a branch of a closed pipe.
    """
    place = mouth_of(passed, tables)
    hole = passed[0].piece.hole if passed else None
    if place is None or hole is None or hole.depth is None or hole.depth > tables.limits["arm_reach"].likely:
        return None
    return place if surely_in_chamber(passed[place].piece, tables) else None


def beside(network: Network, opening: Piece, port: Port, tables: Tables) -> Iterator[tuple[Piece, str]]:
    """The pieces in its channel on that side of it, the nearest first, each with its port in; none of an
    opening that has no channel."""
    return along_channel(network, opening, port) if has_channel(opening, tables) else iter(())


def along_channel(network: Network, start: Piece, port: str) -> Iterator[tuple[Piece, str]]:
    """What lies in the channel beside a piece by one of its ports, as far as no pipe lies between."""
    link = network.links.get((start.id, port))
    while link is not None and link[1] != "branch":
        piece = network.pieces[link[0]]
        if piece.along or piece.kind not in IN_A_CHANNEL:
            return
        yield piece, link[1]
        link = network.links.get((piece.id, port))


def mouths(network: Network, opening: Piece, tables: Tables) -> dict[str, Port]:
    """The junctions in its channel, by their ids, each with the port of the opening towards it."""
    return {
        piece.id: port
        for port in ("down", "up")
        for piece, _ in beside(network, opening, port, tables)
        if piece.kind == "junction" and (piece.id, "branch") in network.links and in_chamber(piece, tables)
    }


def leads_on(network: Network, opening: Piece, port: Port, tables: Tables) -> bool:
    """Whether the line itself has a pipe beyond what joins in the channel of its opening on that side."""
    *_, last = opening, *(piece for piece, _ in beside(network, opening, port, tables))
    return (last.id, port) in network.links


def up_mouths(network: Network, opening: Piece, tables: Tables) -> dict[str, Mouth]:
    """The mouths that lead up, by the line whose pipe begins there: the opening's own, then what joins."""
    own = {opening.line: Mouth("up")} if leads_on(network, opening, "up", tables) else {}
    joined = (network.pieces[each] for each in mouths(network, opening, tables))
    return own | {piece.branch or piece.name: Mouth("up", piece.id) for piece in joined}


def mouth_of(passed: Sequence[Passed], tables: Tables) -> int | None:
    """Which of these, from the opening on, goes into a mouth of the opening's own channel, if any does."""
    if not passed or not has_channel(passed[0].piece, tables):
        return None
    for place, each in enumerate(passed):
        if each.piece is passed[0].piece:
            continue
        if each.piece.along or each.piece.kind not in IN_A_CHANNEL or each.enters == "branch":
            return None
        if each.leaves == "branch":
            return place if in_chamber(each.piece, tables) else None
    return None


def mouth_by(passed: Sequence[Passed], tables: Tables) -> Mouth:
    """By which of the mouths of its opening a head goes in."""
    place = mouth_of(passed, tables)
    return Mouth(passed[0].leaves) if place is None else Mouth("up", passed[place].piece.id)


def line_by(passed: Sequence[Passed], tables: Tables) -> str:
    """The line whose pipe begins in the mouth by which a head goes in."""
    place = mouth_of(passed, tables)
    piece = passed[place or 0].piece
    return piece.line if place is None else piece.branch or piece.name


def port_of(passed: Sequence[Passed], tables: Tables) -> str:
    """Which way a head leaves its opening: into a mouth of its channel it goes up, wherever that is drawn."""
    return mouth_by(passed, tables).port


def _are_of_chamber(piece: Piece, tables: Tables) -> list[bool]:
    """Of each fitting that it may be, whether it is a branch of a chamber's channel."""
    options = piece.fitting.options if piece.fitting else ()
    return [tables.junctions[name].shape == "chamber" for name, _ in options]
