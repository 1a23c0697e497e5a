"""What pushes of a job have taken from its plans: gear that kinked, gear that lies in the drain, its pipe.

All of it can be followed in a push that is open; none of it is planned.
"""

from __future__ import annotations

from dataclasses import dataclass
from heapq import heappop, heappush
from math import inf

from advisor.kit.model import KitPart, Loadout
from advisor.routes.passage import Route
from advisor.site.network import Network
from advisor.tables.load import Tables
from advisor.tables.where import number


@dataclass(frozen=True)
class LeftIn:
    """A push whose head and rod stay in the pipe, until they are said to be out.

    `push` is the number of its start in the log; `ports` are those of the opening that the rod may have gone
    by. `gear` is what went in, by its name and by its parts; `rod` how much of it is in there, m: None where
    nobody knows. `way` says, behind the opening, that the way told is in doubt, `locate` what to do then.
    """

    push: int
    opening: str
    ports: tuple[str, ...]
    gear: str
    parts: frozenset[KitPart]
    rod: float | None
    way: str = ""
    locate: str = ""

    def lies_in(self, network: Network, tables: Tables) -> frozenset[str]:
        """The pieces in which that rod may lie, by the sheet and as far as sheet and counter may part.

        With the flow it goes straight on past what joins there; else any way. The opening is none of them:
        another rod may go in there the other way.
        """
        start = next((piece for piece in network.openings() if piece.name == self.opening), None)
        if start is None:
            return frozenset()  # the sheet has that opening no more
        most = inf if self.rod is None else self.rod * (1 + number(tables.where.sure.sheet_off))
        todo = [(0.0, start.id, port) for port in self.ports]
        found: dict[str, float] = {}
        while todo:
            gone, piece_id, leaves = heappop(todo)
            link = network.links.get((piece_id, leaves))
            if link is None or gone > most or link[0] == start.id or link[0] in found:
                continue
            piece, enters = network.pieces[link[0]], link[1]
            found[piece.id] = gone
            outs = ("down",) if enters == "up" else tuple(port for port in piece.ports if port != enters)
            for port in outs:
                heappush(todo, (gone + piece.along, piece.id, port))
        return frozenset(found)


@dataclass(frozen=True)
class Barred:
    """Rods and springs that kinked, the pushes whose gear lies in the drain, and the pieces it lies in."""

    kinked: frozenset[KitPart]
    left: tuple[LeftIn, ...]
    pieces: frozenset[str]

    def sound(self, loadout: Loadout) -> bool:
        """Whether neither its rod nor its spring is known to have kinked."""
        return not loadout.can_kink & self.kinked

    def lies_there(self, loadout: Loadout) -> bool:
        """Whether any part of it is in the drain."""
        return any(loadout.parts & left.parts for left in self.left)

    def shut(self, route: Route) -> bool:
        """Whether a way goes through a pipe in which gear lies."""
        return any(passage.piece.id in self.pieces for passage in route.passages)

    def usable(self, route: Route, loadout: Loadout) -> bool:
        """Whether that gear may go that way."""
        return self.sound(loadout) and not self.lies_there(loadout) and not self.shut(route)

    def leads_in(self, network: Network, opening: str, ports: tuple[str, ...]) -> bool:
        """Whether an opening leads right into such a pipe by any of these ports of it."""
        start = next(piece for piece in network.openings() if piece.name == opening)
        beyond = (network.links.get((start.id, port)) for port in ports)
        return any(link is not None and link[0] in self.pieces for link in beyond)


def barred(network: Network, tables: Tables, kinked: frozenset[KitPart], left: tuple[LeftIn, ...]) -> Barred:
    """All of it on one network."""
    return Barred(kinked, left, frozenset(each for one in left for each in one.lies_in(network, tables)))
