"""An opening that is reached in a chamber: where it is the chamber is, and where there is none it is none."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from advisor.site.network import Network, Piece, Port
from advisor.tables.load import Tables


def with_chambers(network: Network, tables: Tables) -> Network:
    """A copy in which each such opening knows its chamber, and neither is likelier than the other allows.

    It was drawn as there: then somebody has looked into the chamber. Else it is there in no case without one.
    """
    pieces = dict(network.pieces)
    for arm in network.openings():
        chamber = next(_beside(network, arm, tables), None)
        if chamber is None or arm.hole is None or chamber.hole is None:
            continue
        there, whole = arm.hole.there, chamber.hole.there
        if there == 1:
            pieces[chamber.id] = replace(chamber, hole=replace(chamber.hole, there=1.0))
        else:
            hole = replace(arm.hole, there=min(there, whole), reached_in=chamber.id)
            pieces[arm.id] = replace(arm, hole=hole)
    return replace(network, pieces=pieces)


def without_chamber(network: Network, tables: Tables) -> Network:
    """A copy without what nobody has seen in a chamber that is told not to be there: its place stays."""
    gone = {
        arm.id: replace(arm, kind="mark", hole=None)
        for arm in network.openings()
        if arm.hole is not None and arm.hole.there < 1
        if (chamber := next(_beside(network, arm, tables), None)) is not None and chamber.absent
    }
    return replace(network, pieces={**network.pieces, **gone})


def _beside(network: Network, arm: Piece, tables: Tables) -> Iterator[Piece]:
    """The openings right above it, there or not, with no pipe between, where its kind is reached in one."""
    if arm.hole is None or not tables.openings[arm.hole.kind].in_a_chamber:
        return
    port: Port = "up"
    link = network.links.get((arm.id, port))
    while link is not None and not network.pieces[link[0]].along:
        piece = network.pieces[link[0]]
        if piece.hole is not None or piece.absent:
            yield piece
        link = network.links.get((piece.id, port))
