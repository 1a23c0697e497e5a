"""Where a full line is relieved outside: its lowest opening as drawn, and the trap that may hold it there."""

from __future__ import annotations

from advisor.site.network import Network, Piece
from advisor.site.pieces import OpeningEntry

CHAMBER = "inspection chamber"
TRAP = "disconnecting trap"
ARM = "disconnecting trap rodding arm"
# A gully keeps the water of its own trap, and the plugs at a trap lie under that of their chamber.
_RELIEVES = (CHAMBER, "rodding eye", "yard cleanout", "two-way cleanout", "twin cleanout")


def lowest_outside(network: Network) -> Piece | None:
    """The one opening outside that all others drain past; None where none is, or nobody knows which.

    What is dry lies below the stoppage, and what does not open relieves nothing.
    """
    drawn = [
        piece
        for piece in network.openings()
        if piece.hole is not None
        and piece.hole.kind in _RELIEVES
        and not piece.in_cellar
        and piece.hole.water != "dry"
        and piece.hole.opens is not False
        and piece.hole.there
    ]
    past = (each for each in drawn if all(each.id in network.downstream(other.id) for other in drawn))
    lowest = next(past, None)
    return lowest if lowest is not None and lowest.hole is not None and lowest.hole.there == 1 else None


def trap_past(network: Network, opening: Piece) -> Piece | None:
    """The trap that a line standing full at `opening` may be choked in; none where it is dry on the way."""
    for piece in (network.pieces[each] for each in network.downstream(opening.id)[1:]):
        if piece.hole is not None and piece.hole.water == "dry":
            return None
        if piece.stopper == TRAP:
            return piece
    return None


def without_arm(network: Network, trap: Piece) -> bool:
    """Whether a trap is told to have no rodding arm: that is not there, or the chamber of it is not."""
    beside = list(network.beside(trap.id))
    if any(piece.hole is not None and piece.hole.kind == ARM and piece.hole.there for piece in beside):
        return False
    gone = {piece.entry.kind for piece in beside if piece.absent and isinstance(piece.entry, OpeningEntry)}
    return not gone.isdisjoint((ARM, CHAMBER))
