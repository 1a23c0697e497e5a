"""Where a point of a drain lies in plan: only from measured lengths and headings, else the reason why not."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, sin

from advisor.site.believed import told_on
from advisor.site.network import Network, Piece
from advisor.site.sheet import SiteSheet


@dataclass(frozen=True)
class Place:
    """m east and north of the origin of the site."""

    east: float
    north: float


def place_of(network: Network, site: SiteSheet, line: str, distance: float) -> Place | str:
    """Where the point `distance` m down `line` lies, or in words why nobody can tell."""
    if site.origin is None:
        return "the sheet names no origin"
    if network.map_quality != "measured":
        return f"the lengths are from a {network.map_quality}, not measured"
    if line not in network.lines:
        return f"no line is called {line!r}"
    headings = _headings(network, site)
    ends, stopped = _ends(network, headings, _origin(network, site.origin.at))
    for piece_id, top in network.positions(line).items():
        piece = network.pieces[piece_id]
        if top <= distance <= top + piece.along:
            return _inside(piece, distance - top, headings, ends, stopped)
    return f"{line} is shorter than that"


def _inside(
    piece: Piece,
    below: float,
    headings: dict[str, float | None],
    ends: dict[tuple[str, str], Place],
    stopped: list[str],
) -> Place | str:
    upper, lower = ends.get((piece.id, "up")), ends.get((piece.id, "down"))
    if upper is not None and below == 0:
        return upper
    if lower is not None and (piece.vertical or below == piece.along):
        return lower
    reason = _why_not(piece, headings)
    if reason:
        return reason
    if upper is not None:
        return _moved(upper, below, headings[piece.id] or 0.0)
    if lower is not None:
        return _moved(lower, below - piece.along, headings[piece.id] or 0.0)
    return stopped[0] if stopped else "it does not hang together with the origin"


def _headings(network: Network, site: SiteSheet) -> dict[str, float | None]:
    """Which way the water runs in each piece, in rad clockwise from north."""
    given = {sheet.line: sheet.heading.likely if sheet.heading else None for sheet in site.lines}
    found: dict[str, float | None] = {}
    for line, ids in network.lines.items():
        now = given.get(line)
        for piece_id in ids:
            piece = network.pieces[piece_id]
            # Nobody says to which side a bend turns; what follows a drop comes out of its bend.
            if piece.kind == "bend":
                now = None
            if piece.entry is not None and piece.entry.heading is not None:
                now = piece.entry.heading.likely
            found[piece_id] = now
    return found


def _ends(
    network: Network, headings: dict[str, float | None], start: str
) -> tuple[dict[tuple[str, str], Place], list[str]]:
    """Both ends of every piece that measured pieces join to the origin, and what stopped the walk."""
    ends: dict[tuple[str, str], Place] = {(start, "up"): Place(0.0, 0.0)}
    todo, stopped = [(start, "up")], []
    while todo:
        piece_id, port = todo.pop()
        piece, here = network.pieces[piece_id], ends[piece_id, port]
        for other in piece.ports:
            if (piece_id, other) in ends:
                continue
            long = 0.0 if piece.vertical or {port, other} != {"up", "down"} else piece.along
            reason = _why_not(piece, headings) if long else ""
            if reason:
                stopped.append(reason)
                continue
            signed = long if other == "down" else -long
            ends[piece_id, other] = _moved(here, signed, headings[piece_id] or 0.0) if long else here
            todo.append((piece_id, other))
        beyond = network.links.get((piece_id, port))
        if beyond is not None and beyond not in ends:
            ends[beyond] = here
            todo.append(beyond)
    return ends, stopped


def _why_not(piece: Piece, headings: dict[str, float | None]) -> str:
    where = piece.landmark or piece.id.replace("/", ", ")
    if not measured(piece):
        return f"the length of {where} is not measured"
    return "" if headings[piece.id] is not None else f"the heading of {where} is not known"


def measured(piece: Piece) -> bool:
    """True where somebody measured the piece: one length, neither a range nor an "about"."""
    return piece.length is not None and piece.length.evidence == told_on("measured")


def _origin(network: Network, name: str) -> str:
    """The piece that the origin names; the sheet was checked for it."""
    return next(
        piece.id
        for piece in network.pieces.values()
        if piece.landmark == name or (piece.kind in ("opening", "cap") and piece.name == name)
    )


def _moved(place: Place, long: float, heading: float) -> Place:
    return Place(place.east + long * sin(heading), place.north + long * cos(heading))
