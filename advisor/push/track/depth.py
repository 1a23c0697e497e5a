"""How deep a point of a drain should lie, from the depth at the opening, the falls between and the slope."""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from math import hypot

from advisor.evidence import TOLD
from advisor.outcome.entry import depth_told, entry_length
from advisor.push.track.place import measured
from advisor.quantity import Dimension, Units, show
from advisor.site.mouths import mouths
from advisor.site.network import Network, Piece
from advisor.tables.load import Tables
from advisor.tables.where import DepthRow, number


@dataclass(frozen=True)
class Depth:
    """m below the ground at the opening; `assumed` names what nobody has measured of the way there.

    `loose` is the part of it, m, that rests on lengths and slopes that nobody has measured, and `guessed`
    that of the opening itself with its name, where nobody has measured that.
    """

    value: float
    assumed: tuple[str, ...]
    loose: float = 0.0
    guessed: tuple[str, float] | None = None

    def assumed_words(self, units: Units) -> str:
        """What nobody has measured, what decides it first; nothing where all was."""
        falls = " and ".join(self.assumed)
        if self.guessed is None:
            return f", assumed {falls}" if falls else ""
        name, depth = self.guessed
        most = f"the depth of {name}, {show(depth, Dimension.LENGTH, units)}"
        if not falls:
            return f", assumed {most}"
        first, then = (most, falls) if depth >= self.loose else (falls, most)
        return f", assumed above all {first}; then {then}"


def expected_depth(network: Network, opening: str, line: str, distance: float) -> Depth | None:
    """The depth at a point for level ground; nothing where the depth at the opening is not known.

    `opening` is the name of the opening that the rod went in by.
    """
    start = next((piece for piece in network.openings() if piece.name == opening), None)
    if start is None or start.hole is None or start.hole.depth is None or line not in network.lines:
        return None
    way = path(network, start.id, line, distance)
    if way is None:
        return None
    depth, assumed, loose = start.hole.depth, [], 0.0
    for piece, run in way.runs:
        if not run:
            continue
        if piece.vertical:
            fall = run if piece.kind != "rise" else -run
        else:
            fall = run * (piece.slope.value if piece.slope else 0.0)
        guessed = [] if measured(piece) else ["lengths"]
        if not piece.vertical and (piece.slope is None or piece.slope.evidence != TOLD):
            guessed.append("slope")
        depth += fall
        loose += fall if guessed else 0.0
        assumed += guessed
    guess = None if depth_told(start) else (opening, start.hole.depth)
    return Depth(depth, tuple(dict.fromkeys(assumed)), abs(loose), guess)


def hardly(read: float, expected: Depth | None, row: DepthRow) -> bool:
    """Whether a depth that was read, m, is off the expected one by more than both are known to, or where
    none is expected, deeper than drains lie.

    Reading, ground and assumed falls err each for itself, so their squares add.
    """
    if expected is None:
        return read > number(row.deepest)
    sure = hypot(number(row.agree) * read, number(row.ground), number(row.loose) * expected.loose)
    return abs(read - expected.value) > sure


def path_length(network: Network, tables: Tables, opening: Piece, line: str, distance: float) -> float | None:
    """Likely m from the hand at an opening along the pipes to a point; nothing where no pipe leads there.

    What a counter shows that is zero with the lens at the opening: the way down to the line is in it.
    """
    way = path(network, opening.id, line, distance)
    if way is None:
        return None
    return entry_length(opening, way.port, tables) + way.length


@dataclass(frozen=True)
class Path:
    """The way from an opening's piece to a point: the port that it leaves by, and the m run in each piece,
    downstream positive. `aside` are the junctions by whose branch it comes or goes."""

    port: str
    runs: tuple[tuple[Piece, float], ...]
    aside: frozenset[str] = frozenset()

    def leads(self, network: Network, opening: Piece, tables: Tables) -> str:
        """The port that the way is told by: into a mouth of the opening's own channel it leads up."""
        return "up" if self.aside & mouths(network, opening, tables).keys() else self.port

    @property
    def length(self) -> float:
        """How many m of pipe it is."""
        return sum(abs(run) for _, run in self.runs)


def path(network: Network, start: str, line: str, distance: float) -> Path | None:
    """The way from the piece of an opening to a point of a line; None where no pipe leads there."""
    tops = network.positions(line)
    last = network.lines[line][-1]
    target = next((i for i in tops if tops[i] <= distance < tops[i] + network.pieces[i].along), last)
    # From each end of a piece to the other, and over to what is joined to it; the shortest in pieces.
    came: dict[tuple[str, str], tuple[str, str] | None] = {(start, port): None for port in ("up", "down")}
    todo = deque(came)
    while todo:
        here = todo.popleft()
        if here[0] == target:
            return _walked(network, came, here, distance - tops[target])
        piece = network.pieces[here[0]]
        steps = [(piece.id, port) for port in piece.ports]
        beyond = network.links.get(here)
        for step in [*([beyond] if beyond else []), *steps]:
            if step not in came:
                came[step] = here
                todo.append(step)
    return None


def _walked(
    network: Network,
    came: dict[tuple[str, str], tuple[str, str] | None],
    end: tuple[str, str],
    into: float,
) -> Path:
    piece = network.pieces[end[0]]
    runs = [(piece, into if end[1] == "up" else into - piece.along)]
    here, before, aside = end, came[end], set[str]()
    while before is not None:
        if before[0] == here[0] and {before[1], here[1]} == {"up", "down"}:
            piece = network.pieces[here[0]]
            runs.append((piece, piece.along if here[1] == "down" else -piece.along))
        aside |= {here[0]} if here[1] == "branch" else set()
        here, before = before, came[before]
    return Path(here[1], tuple(runs), frozenset(aside))
