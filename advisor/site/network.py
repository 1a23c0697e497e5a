"""What a site sheet stands for: pieces, who joins whom through which port, and which way water runs.

Ports of a piece: `up` and `down` (against and with the flow along its line), `branch` (the side of a
junction) and `hole` (where the rod goes in). The order of a line is the direction of flow.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, field, replace

from advisor.quantity import Belief, Chances, Dimension, Estimate, Known, Units, show
from advisor.site.pieces import Entry, OpeningEntry

Port = str
Length = Known | Estimate
BELOW_MARK = " (below the mark)"  # behind the id of a piece that a mark parts, for the lower of the two


@dataclass(frozen=True)
class Wall:
    """A stretch of one pipe: its quantities are drawn once for the whole stretch.

    `in_ground` is whether roots of a tree may come to it.
    """

    id: str
    nominal: Known
    material: Chances
    condition: Chances
    in_ground: bool = False


@dataclass(frozen=True)
class Hole:
    """What is known of an opening beyond its place."""

    kind: str
    water: str | None = None
    buried: bool = False
    depth: float | None = None
    opens: bool | None = None
    fixture: str | None = None
    size: Known | None = None
    there: float = 1.0  # the chance that it exists, where nobody has looked
    by_sheet: float | None = None  # the same without what pushes saw as they went by its place
    deepest: float | None = None  # m, the most that it may be; None where nobody has seen it
    crawl: bool | None = None  # whether somebody has to crawl to it
    reached_in: str | None = None  # the id of the chamber in which it is, where either may not be there
    opened: bool = False  # it was opened before, by whoever ran a machine from it; it may have seized since
    short_entry: bool = False  # the turn after it is a piece of its own, not part of the entry

    @property
    def toilet(self) -> bool:
        """Whether a toilet stands on it: one that comes off, and can be flushed while it is on."""
        return "toilet" in self.kind


@dataclass(frozen=True)
class Piece:
    """One element of a line. `id` is made of names, so that an inserted bend leaves the rest alone."""

    id: str
    kind: str
    name: str
    line: str
    wall: Wall
    vertical: bool = False
    slope: Known | None = None
    length: Length | None = None
    fitting: Chances | None = None
    lie: str = "none"
    side: str | None = None
    branch: str | None = None
    angle: Length | None = None
    roll: Length | None = None
    upside_down: bool = False
    hole: Hole | None = None
    landmark: str | None = None
    entry: Entry | None = None
    shut_beside: bool = False  # what opens right beside it is told shut, or not there

    @property
    def along(self) -> float:
        """Likely m that it takes up on its line; the length of a joint is the step across it."""
        return 0.0 if self.kind == "joint" else likely(self.length)

    @property
    def stopper(self) -> str | None:
        """The kind of trap, valve or tank that it is."""
        return self.fitting.likeliest if self.kind == "stopper" and self.fitting else None

    @property
    def holds(self) -> str | None:
        """The same, also of what a line ends in."""
        return self.fitting.likeliest if self.kind == "end" and self.fitting else self.stopper

    @property
    def absent(self) -> bool:
        """True for the place of an opening that is told not to be there."""
        return self.kind == "mark" and isinstance(self.entry, OpeningEntry)

    @property
    def only_measured(self) -> bool:
        """True for a place that only a length tells, as an end of what is to be seen: nothing is there."""
        return self.kind == "mark" and self.landmark is None and self.entry is None

    @property
    def in_cellar(self) -> bool:
        """True of an opening that is drawn in a cellar, there or not."""
        return isinstance(self.entry, OpeningEntry) and self.entry.cellar is True

    @property
    def ports(self) -> tuple[Port, ...]:
        """The ports that the piece may have, whether or not something is joined to them."""
        if self.kind == "junction":
            return ("up", "down", "branch")
        return ("up", "down")


@dataclass(frozen=True)
class Assumption:
    """A value that nobody gave: what was taken instead, and why."""

    about: str
    taken: str
    belief: Belief
    dimension: Dimension = Dimension.LENGTH


@dataclass(frozen=True)
class Network:
    """The drain as a graph. `links` maps a port to the port that it is joined to, both ways."""

    site: str
    region: str
    year: int | None
    pieces: dict[str, Piece]
    lines: dict[str, tuple[str, ...]]
    links: dict[tuple[str, Port], tuple[str, Port]]
    map_quality: str = "sketch"
    assumed: tuple[Assumption, ...] = field(default=())

    def openings(self) -> list[Piece]:
        """Every opening, in the order of the sheet."""
        return [piece for piece in self.pieces.values() if piece.hole is not None]

    def tried(self, opened: Collection[str], shut: Collection[str]) -> Network:
        """A copy in which the openings of these names are known to open, or to be there and not to."""
        tried = {**dict.fromkeys(shut, False), **dict.fromkeys(opened, True)}
        if not tried:
            return self
        pieces = {
            key: replace(piece, hole=replace(piece.hole, opens=tried[piece.name], there=1.0))
            if piece.hole is not None and piece.name in tried
            else piece
            for key, piece in self.pieces.items()
        }
        return replace(self, pieces=pieces).looked_beside()

    def looked_beside(self) -> Network:
        """A copy in which every trap, valve or tank knows whether what opens right beside it is shut."""
        holding = [piece for piece in self.pieces.values() if piece.kind in ("stopper", "end")]
        beside = {piece.id: replace(piece, shut_beside=self._shut_beside(piece.id)) for piece in holding}
        return replace(self, pieces={**self.pieces, **beside})

    def _shut_beside(self, piece_id: str) -> bool:
        return any(
            piece.absent or (piece.hole is not None and (piece.hole.opens is False or not piece.hole.there))
            for piece in self.beside(piece_id)
        )

    def beside(self, piece_id: str) -> Iterator[Piece]:
        """What lies right beside a piece on its line, with no pipe between."""
        ports: tuple[Port, ...] = ("up", "down")
        for port in ports:
            link = self.links.get((piece_id, port))
            while link is not None and not self.pieces[link[0]].along:
                yield self.pieces[link[0]]
                link = self.links.get((link[0], port))

    def downstream(self, piece_id: str) -> list[str]:
        """The pieces that water from `piece_id` runs through, itself first."""
        found = [piece_id]
        link = self.links.get((piece_id, "down"))
        while link is not None and link[0] not in found:
            found.append(link[0])
            link = self.links.get((link[0], "down"))
        return found

    def positions(self, line: str) -> dict[str, float]:
        """Likely distance in m of each piece's upper end from the upper end of its line."""
        at, found = 0.0, {}
        for piece_id in self.lines[line]:
            found[piece_id] = at
            at += self.pieces[piece_id].along
        return found

    def _last_run(self, line: str) -> str:
        return next((each for each in reversed(self.lines[line]) if self.pieces[each].along), "")

    def with_mark(self, line: str, distance: float, name: str) -> tuple[Network, str]:
        """A copy with a mark of no length `distance` m down `line`, and the id of the mark: beside those set
        before, what was split by them may be split again."""
        ids = list(self.lines[line])
        tops = self.positions(line)
        for index, piece_id in enumerate(ids):  # noqa: B007, the index is wanted after the break
            piece = self.pieces[piece_id]
            at_end = distance <= tops[piece_id] + piece.along and piece_id == self._last_run(line)
            if piece.along and (tops[piece_id] <= distance < tops[piece_id] + piece.along or at_end):
                share = (distance - tops[piece_id]) / piece.along
                break
        else:
            units = Units.METRIC if self.region == "britain" else Units.INCH
            long = show(sum(self.pieces[each].along for each in ids), Dimension.LENGTH, units)
            raise ValueError(f"line {line!r} is only about {long} long")
        above = replace(piece, length=_scaled(piece.length, share))
        own, split = f"{line}/mark", f"{piece.id}{BELOW_MARK}"
        while own in self.pieces:
            own = f"{own} more"
        while split in self.pieces:
            split = f"{split}{BELOW_MARK}"
        below = replace(piece, id=split, length=_scaled(piece.length, 1 - share))
        mark = Piece(own, "mark", name, line, piece.wall, vertical=piece.vertical, slope=piece.slope)
        pieces: dict[str, Piece] = {}
        for key, value in self.pieces.items():
            if key == piece.id:
                pieces |= {above.id: above, mark.id: mark, below.id: below}
            else:
                pieces[key] = value
        ids[index : index + 1] = [above.id, mark.id, below.id]
        links = dict(self.links)
        beyond = links.pop((piece.id, "down"), None)
        join(links, (above.id, "down"), (mark.id, "up"))
        join(links, (mark.id, "down"), (below.id, "up"))
        if beyond is not None:
            join(links, (below.id, "down"), beyond)
        return replace(self, pieces=pieces, lines={**self.lines, line: tuple(ids)}, links=links), mark.id


def join(
    links: dict[tuple[str, Port], tuple[str, Port]], one: tuple[str, Port], other: tuple[str, Port]
) -> None:
    """Join two ports, both ways."""
    links[one] = other
    links[other] = one


def likely(length: Length | None) -> float:
    """The likely value in m, 0 for a piece without length."""
    return 0.0 if length is None else length.likely


def _scaled(length: Length | None, share: float) -> Length | None:
    if length is None:
        return None
    if isinstance(length, Known):
        return Known(length.value * share, length.evidence)
    return Estimate(length.low * share, length.likely * share, length.high * share, length.evidence)
